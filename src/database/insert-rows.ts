import type { EntityManager, EntityTarget, ObjectLiteral } from 'typeorm';

/**
 * Puts rows into a table with one statement. TypeORM's own builder takes a named parameter for every value and looks for
 * each of them in the whole statement: for a year of history that is more work than SQLite has with it.
 *
 * TypeORM's types and transformers turn the values into what is stored. A column that no row gives gets the default of
 * the table.
 */
export async function insertRows<E extends ObjectLiteral>(
  manager: EntityManager,
  entity: EntityTarget<E>,
  rows: readonly object[],
): Promise<void> {
  if (rows.length === 0) return;
  const { driver } = manager.connection;
  const { tablePath, columns } = manager.connection.getMetadata(entity);
  const fieldOf = (row: object, property: string) => (row as Readonly<Record<string, unknown>>)[property];
  const given = columns.filter(({ propertyName }) => rows.some((row) => fieldOf(row, propertyName) !== undefined));
  const parameters: unknown[] = [];
  const tuples = rows.map((row) => {
    const places = given.map((column) => {
      parameters.push(driver.preparePersistentValue(fieldOf(row, column.propertyName) ?? null, column));
      return driver.createParameter(column.propertyName, parameters.length - 1);
    });
    return `(${places.join(', ')})`;
  });
  const names = given.map((column) => driver.escape(column.databaseName)).join(', ');
  await manager.query(`INSERT INTO ${driver.escape(tablePath)} (${names}) VALUES ${tuples.join(', ')}`, parameters);
}
