import { Worker } from 'node:worker_threads';
import type { CompanyEntity } from '../accounts/index.js';
import type { PlaceWeather } from '../climate/index.js';
import type { Dechlorinators } from '../config/products.js';
import type { CareHistory } from '../core/care/care-plan.js';
import type { CareRule } from '../core/care/care-rule.js';
import type { Station } from '../core/climate/station.js';
import type { CivilDay } from '../core/units/civil-day.js';
import type { PondRecord } from '../ponds/index.js';
import type { PlannedPond } from './pond-planner.service.js';

/** What the planner of every thread is made of. */
export interface PlanningTables {
  readonly stations: readonly Station[];
  readonly rules: readonly CareRule[];
  readonly dechlorinators: Dechlorinators;
}

/** One pond to be planned. Plain values: they are copied into the thread. */
export interface PlanningOrder {
  readonly record: PondRecord;
  readonly history: CareHistory;
  readonly company: Pick<CompanyEntity, 'dechlorinatorId' | 'defaultDoneBy'>;
  readonly today: CivilDay;
  readonly weather: PlaceWeather;
}

/** What of a planned pond is stored; the traces of the forecast stay in the thread. */
export type PlanResult = Pick<PlannedPond, 'plan' | 'outlook' | 'winter'>;

/** A pond that cannot be planned comes back with the reason. */
export type PlanningAnswer = { readonly value: PlanResult } | { readonly reason: string };

interface Thread {
  readonly worker: Worker;
  readonly waiting: Map<number, (answer: PlanningAnswer | null) => void>;
}

/** The built thread, beside this file. */
export const PLANNING_SCRIPT = new URL('./planning.worker.js', import.meta.url);

/** A thread needs a third of it; without a limit it puts off its collections until it has taken far more. */
const THREAD_MEMORY = { maxOldGenerationSizeMb: 256, maxYoungGenerationSizeMb: 16 };

/** Threads that plan ponds side by side, for a replan of many. `core/` stays without threads: each has a planner. */
export class PlanningThreads {
  private threads: readonly Thread[];
  private next = 0;

  private constructor(workers: readonly Worker[]) {
    this.threads = workers.map((worker) => ({ worker, waiting: new Map() }));
    for (const thread of this.threads) this.listen(thread);
  }

  /** Close them. */
  static start(count: number, tables: PlanningTables, script: URL = PLANNING_SCRIPT): PlanningThreads {
    return new PlanningThreads(
      Array.from({ length: count }, () => new Worker(script, { workerData: tables, resourceLimits: THREAD_MEMORY })),
    );
  }

  get count(): number {
    return this.threads.length;
  }

  /** Hands a pond to the thread with the fewest before it. Null when the thread has ended: plan it elsewhere. */
  plan(order: PlanningOrder): Promise<PlanningAnswer | null> {
    const [first, ...others] = this.threads;
    if (!first) return Promise.resolve(null);
    const { worker, waiting } = others.reduce((a, b) => (b.waiting.size < a.waiting.size ? b : a), first);
    const number = this.next++;
    return new Promise((done) => {
      waiting.set(number, done);
      worker.postMessage({ number, order });
    });
  }

  async close(): Promise<void> {
    await Promise.all(this.threads.map(({ worker }) => worker.terminate()));
  }

  private listen(thread: Thread): void {
    const { worker, waiting } = thread;
    worker.on('message', ({ number, answer }: { number: number; answer: PlanningAnswer }) => {
      waiting.get(number)?.(answer);
      waiting.delete(number);
    });
    // An error that nobody listens for would end the program; the thread's end follows it.
    worker.on('error', () => undefined);
    worker.on('exit', () => {
      this.threads = this.threads.filter((other) => other !== thread);
      for (const done of waiting.values()) done(null);
      waiting.clear();
    });
  }
}
