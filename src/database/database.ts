import { AsyncLocalStorage } from 'node:async_hooks';
import { setTimeout as pause } from 'node:timers/promises';
import type { DataSource, EntityManager } from 'typeorm';
import type { CompanyId } from '../platform/ids.js';
import { CompanyStore } from './company-store.js';
import { SharedStore } from './shared-store.js';
import { CommittedRows, OpenUnit, type Statements } from './statements.js';

/** PostgreSQL: serialization failure and deadlock. The transaction left nothing behind and may run again. */
const RETRYABLE = new Set(['40001', '40P01']);
/** Thirty units at once on one row were seen to need more than five. */
const MOST_TRIES = 10;
const LONGEST_PAUSE_MS = 1000;
const RETRY_PAUSE_MS = 20;
/** A unit that takes longer than this is rolled back: it keeps everybody else from writing. */
const UNIT_LIMIT_MS = 120_000;

/**
 * The one door to the database. Reads use their own connection; every write goes through a unit of work, one at a
 * time in this process (SQLite) or as a serializable transaction (PostgreSQL). Never await mail, HTTP or a timer
 * inside a unit: it holds the only write turn. A clash with a unique key ends the unit on PostgreSQL, so catch it
 * around the unit, not inside.
 */
export class Database {
  private tail: Promise<unknown> = Promise.resolve();
  private readonly open = new AsyncLocalStorage<OpenUnit>();
  private readonly committed: CommittedRows;

  constructor(
    private readonly writer: DataSource,
    private readonly reader: DataSource,
    private readonly unitLimitMs = UNIT_LIMIT_MS,
  ) {
    this.committed = new CommittedRows(reader.manager);
  }

  /** One company's rows: inside a unit of work those of the unit, outside it those already committed. */
  company(companyId: CompanyId): CompanyStore {
    return new CompanyStore(companyId, this.statements());
  }

  /** Rows that belong to no one company. */
  shared(): SharedStore {
    return new SharedStore(this.statements());
  }

  /** Runs `work` in one transaction. A call inside another joins it; a throw rolls everything back. */
  async unitOfWork<T>(name: string, work: () => Promise<T>): Promise<T> {
    if (this.open.getStore()?.isOpen) return work();
    if (this.isPostgres) return this.withRetry(() => this.transaction(name, work));

    const turn = this.tail.then(() => this.transaction(name, work));
    this.tail = turn.catch(() => undefined);
    return turn.catch((cause: unknown) => {
      if (cause instanceof Error && /SQLITE_(FULL|BUSY|IOERR|READONLY)/.test(cause.message)) {
        throw new Error(`The change "${name}" was not saved: ${cause.message}`, { cause });
      }
      throw cause;
    });
  }

  /** Whether a row clashed with a unique key: the caller may take the first one as the answer. */
  static isUniqueViolation(error: unknown): boolean {
    const { code, message } = error as { code?: string; message?: string };
    return code === '23505' || (code === 'SQLITE_CONSTRAINT' && /UNIQUE/.test(message ?? ''));
  }

  /** A read that proves the connection lives. */
  async ping(): Promise<void> {
    await this.reader.query('SELECT 1');
  }

  /** Waits for the units already asked for, then closes. */
  async close(): Promise<void> {
    await this.tail;
    if (this.reader !== this.writer && this.reader.isInitialized) await this.reader.destroy();
    if (this.writer.isInitialized) await this.writer.destroy();
  }

  private get isPostgres(): boolean {
    return this.writer.options.type === 'postgres';
  }

  private statements(): Statements {
    const unit = this.open.getStore();
    return unit?.isOpen ? unit : this.committed;
  }

  private transaction<T>(name: string, work: () => Promise<T>): Promise<T> {
    const run = async (manager: EntityManager): Promise<T> => {
      // A write as the first statement takes SQLite's write lock while waiting for it is still allowed.
      if (!this.isPostgres) await manager.query('DELETE FROM write_turn WHERE 0');
      const unit = new OpenUnit(name, manager);
      try {
        return await this.open.run(unit, () => this.withinLimit(name, work));
      } finally {
        unit.end();
      }
    };
    return this.isPostgres ? this.writer.transaction('SERIALIZABLE', run) : this.writer.transaction(run);
  }

  private async withinLimit<T>(name: string, work: () => Promise<T>): Promise<T> {
    let timer: NodeJS.Timeout | undefined;
    const limit = new Promise<never>((_, fail) => {
      timer = setTimeout(
        () => fail(new Error(`The unit of work "${name}" took longer than ${this.unitLimitMs} ms and was undone.`)),
        this.unitLimitMs,
      );
    });
    try {
      return await Promise.race([work(), limit]);
    } finally {
      clearTimeout(timer);
    }
  }

  private async withRetry<T>(attempt: () => Promise<T>): Promise<T> {
    for (let tries = 1; ; tries++) {
      try {
        return await attempt();
      } catch (error) {
        if (tries >= MOST_TRIES || !RETRYABLE.has((error as { code?: string }).code ?? '')) throw error;
        await pause(Math.min(LONGEST_PAUSE_MS, RETRY_PAUSE_MS * 2 ** tries) * (0.5 + Math.random()));
      }
    }
  }
}
