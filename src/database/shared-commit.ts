import type { Database } from './database.js';

interface Waiting {
  readonly work: () => Promise<unknown>;
  readonly resolve: (value: unknown) => void;
  readonly reject: (error: unknown) => void;
}

/**
 * Small writes of parallel workers that share one commit: those asked for while a commit is under way go together into
 * the next. Each is told its own outcome, and only after the commit that holds it. When one fails, each is done alone,
 * so that a fault of one is never another's.
 */
export class SharedCommit {
  private waiting: Waiting[] = [];
  private isRunning = false;

  constructor(
    private readonly database: Database,
    private readonly name: string,
  ) {}

  run<T>(work: () => Promise<T>): Promise<T> {
    return new Promise<T>((resolve, reject) => {
      this.waiting.push({ work, resolve: resolve as (value: unknown) => void, reject });
      if (!this.isRunning) void this.drain();
    });
  }

  private async drain(): Promise<void> {
    this.isRunning = true;
    // Workers that were let go together come back together.
    await new Promise((next) => setImmediate(next));
    while (this.waiting.length > 0) {
      const batch = this.waiting;
      this.waiting = [];
      await this.commit(batch);
    }
    this.isRunning = false;
  }

  private async commit(batch: readonly Waiting[]): Promise<void> {
    try {
      const values = await this.database.unitOfWork(this.name, async () => {
        const done: unknown[] = [];
        for (const { work } of batch) done.push(await work());
        return done;
      });
      for (const [index, { resolve }] of batch.entries()) resolve(values[index]);
    } catch (error) {
      const [only] = batch;
      if (batch.length === 1 && only) only.reject(error);
      else for (const one of batch) await this.commit([one]);
    }
  }
}
