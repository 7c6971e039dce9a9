import { DataSource, type DataSourceOptions, type EntityTarget, type ObjectLiteral } from 'typeorm';
import { DatabaseUnusableError, openingFault } from './database.errors.js';
import { Database } from './database.js';
import { FirstTables1795600000000 } from './migrations/1795600000000-first-tables.js';
import { CalendarFeeds1795700000000 } from './migrations/1795700000000-calendar-feeds.js';
import { HomeownerWords1795710000000 } from './migrations/1795710000000-homeowner-words.js';
import { VisitRecords1795730000000 } from './migrations/1795730000000-visit-records.js';
import { MailCare1795750000000 } from './migrations/1795750000000-mail-care.js';
import { sqliteDriver } from './sqlite-driver.js';

export type DatabaseTarget =
  | { readonly kind: 'sqlite'; readonly file: string }
  | { readonly kind: 'postgres'; readonly url: string };
export type Entities = readonly EntityTarget<ObjectLiteral>[];

/** In order. A migration that has been released is never edited. */
export const MIGRATIONS = [
  FirstTables1795600000000,
  CalendarFeeds1795700000000,
  HomeownerWords1795710000000,
  VisitRecords1795730000000,
  MailCare1795750000000,
];
const BUSY_TIMEOUT_MS = 8000;
/** Any number that no other program on the same PostgreSQL database uses as its lock. */
const MIGRATION_LOCK = 7_041_776;
const UNLOCK_POSTGRES = `SELECT pg_advisory_unlock(${MIGRATION_LOCK})`;

/**
 * Opens the database, brings it up to date, and checks that a commit is safe against a power cut.
 * @throws DatabaseUnusableError in one sentence
 */
export async function openDatabase(target: DatabaseTarget, entities: Entities): Promise<Database> {
  const writer = await opened(target, async () => new DataSource(await writerOptions(target, entities)));
  try {
    await refuseNewerSchema(writer);
    await migrate(writer);
    if (target.kind === 'postgres') return new Database(writer, writer);

    await requireSafeCommits(writer);
    return new Database(writer, await new DataSource(await readerOptions(target.file, entities)).initialize());
  } catch (error) {
    await writer.destroy();
    throw error;
  }
}

async function opened({ kind }: DatabaseTarget, made: () => Promise<DataSource>): Promise<DataSource> {
  try {
    return await (await made()).initialize();
  } catch (error) {
    throw openingFault(kind, error);
  }
}

/** A `where` with an undefined value is a fault of ours and must not match every row. */
const WHERE_VALUES = { undefined: 'throw', null: 'sql-null' } as const;

async function writerOptions(target: DatabaseTarget, entities: Entities): Promise<DataSourceOptions> {
  const common = {
    entities: [...entities] as never,
    migrations: MIGRATIONS,
    synchronize: false,
    logging: false as const,
    invalidWhereValuesBehavior: WHERE_VALUES,
  };
  if (target.kind === 'postgres') return { type: 'postgres', url: target.url, ...common };
  const driver = await sqliteDriver();
  return { type: 'sqlite', driver, database: target.file, enableWAL: true, busyTimeout: BUSY_TIMEOUT_MS, ...common };
}

async function readerOptions(file: string, entities: Entities): Promise<DataSourceOptions> {
  const driver = await sqliteDriver();
  return {
    type: 'sqlite',
    driver,
    name: 'reads',
    database: file,
    busyTimeout: BUSY_TIMEOUT_MS,
    entities: [...entities] as never,
    flags: driver.OPEN_READONLY,
    invalidWhereValuesBehavior: WHERE_VALUES,
  };
}

/** An older program on a newer database would not know what the new columns mean. */
async function refuseNewerSchema(writer: DataSource): Promise<void> {
  const runner = writer.createQueryRunner();
  try {
    if (!(await runner.hasTable('migrations'))) return;
    const applied = (await runner.query('SELECT name FROM migrations ORDER BY id')) as { name: string }[];
    const known = new Set(MIGRATIONS.map((migration) => migration.name));
    const unknown = applied.find(({ name }) => !known.has(name));
    if (unknown) {
      throw new DatabaseUnusableError(
        `The database was written by a newer version of this program (it holds ${unknown.name}). ` +
          'Start that version, or restore a copy made before the update.',
      );
    }
  } finally {
    await runner.release();
  }
}

/** All missing migrations or none. Of two processes that start at once, the slower waits and finds the work done. */
async function migrate(writer: DataSource): Promise<void> {
  const runner = writer.createQueryRunner();
  const isPostgres = writer.options.type === 'postgres';
  const [lock, done, undo] = isPostgres
    ? [`SELECT pg_advisory_lock(${MIGRATION_LOCK})`, UNLOCK_POSTGRES, UNLOCK_POSTGRES]
    : ['BEGIN IMMEDIATE', 'COMMIT', 'ROLLBACK'];
  try {
    // Outside the transaction, where alone it works: a migration may have to build a table anew.
    if (!isPostgres) await runner.query('PRAGMA foreign_keys = OFF');
    await runner.query(lock);
    try {
      await writer.runMigrations({ transaction: isPostgres ? 'all' : 'none' });
      await runner.query(done);
    } catch (error) {
      await runner.query(undo);
      throw error;
    }
  } finally {
    if (!isPostgres) await runner.query('PRAGMA foreign_keys = ON');
    await runner.release();
  }
}

/** `synchronous` must be FULL (2): with NORMAL the last commits may vanish when the power goes. */
async function requireSafeCommits(writer: DataSource): Promise<void> {
  const [{ synchronous }] = (await writer.query('PRAGMA synchronous')) as [{ synchronous: number }];
  const [{ journal_mode: journal }] = (await writer.query('PRAGMA journal_mode')) as [{ journal_mode: string }];
  if (synchronous !== 2 || journal !== 'wal') {
    throw new DatabaseUnusableError(
      `SQLite runs with journal_mode=${journal}, synchronous=${synchronous}; wal and 2 are needed for safe commits.`,
    );
  }
}
