import type { ColumnOptions, PrimaryColumnOptions } from 'typeorm';

/** Column forms that mean the same on SQLite and PostgreSQL. */
export const idColumn = (name: string, more: ColumnOptions = {}): ColumnOptions => ({
  type: 'varchar',
  length: 36,
  name,
  ...more,
});

/** Civil date, `YYYY-MM-DD`. */
export const dateColumn = (name: string, more: ColumnOptions = {}): ColumnOptions => ({
  type: 'varchar',
  length: 10,
  name,
  ...more,
});

/** Instant, ISO 8601 UTC with milliseconds. */
export const instantColumn = (name: string, more: ColumnOptions = {}): ColumnOptions => ({
  type: 'varchar',
  length: 24,
  name,
  ...more,
});

export const textColumn = (name: string, more: ColumnOptions = {}): ColumnOptions => ({ type: 'text', name, ...more });

export const numberColumn = (name: string, more: ColumnOptions = {}): ColumnOptions => ({
  type: 'double precision',
  name,
  ...more,
});

export const integerColumn = (name: string, more: ColumnOptions = {}): ColumnOptions => ({
  type: 'integer',
  name,
  ...more,
});

export const flagColumn = (name: string, more: ColumnOptions = {}): ColumnOptions => ({
  type: 'boolean',
  name,
  ...more,
});

export const jsonColumn = (name: string, more: ColumnOptions = {}): ColumnOptions => ({
  type: 'simple-json',
  name,
  ...more,
});

/** Primary key: a UUID of version 7, or another text. */
export const keyColumn = (name: string): PrimaryColumnOptions => ({ type: 'varchar', name });
