import { Readable } from 'node:stream';
import { setImmediate as nextTurn } from 'node:timers/promises';
import { type CsvError, parse } from 'csv-parse';
import type { ImportFault } from '../import-report.js';
import { CSV_COLUMN_BY_NAME, CSV_COLUMNS, type CsvColumn } from './csv-columns.js';
import type { ImportFaults } from './import-faults.js';

/** One line of the file that is not the head. */
export interface CsvRow {
  /** Line on which it begins, the head being 1. */
  readonly line: number;
  /** Cells that are not empty, by column. */
  readonly cells: ReadonlyMap<CsvColumn, string>;
}

export const MOST_ROWS = 50_000;

interface ParsedRecord {
  readonly record: readonly string[];
  readonly info: { readonly lines: number };
}

/** Characters handed to the parser at a time, and rows after which other work gets its turn. */
const PIECE = 16 * 1024;
const ROWS_BETWEEN_TURNS = 100;

/**
 * Splits the text of a file into rows with known columns, piece by piece. Faults of the file's form are added to
 * `faults`; a head that cannot be used ends the reading.
 */
export async function* readTable(text: string, faults: ImportFaults): AsyncGenerator<CsvRow> {
  let columns: readonly CsvColumn[] | null = null;
  let lastLine = 0;
  let rows = 0;
  for await (const parsed of parsedRecords(text, faults)) {
    if (columns === null) {
      columns = readHead(parsed.record, faults);
      if (columns === null) return;
    } else {
      rows += 1;
      if (rows > MOST_ROWS) {
        faults.add(tooManyRows());
        return;
      }
      if (rows % ROWS_BETWEEN_TURNS === 0) await nextTurn();
      const row = rowOf(parsed, lastLine + 1, columns, faults);
      if (row) yield row;
    }
    lastLine = parsed.info.lines;
  }
  if (columns === null && faults.isEmpty) faults.add(EMPTY_FILE);
}

const EMPTY_FILE: ImportFault = {
  line: 1,
  field: 'file',
  value: '',
  allowed: 'The file is empty. The first line names the columns.',
};

function tooManyRows(): ImportFault {
  const allowed = `At most ${MOST_ROWS.toLocaleString('en')} rows in one file. Split it.`;
  return { line: MOST_ROWS + 2, field: 'file', value: '', allowed };
}

async function* parsedRecords(text: string, faults: ImportFaults): AsyncGenerator<ParsedRecord> {
  const parser = parse({
    bom: true,
    info: true,
    delimiter: delimiterOf(text),
    relax_column_count: true,
    skip_empty_lines: true,
  });
  try {
    yield* Readable.from(pieces(text)).pipe(parser) as AsyncIterable<ParsedRecord>;
  } catch (error) {
    const { message, code, lines } = error as CsvError & { lines?: number };
    if (code === undefined) throw error;
    const allowed =
      code === 'CSV_QUOTE_NOT_CLOSED'
        ? 'A quotation mark is opened and never closed. Close it, or write "" for a mark inside a text.'
        : `The file cannot be read as comma separated values: ${message}.`;
    faults.add({ line: lines ?? 1, field: 'file', value: '', allowed });
  }
}

/** Never cuts a character of two code units in half. */
function* pieces(text: string): Generator<string> {
  for (let from = 0; from < text.length; ) {
    const isSplit = /[\uD800-\uDBFF]/.test(text.charAt(from + PIECE - 1));
    const end = from + PIECE + (isSplit ? 1 : 0);
    yield text.slice(from, end);
    from = end;
  }
}

/** Spreadsheets of some countries write semicolons. */
function delimiterOf(text: string): ',' | ';' {
  const head = text.slice(0, text.search(/[\r\n]|$/));
  return head.includes(';') && !head.includes(',') ? ';' : ',';
}

function readHead(names: readonly string[], faults: ImportFaults): CsvColumn[] | null {
  const columns = names.map((name) => CSV_COLUMN_BY_NAME.get(name.trim()));
  let isUsable = true;
  for (const [i, name] of names.entries()) {
    const fault = headFault(
      name.trim(),
      names.slice(0, i).map((earlier) => earlier.trim()),
    );
    if (!fault) continue;
    isUsable = false;
    faults.add({ line: 1, field: name.trim() || `column ${i + 1}`, value: name, allowed: fault });
  }
  if (!names.some((name) => name.trim() === 'pond_ref')) {
    isUsable = false;
    faults.add({
      line: 1,
      field: 'pond_ref',
      value: '',
      allowed: 'The column pond_ref is needed: your own reference of each pond.',
    });
  }
  return isUsable ? (columns as CsvColumn[]) : null;
}

function headFault(name: string, earlier: readonly string[]): string | null {
  if (CSV_COLUMN_BY_NAME.has(name)) return earlier.includes(name) ? 'The column stands twice. Keep one.' : null;
  if (/gal(lon)?s?(_|$)/.test(name)) {
    return 'Say which gallon: volume_us_gal or volume_imp_gal, equipment_flow_us_gal_per_h. They differ by 20 %.';
  }
  const unitless = CSV_COLUMNS.filter((column) => column.name.startsWith(`${name}_`)).map((column) => column.name);
  if (unitless.length > 0 && name !== '') return `The unit is missing: ${unitless.join(' or ')}.`;
  const near = CSV_COLUMNS.map((column) => column.name).filter((known) => isNear(known, name));
  if (near.length > 0) return `There is no such column. Did you mean ${near.slice(0, 3).join(' or ')}?`;
  return `There is no such column. The columns are: ${CSV_COLUMNS.map((column) => column.name).join(', ')}.`;
}

function isNear(known: string, name: string): boolean {
  const plain = (text: string) => text.toLowerCase().replace(/[^a-z0-9]/g, '');
  return plain(name).length > 3 && (plain(known) === plain(name) || plain(known).endsWith(plain(name)));
}

function rowOf(
  { record }: ParsedRecord,
  line: number,
  columns: readonly CsvColumn[],
  faults: ImportFaults,
): CsvRow | null {
  if (record.every((cell) => cell.trim() === '')) return null;
  if (record.length !== columns.length) {
    const allowed = `The head names ${columns.length} columns, this line has ${record.length} cells. A comma inside a text needs quotation marks around it.`;
    faults.add({ line, field: 'line', value: `${record.length} cells`, allowed });
    return null;
  }
  const cells = new Map<CsvColumn, string>();
  for (const [i, column] of columns.entries()) {
    const cell = record[i] as string;
    if (cell.trim() !== '' && !column.isExportOnly) cells.set(column, cell);
  }
  return { line, cells };
}
