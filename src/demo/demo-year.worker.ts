import { parentPort, workerData } from 'node:worker_threads';
import type { YearTables } from './demo-past.js';
import { type DemoYearInput, demoYear } from './demo-year.js';

/** A thread that works out past years for `DemoPast`. It loads nothing but the core, so it is there at once. */
const tables = workerData as YearTables;

parentPort?.once('message', (ponds: readonly Omit<DemoYearInput, keyof YearTables>[]) => {
  parentPort?.postMessage(ponds.map((pond) => demoYear({ ...pond, ...tables })));
});
