import { parse } from 'csv-parse/sync';
import { InvalidValueError } from '../../core/errors.js';
import { type CivilDay, civilDay } from '../../core/units/civil-day.js';
import { ForecastFileError } from './forecast-file-error.js';
import { readTextFile } from './site-file.js';

/** One line of a daily file. */
export interface CsvLine {
  readonly line: number;
  readonly on: CivilDay;
  /** The number of a column, null where the cell is empty or the file has no such column. */
  readonly number: (column: string, allowed: { min: number; max: number }) => number | null;
}

export interface DailyCsv {
  readonly columns: readonly string[];
  readonly lines: readonly CsvLine[];
}

/**
 * Reads a CSV of days: a header with `date`, columns in any order, empty cells missing, lines beginning with # skipped.
 * @throws ForecastFileError naming file, line, field, value and what is allowed.
 */
export function readDailyCsv(file: string): DailyCsv {
  let records: { record: string[]; info: { lines: number } }[];
  try {
    records = parse(readTextFile(file), {
      bom: true,
      comment: '#',
      comment_no_infix: true,
      info: true,
      skip_empty_lines: true,
      trim: true,
    }) as never;
  } catch (error) {
    if (error instanceof ForecastFileError) throw error;
    throw new ForecastFileError(`${file}: ${(error as Error).message}. Give every line the cells of the header.`);
  }
  const columns = (records[0]?.record ?? []).map((name) => name.toLowerCase());
  const twin = columns.find((name, i) => columns.indexOf(name) !== i);
  if (twin !== undefined) throw new ForecastFileError(`${file} line 1: the column ${twin} stands there twice.`);
  if (!columns.includes('date')) {
    throw new ForecastFileError(`${file} line 1: no column "date". Name the columns in the first line.`);
  }
  return { columns, lines: records.slice(1).map(({ record, info }) => lineOf(file, columns, record, info.lines)) };
}

function lineOf(file: string, columns: readonly string[], cells: readonly string[], line: number): CsvLine {
  const cell = (column: string) => cells[columns.indexOf(column)] ?? '';
  const fault = (field: string, value: string, allowed: string) =>
    new ForecastFileError(`${file} line ${line}, ${field}: ${JSON.stringify(value)}. Allowed: ${allowed}.`);
  return {
    line,
    on: dayOf(cell('date'), fault),
    number: (column, { min, max }) => {
      const written = columns.includes(column) ? cell(column) : '';
      if (written === '') return null;
      const value = Number(written);
      if (!Number.isFinite(value) || value < min || value > max) {
        throw fault(column, written, `a number from ${min} to ${max}, or empty`);
      }
      return value;
    },
  };
}

function dayOf(written: string, fault: (field: string, value: string, allowed: string) => ForecastFileError): CivilDay {
  try {
    return civilDay(written);
  } catch (error) {
    if (error instanceof InvalidValueError) throw fault('date', written, 'a calendar date as YYYY-MM-DD');
    throw error;
  }
}
