import { rm } from 'node:fs/promises';
import sqlite3 from 'sqlite3';

type Row = Readonly<Record<string, unknown>>;

/** What planning writes. */
const TABLES = ['care_task', 'plan_log', 'plan_outcome'] as const;
const ROWS_PER_STATEMENT = 200;

export interface BareInsert {
  readonly rows: number;
  readonly megabytes: number;
  readonly wallS: number;
  readonly cpuS: number;
}

/**
 * Puts every row of the calendars of a database into bare tables of another file: the same driver, the same values, no
 * keys and no indexes, a commit for each statement. Reading the rows is not timed.
 */
export async function bareInsert(databaseFile: string): Promise<BareInsert> {
  const target = `${databaseFile}.bare`;
  const source = await opened(databaseFile);
  const bare = await opened(target);
  await bare.all('PRAGMA journal_mode = WAL');
  let [rows, characters, wallS, cpuS] = [0, 0, 0, 0];
  for (const table of TABLES) {
    const columns = (await source.all(`PRAGMA table_info(${table})`)).map(({ name }) => `"${name}"`).join(', ');
    await bare.all(`CREATE TABLE ${table} (${columns})`);
    for (let last = 0; ; ) {
      const page = await source.all(
        `SELECT rowid AS page_key, * FROM ${table} WHERE rowid > ${last} ORDER BY rowid LIMIT ${ROWS_PER_STATEMENT}`,
      );
      if (page.length === 0) break;
      last = page.at(-1)?.page_key as number;
      const tuples = page.map(({ page_key: _, ...row }) => Object.values(row));
      const places = tuples.map((tuple) => `(${tuple.map(() => '?').join(', ')})`).join(', ');
      const [cpu, start] = [process.cpuUsage(), performance.now()];
      await bare.all(`INSERT INTO ${table} VALUES ${places}`, tuples.flat());
      wallS += (performance.now() - start) / 1000;
      const { user, system } = process.cpuUsage(cpu);
      cpuS += (user + system) / 1e6;
      rows += page.length;
      characters += tuples.flat().reduce<number>((sum, value) => sum + String(value).length, 0);
    }
  }
  await source.close();
  await bare.close();
  for (const ending of ['', '-wal', '-shm']) await rm(target + ending, { force: true });
  return { rows, megabytes: characters / 1e6, wallS, cpuS };
}

/** Rows that were changed or added since an instant, and outcomes planned on a day. */
export async function rowsWritten(databaseFile: string, since: string, plannedOn: string): Promise<number> {
  const source = await opened(databaseFile);
  const count = async (table: string, where: string, value: string) =>
    (await source.all(`SELECT count(*) AS rows FROM ${table} WHERE ${where}`, [value]))[0]?.rows as number;
  const sum =
    (await count('care_task', 'updated_at >= ?', since)) +
    (await count('plan_log', 'logged_at >= ?', since)) +
    (await count('plan_outcome', 'planned_on = ?', plannedOn));
  await source.close();
  return sum;
}

function opened(file: string): Promise<{
  all(sql: string, values?: readonly unknown[]): Promise<Row[]>;
  close(): Promise<void>;
}> {
  return new Promise((done, fail) => {
    const database = new sqlite3.Database(file, (error) => {
      if (error) return fail(error);
      done({
        all: (sql, values = []) =>
          new Promise((found, failed) => {
            database.all<Row>(sql, values, (fault, rows) => (fault ? failed(fault) : found(rows)));
          }),
        close: () => new Promise((closed, failed) => database.close((fault) => (fault ? failed(fault) : closed()))),
      });
    });
  });
}
