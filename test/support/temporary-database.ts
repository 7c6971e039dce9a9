import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { type Database, type DatabaseTarget, openDatabase } from '../../src/database/index.js';
import { ENTITIES } from '../../src/entities.js';

export interface TemporaryDatabase {
  readonly database: Database;
  readonly target: DatabaseTarget & { readonly kind: 'sqlite' };
  /** Fresh folder that holds the file; a test may put more there. */
  readonly directory: string;
  /** Closes the database and removes the folder. */
  close(): Promise<void>;
}

/** A migrated SQLite file of its own in a fresh folder. Close it in `afterEach` or `afterAll`. */
export async function temporaryDatabase(): Promise<TemporaryDatabase> {
  const directory = await temporaryDirectory();
  const target = { kind: 'sqlite', file: path.join(directory, 'tarnkeep.db') } as const;
  const database = await openDatabase(target, ENTITIES);
  return {
    database,
    target,
    directory,
    async close() {
      await database.close();
      await rm(directory, { recursive: true, force: true });
    },
  };
}

/** A fresh folder; the caller removes it. */
export function temporaryDirectory(): Promise<string> {
  return mkdtemp(path.join(tmpdir(), 'tarnkeep-test-'));
}
