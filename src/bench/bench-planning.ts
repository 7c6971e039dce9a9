/** `npm run bench:planning -- [--ponds 1000] [--json]`: planning stored ponds with the shipped rules, database included. */
import { parseArgs } from 'node:util';
import { CareCalendarModule, CareCalendarService } from '../care-calendar/index.js';
import { addDays } from '../core/units/civil-day.js';
import { Clock } from '../platform/clock.js';
import { PondImportService, PondsService } from '../ponds/index.js';
import { pondFile } from './pond-file.js';
import { temporaryCompany } from './temporary-company.js';
import { tableOf } from './water-forecast/table.js';

interface Row {
  readonly what: string;
  readonly ponds: number;
  readonly seconds: number;
  readonly msPerPond: number;
  readonly changes: number;
}

const { values } = parseArgs({
  options: { ponds: { type: 'string', default: '1000' }, json: { type: 'boolean', default: false } },
});
const ponds = Number(values.ponds);
const bench = await temporaryCompany(CareCalendarModule);
try {
  const { app, companyId } = bench;
  const calendar = app.get(CareCalendarService);
  const rows: Row[] = [];
  const measure = async (what: string, count: number, work: () => Promise<number>) => {
    const start = performance.now();
    const changes = await work();
    const ms = performance.now() - start;
    rows.push({ what, ponds: count, seconds: ms / 1000, msPerPond: ms / count, changes });
  };
  const all = (asOf?: number) => async () => {
    const report = await calendar.replanAll(companyId, asOf === undefined ? {} : { asOf: asOf as never });
    if (report.failed.length > 0) throw new Error(`A pond could not be planned: ${report.failed[0]?.reason}`);
    return report.changes;
  };
  const today = app.get(Clock, { strict: false }).today('UTC');

  await measure('import and first plan (winter simulated)', ponds, async () => {
    const imports = app.get(PondImportService, { strict: false });
    const run = await imports.importCsv(companyId, { fileName: 'ponds.csv', text: pondFile(ponds) });
    return run.report.pondsAdded;
  });
  await measure('all again, the same day', ponds, all());
  await measure('all again, the next day', ponds, all(addDays(today, 1)));
  const [pondId] = await app.get(PondsService, { strict: false }).activeIds(companyId);
  await calendar.replan(companyId, pondId as string);
  await measure('one pond, its forecast still at hand', 50, async () => {
    for (let i = 0; i < 50; i++) await calendar.replan(companyId, pondId as string);
    return 0;
  });

  if (values.json) process.stdout.write(`${JSON.stringify({ rows })}\n`);
  else {
    const cells = rows.map((row) => [
      row.what,
      String(row.ponds),
      row.seconds.toFixed(1),
      row.msPerPond.toFixed(1),
      String(row.changes),
    ]);
    process.stdout.write(`${tableOf(['step', 'ponds', 's', 'ms a pond', 'changes'], cells, 1)}\n`);
  }
} finally {
  await bench.close();
}
