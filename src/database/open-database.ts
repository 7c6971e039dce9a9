import { DataSource, type DataSourceOptions, type EntityTarget, type ObjectLiteral } from 'typeorm';
import { Database } from './database.js';
import { FirstTables1795600000000 } from './migrations/1795600000000-first-tables.js';

export type DatabaseTarget =
  | { readonly kind: 'sqlite'; readonly file: string }
  | { readonly kind: 'postgres'; readonly url: string };
export type Entities = readonly EntityTarget<ObjectLiteral>[];

/** In order. A migration that has been released is never edited. */
export const MIGRATIONS = [FirstTables1795600000000];
const BUSY_TIMEOUT_MS = 8000;

/** Opens the database, brings it up to date, and checks that a commit is safe against a power cut. */
export async function openDatabase(target: DatabaseTarget, entities: Entities): Promise<Database> {
  const writer = await new DataSource(writerOptions(target, entities)).initialize();
  try {
    await writer.runMigrations({ transaction: 'each' });
    if (target.kind === 'postgres') return new Database(writer, writer);

    await requireSafeCommits(writer);
    return new Database(writer, await new DataSource(await readerOptions(target.file, entities)).initialize());
  } catch (error) {
    await writer.destroy();
    throw error;
  }
}

function writerOptions(target: DatabaseTarget, entities: Entities): DataSourceOptions {
  const common = {
    entities: [...entities] as never,
    migrations: MIGRATIONS,
    synchronize: false,
    logging: false as const,
  };
  return target.kind === 'postgres'
    ? { type: 'postgres', url: target.url, ...common }
    : { type: 'sqlite', database: target.file, enableWAL: true, busyTimeout: BUSY_TIMEOUT_MS, ...common };
}

async function readerOptions(file: string, entities: Entities): Promise<DataSourceOptions> {
  const { default: sqlite3 } = await import('sqlite3');
  return {
    type: 'sqlite',
    name: 'reads',
    database: file,
    busyTimeout: BUSY_TIMEOUT_MS,
    entities: [...entities] as never,
    flags: sqlite3.OPEN_READONLY,
  };
}

/** `synchronous` must be FULL (2): with NORMAL the last commits may vanish when the power goes. */
async function requireSafeCommits(writer: DataSource): Promise<void> {
  const [{ synchronous }] = (await writer.query('PRAGMA synchronous')) as [{ synchronous: number }];
  const [{ journal_mode: journal }] = (await writer.query('PRAGMA journal_mode')) as [{ journal_mode: string }];
  if (synchronous !== 2 || journal !== 'wal') {
    throw new Error(
      `SQLite runs with journal_mode=${journal}, synchronous=${synchronous}; wal and 2 are needed for safe commits.`,
    );
  }
}
