import { type CsvError, parse } from 'csv-parse/sync';
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

/** Splits the text of a file into rows with known columns. Faults of the file's form are added to `faults`. */
export function readTable(text: string, faults: ImportFaults): CsvRow[] {
  const records = parseRecords(text, faults);
  const head = records[0];
  if (!head) {
    if (faults.isEmpty)
      faults.add({
        line: 1,
        field: 'file',
        value: '',
        allowed: 'The file is empty. The first line names the columns.',
      });
    return [];
  }
  const columns = readHead(head.record, faults);
  if (!columns) return [];
  if (records.length - 1 > MOST_ROWS) {
    const allowed = `At most ${MOST_ROWS.toLocaleString('en')} rows in one file. Split it.`;
    faults.add({ line: 1, field: 'file', value: `${records.length - 1} rows`, allowed });
    return [];
  }
  return records
    .slice(1)
    .flatMap((parsed, i) => rowOf(parsed, (records[i] as ParsedRecord).info.lines + 1, columns, faults));
}

function parseRecords(text: string, faults: ImportFaults): ParsedRecord[] {
  try {
    return parse(text, {
      bom: true,
      info: true,
      delimiter: delimiterOf(text),
      relax_column_count: true,
      skip_empty_lines: true,
    }) as unknown as ParsedRecord[];
  } catch (error) {
    const { message, code, lines } = error as CsvError & { lines?: number };
    const allowed =
      code === 'CSV_QUOTE_NOT_CLOSED'
        ? 'A quotation mark is opened and never closed. Close it, or write "" for a mark inside a text.'
        : `The file cannot be read as comma separated values: ${message}.`;
    faults.add({ line: lines ?? 1, field: 'file', value: '', allowed });
    return [];
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

function rowOf(parsed: ParsedRecord, line: number, columns: readonly CsvColumn[], faults: ImportFaults): CsvRow[] {
  const { record } = parsed;
  if (record.every((cell) => cell.trim() === '')) return [];
  if (record.length !== columns.length) {
    const allowed = `The head names ${columns.length} columns, this line has ${record.length} cells. A comma inside a text needs quotation marks around it.`;
    faults.add({ line, field: 'line', value: `${record.length} cells`, allowed });
    return [];
  }
  const cells = new Map<CsvColumn, string>();
  for (const [i, column] of columns.entries()) {
    const cell = record[i] as string;
    if (cell.trim() !== '' && !column.isExportOnly) cells.set(column, cell);
  }
  return [{ line, cells }];
}
