import { createHash } from 'node:crypto';
import type { DataSource } from 'typeorm';
import type { Database } from '../../src/database/index.js';

/** A hash of every row of every table of an SQLite database; a session's last use may change by reading. */
export async function databaseFingerprint(database: Database): Promise<string> {
  const { reader } = database as unknown as { readonly reader: DataSource };
  const tables: { name: string }[] = await reader.query(
    "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE '%session%' ORDER BY name",
  );
  const hash = createHash('sha256');
  for (const { name } of tables) hash.update(JSON.stringify([name, await reader.query(`SELECT * FROM "${name}"`)]));
  return hash.digest('hex');
}
