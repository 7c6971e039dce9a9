/**
 * `npm run bench:plan -- [--ponds 10000] [--json]`: the replan of stored ponds on SQLite with the shipped rules, beside a
 * bare insert of the rows it wrote. Goals: the first replan takes at most three times the bare insert and half the CPU of
 * the forecasts, the next day's less than half of the first, and the memory stays under 600 MB.
 */
import { parseArgs } from 'node:util';
import { CareCalendarModule, CareCalendarService } from '../care-calendar/index.js';
import { ClimateService } from '../climate/index.js';
import { addDays, type CivilDay, isoDateOf } from '../core/units/civil-day.js';
import { PondImportService, PondsModule, PondsService } from '../ponds/index.js';
import { bareInsert, rowsWritten } from './plan/bare-insert.js';
import { sampleParts } from './plan/sample-parts.js';
import { pondFile } from './pond-file.js';
import { temporaryCompany } from './temporary-company.js';
import { tableOf } from './water-forecast/table.js';

const SAMPLE_PONDS = 200;
const MOST_TIMES_INSERT = 3;
const MOST_SHARE_NEXT_DAY = 0.5;
const MOST_MEMORY_MB = 600;

interface Step {
  readonly step: string;
  readonly wallS: number;
  /** Of all threads of the program. */
  readonly cpuS: number;
  readonly rows: number;
}

const { values } = parseArgs({
  options: { ponds: { type: 'string', default: '10000' }, json: { type: 'boolean', default: false } },
});
const ponds = Number(values.ponds);

const bench = await temporaryCompany(PondsModule);
try {
  const { companyId, foundation, databaseFile } = bench;
  // Nobody plans them yet: the calendar comes with services of its own, so that the first replan stands alone.
  const imports = bench.app.get(PondImportService, { strict: false });
  const { report } = await imports.importCsv(companyId, { fileName: 'ponds.csv', text: pondFile(ponds) });
  if (report.pondsAdded !== ponds) throw new Error(`${report.pondsAdded} of ${ponds} ponds were imported`);

  const app = await bench.another(CareCalendarModule);
  const calendar = app.get(CareCalendarService);
  const today = foundation.clock.today('UTC');
  const replan = async (step: string, asOf: CivilDay, isNewDay: boolean): Promise<Step> => {
    const since = foundation.clock.instant();
    const [cpu, start] = [process.cpuUsage(), performance.now()];
    const { failed } = await calendar.replanAll(companyId, { asOf });
    const wallS = (performance.now() - start) / 1000;
    const { user, system } = process.cpuUsage(cpu);
    if (failed.length > 0) throw new Error(`A pond could not be planned: ${failed[0]?.reason}`);
    const rows = await rowsWritten(databaseFile, since, isNewDay ? isoDateOf(asOf) : '');
    return { step, wallS, cpuS: (user + system) / 1e6, rows };
  };

  const first = await replan('first replan, winters simulated', today, true);
  const insert = await bareInsert(databaseFile);
  const again = await replan('all again, the same day', today, false);
  const next = await replan('all again, the next day', addDays(today, 1), true);
  const memoryMb = process.resourceUsage().maxRSS / 1024;

  const service = app.get(PondsService, { strict: false });
  const ids = (await service.activeIds(companyId)).slice(0, SAMPLE_PONDS);
  const records = await service.several(companyId, ids);
  const parts = sampleParts(records, app.get(ClimateService, { strict: false }), foundation, today);

  const forecastCpuS = (ponds * parts.forecastMs) / 1000;
  const mostS = MOST_TIMES_INSERT * insert.wallS + forecastCpuS / 2;
  const goals = [
    {
      goal: `first replan at most ${mostS.toFixed(1)} s`,
      reached: `${first.wallS.toFixed(1)} s`,
      isMet: first.wallS <= mostS,
    },
    {
      goal: `next day at most ${MOST_SHARE_NEXT_DAY} of the first`,
      reached: (next.wallS / first.wallS).toFixed(2),
      isMet: next.wallS <= MOST_SHARE_NEXT_DAY * first.wallS,
    },
    { goal: 'the same day again writes nothing', reached: `${again.rows} rows`, isMet: again.rows === 0 },
    {
      goal: `memory under ${MOST_MEMORY_MB} MB`,
      reached: `${memoryMb.toFixed(0)} MB`,
      isMet: memoryMb < MOST_MEMORY_MB,
    },
  ];

  if (values.json) {
    process.stdout.write(`${JSON.stringify({ ponds, first, insert, again, next, parts, memoryMb, goals })}\n`);
  } else {
    const steps: Step[] = [first, { step: `bare insert, ${insert.megabytes.toFixed(0)} MB`, ...insert }, again, next];
    const cells = steps.map(({ step, wallS, cpuS, rows }) => [
      step,
      wallS.toFixed(1),
      cpuS.toFixed(1),
      (ponds / wallS).toFixed(0),
      String(rows),
    ]);
    process.stdout.write(`${tableOf(['step', 'wall s', 'CPU s', 'ponds/s', 'rows'], cells, 1)}\n\n`);
    const { winterMs, forecastMs, planMs } = parts;
    process.stdout.write(
      `CPU of one pond alone: winter ${winterMs.toFixed(1)} ms (once), forecast ${forecastMs.toFixed(1)} ms, plan ${planMs.toFixed(1)} ms\n\n`,
    );
    const marks = goals.map(({ goal, reached, isMet }) => [goal, reached, isMet ? 'met' : 'not met']);
    process.stdout.write(`${tableOf(['goal', 'reached', ''], marks, 1)}\n`);
  }
} finally {
  await bench.close();
}
