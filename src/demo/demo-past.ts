import { existsSync } from 'node:fs';
import { Worker } from 'node:worker_threads';
import { type DemoDay, type DemoYearInput, demoYear } from './demo-year.js';

/** What is the same for every pond of the demo. */
export type YearTables = Pick<DemoYearInput, 'rules' | 'dechlorinator'>;
type OnePond = Omit<DemoYearInput, keyof YearTables>;

/** The built thread, beside this file; there is none when the program runs from its sources. */
const SCRIPT = new URL('./demo-year.worker.js', import.meta.url);

/** Works out the past years of many ponds, half of them on a thread of its own: the first start waits for nothing else. */
export class DemoPast {
  private readonly worker: Worker | null;

  /** Begins to load the thread; it is ready by the time the ponds are stored. */
  constructor(private readonly tables: YearTables) {
    this.worker = existsSync(SCRIPT) ? new Worker(SCRIPT, { workerData: tables }) : null;
    // Listened to so that a thread that cannot run ends nothing but itself.
    this.worker?.on('error', () => undefined);
    // A load that fails before it is asked must not be kept from ending.
    this.worker?.unref();
  }

  /** The years in the order of the ponds, the same with or without a thread. */
  async years(ponds: readonly OnePond[]): Promise<DemoDay[][]> {
    this.worker?.ref();
    const half = this.worker ? Math.ceil(ponds.length / 2) : ponds.length;
    const others = ponds.slice(half);
    const theirs = this.worker && others.length > 0 ? answerOf(this.worker, others) : Promise.resolve([]);
    const own = ponds.slice(0, half).map((pond) => demoYear({ ...pond, ...this.tables }));
    const answer = (await theirs) ?? others.map((pond) => demoYear({ ...pond, ...this.tables }));
    await this.worker?.terminate();
    return [...own, ...answer];
  }
}

/** Null when the thread ends without an answer. */
function answerOf(worker: Worker, ponds: readonly OnePond[]): Promise<DemoDay[][] | null> {
  return new Promise((done) => {
    worker.once('message', done);
    worker.once('exit', () => done(null));
    worker.postMessage(ponds);
  });
}
