/** `npm run bench:import -- [--ponds 10000] [--json]`: importing a file of ponds, importing it again, exporting it. */
import { setImmediate as nextTurn } from 'node:timers/promises';
import { parseArgs } from 'node:util';
import type { ImportProgress } from '../ponds/index.js';
import { PondExportService, PondImportService, PondsModule } from '../ponds/index.js';
import { pondFile } from './pond-file.js';
import { temporaryCompany } from './temporary-company.js';
import { tableOf } from './water-forecast/table.js';

interface Row {
  readonly what: string;
  readonly ponds: number;
  readonly seconds: number;
  readonly longestPauseMs: number | null;
}

/** Longest time other work had to wait for the event loop while `work` ran. */
async function withPauses<T>(work: Promise<T>): Promise<{ value: T; longestPauseMs: number }> {
  let isOver = false;
  const watched = work.finally(() => {
    isOver = true;
  });
  let longestPauseMs = 0;
  let before = performance.now();
  while (!isOver) {
    await nextTurn();
    const now = performance.now();
    longestPauseMs = Math.max(longestPauseMs, now - before);
    before = now;
  }
  return { value: await watched, longestPauseMs };
}

async function importOnce(imports: PondImportService, companyId: string, text: string) {
  const ends = new Map<ImportProgress['phase'], number>();
  const start = performance.now();
  const running = imports.importCsv(
    companyId,
    { fileName: 'ponds.csv', text },
    { onProgress: ({ phase }) => ends.set(phase, performance.now()) },
  );
  const { value: run, longestPauseMs } = await withPauses(running);
  if (run.state !== 'imported') throw new Error(`The import was refused: ${JSON.stringify(run.report.faults[0])}`);
  const checked = ends.get('checking') ?? start;
  return {
    checkingS: (checked - start) / 1000,
    savingS: (performance.now() - checked) / 1000,
    longestPauseMs,
    report: run.report,
  };
}

const { values } = parseArgs({
  options: { ponds: { type: 'string', default: '10000' }, json: { type: 'boolean', default: false } },
});
const ponds = Number(values.ponds);
const bench = await temporaryCompany(PondsModule);
try {
  const imports = bench.app.get(PondImportService);
  const text = pondFile(ponds);
  const first = await importOnce(imports, bench.companyId, text);
  const again = await importOnce(imports, bench.companyId, text);
  const exportStart = performance.now();
  let characters = 0;
  for await (const piece of bench.app.get(PondExportService).exportCsv(bench.companyId)) characters += piece.length;
  const exportS = (performance.now() - exportStart) / 1000;

  const rows: Row[] = [
    { what: 'checked', ponds, seconds: first.checkingS, longestPauseMs: first.longestPauseMs },
    { what: 'saved, one unit of work', ponds: first.report.pondsAdded, seconds: first.savingS, longestPauseMs: null },
    {
      what: 'the same file again',
      ponds,
      seconds: again.checkingS + again.savingS,
      longestPauseMs: again.longestPauseMs,
    },
    { what: `exported, ${Math.round(characters / 1000)} kB`, ponds, seconds: exportS, longestPauseMs: null },
  ];
  const peakMemoryMB = Math.round(process.resourceUsage().maxRSS / 1024);
  if (values.json)
    process.stdout.write(`${JSON.stringify({ rows, changedAgain: again.report.pondsChanged, peakMemoryMB })}\n`);
  else {
    const cells = rows.map(({ what, ponds: count, seconds, longestPauseMs }) => [
      what,
      String(count),
      seconds.toFixed(2),
      longestPauseMs === null ? '' : longestPauseMs.toFixed(0),
    ]);
    process.stdout.write(`${tableOf(['step', 'ponds', 's', 'longest pause, ms'], cells, 1)}\n`);
    process.stdout.write(
      `Changed by the same file again: ${again.report.pondsChanged}. Peak memory ${peakMemoryMB} MB.\n`,
    );
  }
} finally {
  await bench.close();
}
