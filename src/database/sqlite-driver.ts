/**
 * The module sqlite3 without its mode `verbose`, which TypeORM switches on. That mode takes a stack trace and writes out
 * every argument at each call: a tenth of the time of a query, and names and addresses in the text of an error.
 * Loaded only where SQLite is used.
 */
export async function sqliteDriver() {
  const { default: sqlite3 } = await import('sqlite3');
  const quiet: typeof sqlite3 = Object.create(sqlite3, { verbose: { value: () => quiet } });
  return quiet;
}
