/** Thread of a search: says "ready" once the problem is laid out, searches on "go", answers with its best plan. */
import { parentPort, workerData } from 'node:worker_threads';
import { flatProblem } from '../../core/rounds/flat-problem.js';
import type { RoundsPlan, RoundsProblem } from '../../core/rounds/rounds-problem.js';
import { runSearch } from '../../core/rounds/run-search.js';
import { RoundsSearch, searchSettings } from '../../core/rounds/search.js';
import { SharedBest } from './shared-best.js';

export interface ThreadTask {
  readonly problem: RoundsProblem;
  readonly start?: RoundsPlan;
  readonly seed: number;
  readonly thread: number;
  readonly threads: number;
  readonly searchMs: number;
  readonly shared: SharedArrayBuffer;
  /** One number; anything but 0 ends the search. */
  readonly cancel: SharedArrayBuffer;
}

export interface ThreadResult {
  readonly plan: RoundsPlan;
  readonly cost: number;
  readonly steps: number;
}

const port = parentPort;
if (port) {
  const task = workerData as ThreadTask;
  const flat = flatProblem(task.problem);
  port.once('message', () => {
    const begin = performance.now();
    const cancel = new Int32Array(task.cancel);
    const settings = searchSettings(task.thread);
    const search = new RoundsSearch(flat, task.seed * 1000 + task.thread, settings, task.start);
    runSearch(search, {
      share: () => (performance.now() - begin) / task.searchMs,
      isCancelled: () => Atomics.load(cancel, 0) !== 0,
      exchange: new SharedBest(task.shared, task.threads, task.thread, flat.crewDays, flat.visits),
    });
    port.postMessage({ plan: search.bestPlan(), cost: search.bestCost, steps: search.steps } satisfies ThreadResult);
    port.close();
  });
  port.postMessage('ready');
}
