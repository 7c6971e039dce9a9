import { AsyncLocalStorage } from 'node:async_hooks';
import type { DataSource, EntityManager } from 'typeorm';
import type { CompanyId } from '../platform/ids.js';
import { CompanyStore } from './company-store.js';
import { SharedStore } from './shared-store.js';

/** PostgreSQL: serialization failure and deadlock. The transaction left nothing behind and may run again. */
const RETRYABLE = new Set(['40001', '40P01']);
const MOST_TRIES = 5;

/**
 * The one door to the database. Reads use their own connection; every write goes through a unit of work, one at a
 * time in this process (SQLite) or as an ordinary transaction (PostgreSQL). Never await mail, HTTP or a timer inside
 * a unit: it holds the only write turn.
 */
export class Database {
  private tail: Promise<unknown> = Promise.resolve();
  private readonly open = new AsyncLocalStorage<EntityManager>();

  constructor(
    private readonly writer: DataSource,
    private readonly reader: DataSource,
  ) {}

  /** One company's rows: inside a unit of work those of the unit, outside it those already committed. */
  company(companyId: CompanyId): CompanyStore {
    return new CompanyStore(companyId, this.open.getStore() ?? this.reader.manager);
  }

  /** Rows that belong to no one company. */
  shared(): SharedStore {
    return new SharedStore(this.open.getStore() ?? this.reader.manager);
  }

  /** Runs `work` in one transaction. A call inside another joins it; a throw rolls everything back. */
  async unitOfWork<T>(name: string, work: () => Promise<T>): Promise<T> {
    if (this.open.getStore()) return work();
    if (this.writer.options.type === 'postgres') return this.withRetry(() => this.transaction(work));

    const turn = this.tail.then(() => this.transaction(work));
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

  async close(): Promise<void> {
    await this.tail.catch(() => undefined);
    if (this.reader !== this.writer && this.reader.isInitialized) await this.reader.destroy();
    if (this.writer.isInitialized) await this.writer.destroy();
  }

  private transaction<T>(work: () => Promise<T>): Promise<T> {
    return this.writer.transaction(async (manager) => {
      // A write as the first statement takes SQLite's write lock while waiting for it is still allowed.
      if (this.writer.options.type !== 'postgres') await manager.query('DELETE FROM write_turn WHERE 0');
      return this.open.run(manager, work);
    });
  }

  private async withRetry<T>(attempt: () => Promise<T>): Promise<T> {
    for (let tries = 1; ; tries++) {
      try {
        return await attempt();
      } catch (error) {
        if (tries >= MOST_TRIES || !RETRYABLE.has((error as { code?: string }).code ?? '')) throw error;
      }
    }
  }
}
