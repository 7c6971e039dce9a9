import { Worker } from 'node:worker_threads';
import type { RoundsPlan, RoundsProblem } from '../../core/rounds/rounds-problem.js';
import type { ThreadResult, ThreadTask } from './rounds-search.worker.js';
import { SharedBest } from './shared-best.js';

export interface ThreadSearch {
  /** Time of the search itself, from the moment all threads have laid out the problem. */
  readonly searchMs: number;
  readonly seed?: number;
  /** 2 if not given. */
  readonly threads?: number;
  readonly start?: RoundsPlan;
  /** Ends the search early; the best plan so far is returned. */
  readonly signal?: AbortSignal;
}

export interface FoundPlan {
  readonly plan: RoundsPlan;
  /** The objective, see `core/rounds/prices.ts`. */
  readonly cost: number;
  readonly steps: number;
  /** Measured from the start of the search to the last answer. */
  readonly tookMs: number;
}

/**
 * Searches rounds on threads of their own, so that pages are served meanwhile. The threads search the same problem at
 * different temperatures and take over each other's best. Rejects when a thread fails, for example on an unsound problem.
 */
export async function searchInThreads(problem: RoundsProblem, options: ThreadSearch): Promise<FoundPlan> {
  const threads = options.threads ?? 2;
  const shared = SharedBest.memoryFor(threads, problem.crewDays.length, problem.visits.length);
  const cancel = new SharedArrayBuffer(4);
  const stop = () => Atomics.store(new Int32Array(cancel), 0, 1);
  if (options.signal?.aborted) stop();
  options.signal?.addEventListener('abort', stop, { once: true });
  const workers = Array.from({ length: threads }, (_, thread) => {
    const { searchMs, seed = 1, start } = options;
    const task: ThreadTask = {
      problem,
      ...(start ? { start } : {}),
      seed,
      thread,
      threads,
      searchMs,
      shared,
      cancel,
    };
    return new Worker(new URL('./rounds-search.worker.js', import.meta.url), { workerData: task });
  });
  try {
    await Promise.all(workers.map((worker) => message(worker)));
    const begin = performance.now();
    const answers = workers.map((worker) => message(worker) as Promise<ThreadResult>);
    for (const worker of workers) worker.postMessage('go');
    const results = await Promise.all(answers);
    const best = results.reduce((a, b) => (b.cost < a.cost ? b : a));
    return {
      plan: best.plan,
      cost: best.cost,
      steps: results.reduce((sum, { steps }) => sum + steps, 0),
      tookMs: performance.now() - begin,
    };
  } finally {
    options.signal?.removeEventListener('abort', stop);
    await Promise.all(workers.map((worker) => worker.terminate()));
  }
}

function message(worker: Worker): Promise<unknown> {
  return new Promise((resolve, reject) => {
    worker.once('message', resolve);
    worker.once('error', reject);
    worker.once('exit', (code) => reject(new Error(`A search thread ended with code ${code} before it had answered.`)));
  });
}
