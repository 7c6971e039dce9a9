import { readFileSync } from 'node:fs';
import path from 'node:path';
import { parse as parseCsv } from 'csv-parse/sync';
import { parse as parseYaml } from 'yaml';
import { z } from 'zod';
import type { Station, TwelveMonths } from '../core/climate/station.js';
import { SettingsError } from './settings-faults.js';

/** Injection token of the station table. */
export const STATIONS = Symbol('stations');

const TABLE = 'stations.csv';
const HEAD = 'stations.yaml';
const PERIODS = ['1991-2020', '2003-2021'] as const;
const MOST_FAULTS_SHOWN = 20;

const OriginSchema = z.strictObject({
  source: z.string().min(5),
  address: z.url(),
  licence: z.string().min(2),
  attribution: z.string().min(2),
  changes: z.string().min(2),
});
const HeadSchema = z.strictObject({
  title: z.string().min(1),
  columns: z.record(z.string(), z.string().min(2)),
  origins: z.record(z.string(), OriginSchema),
  gaps: z.array(z.string()).default([]),
});
export type StationOrigin = z.output<typeof OriginSchema>;

/**
 * Reads the bundled stations, `stations.csv` with its head `stations.yaml`, in the order of the file.
 * @param directory The folder of both, `config/stations`.
 * @throws SettingsError with a sentence for each fault: file, line, field, value and what is allowed.
 */
export function loadStations(directory: string): Station[] {
  const head = loadHead(directory);
  const faults: string[] = [];
  const stations: Station[] = [];
  const lineOfId = new Map<string, number>();
  for (const { line, cells } of rowsOf(path.join(directory, TABLE), Object.keys(head.columns))) {
    const row = new StationRow(line, cells, faults);
    const station = stationOf(row, Object.keys(head.origins));
    const twin = lineOfId.get(station.id);
    if (twin) row.fault('id', 'is used twice', `It stands in line ${twin} as well; ids must be unique`);
    lineOfId.set(station.id, line);
    stations.push(station);
  }
  if (stations.length === 0) faults.push(`${TABLE}: no stations. Put at least one line under the header.`);
  if (faults.length > 0) throw new SettingsError(shortened(faults));
  return stations;
}

/** Sources and licences of the station figures by key, for the credits page. */
export function loadStationOrigins(directory: string): Readonly<Record<string, StationOrigin>> {
  return loadHead(directory).origins;
}

/** What the table is known to lack, one sentence each. */
export function loadStationGaps(directory: string): readonly string[] {
  return loadHead(directory).gaps;
}

function stationOf(row: StationRow, origins: readonly string[]): Station {
  const minC = row.months('min_c', -75, 45);
  const maxC = row.months('max_c', -60, 55);
  const station: Station = {
    id: row.text('id', /^[a-z0-9]+(-[a-z0-9]+)*$/, 'lower case letters and digits joined by hyphens'),
    name: row.text('name', /\S/, 'a name'),
    country: row.text('country', /^[A-Z]{2}$/, 'two capital letters (ISO 3166-1)'),
    latitude: row.number('latitude', -90, 90),
    longitude: row.number('longitude', -180, 180),
    elevationM: row.number('elevation_m', -450, 6000),
    period: row.oneOf('period', PERIODS),
    origin: row.oneOf('origin', origins),
    meanC: row.months('mean_c', -70, 50),
    maxC,
    minC,
    vapourPressureHPa: row.monthsOrNone('vapour_hpa', 0, 50),
    sunshineHours: row.monthsOrNone('sunshine_h', 0, 744),
    precipitationMm: row.monthsOrNone('precipitation_mm', 0, 3000),
    betweenYearsSdC: row.months('between_years_sd_c', 0, 12),
    dailySdC: row.months('daily_sd_c', 0, 12),
    lastFreezeP50: row.monthDay('last_freeze'),
    firstFreezeP50: row.monthDay('first_freeze'),
  };
  station.meanC.forEach((mean, month) => {
    if (mean < (minC[month] as number) || mean > (maxC[month] as number)) {
      row.fault('mean_c', `month ${month + 1} is ${mean}`, 'The mean lies between min_c and max_c');
    }
  });
  return station;
}

/** One line of the table; collects what is wrong with it and goes on. */
class StationRow {
  constructor(
    private readonly line: number,
    private readonly cells: Readonly<Record<string, string>>,
    private readonly faults: string[],
  ) {}

  fault(field: string, what: string, allowed: string): void {
    this.faults.push(`${TABLE} line ${this.line}, ${field}: ${what}. ${allowed}.`);
  }

  text(field: string, pattern: RegExp, allowed: string): string {
    const value = this.cells[field] ?? '';
    if (!pattern.test(value)) this.fault(field, JSON.stringify(value), `Allowed: ${allowed}`);
    return value;
  }

  oneOf<T extends string>(field: string, allowed: readonly T[]): T {
    const value = this.cells[field] ?? '';
    if (!(allowed as readonly string[]).includes(value)) {
      this.fault(field, JSON.stringify(value), `Allowed: ${allowed.join(', ')}`);
    }
    return value as T;
  }

  number(field: string, min: number, max: number): number {
    return this.inRange(field, this.cells[field] ?? '', min, max);
  }

  months(field: string, min: number, max: number): TwelveMonths {
    const parts = (this.cells[field] ?? '').split(/\s+/).filter((part) => part !== '');
    if (parts.length !== 12) {
      this.fault(field, `${parts.length} values`, 'Give twelve numbers parted by spaces, January first');
      return Array.from({ length: 12 }, () => 0) as unknown as TwelveMonths;
    }
    return parts.map((part) => this.inRange(field, part, min, max)) as unknown as TwelveMonths;
  }

  monthsOrNone(field: string, min: number, max: number): TwelveMonths | null {
    return (this.cells[field] ?? '') === '' ? null : this.months(field, min, max);
  }

  monthDay(field: string): string | null {
    const value = this.cells[field] ?? '';
    if (value === '') return null;
    if (!/^(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$/.test(value)) {
      this.fault(field, JSON.stringify(value), 'Write MM-DD, for example 04-15, or leave it empty');
    }
    return value;
  }

  private inRange(field: string, written: string, min: number, max: number): number {
    const value = written === '' ? Number.NaN : Number(written);
    if (!Number.isFinite(value) || value < min || value > max) {
      this.fault(field, JSON.stringify(written), `Allowed: a number from ${min} to ${max}`);
      return 0;
    }
    return value;
  }
}

function rowsOf(file: string, columns: readonly string[]): { line: number; cells: Record<string, string> }[] {
  let records: { record: string[]; info: { lines: number } }[];
  try {
    records = parseCsv(readText(file), { bom: true, info: true, trim: true, skip_empty_lines: true }) as never;
  } catch (error) {
    if (error instanceof SettingsError) throw error;
    throw new SettingsError([`${TABLE}: ${(error as Error).message}. Give every line the cells of the header.`]);
  }
  const header = records[0]?.record ?? [];
  const missing = columns.filter((column) => !header.includes(column));
  const unknown = header.filter((column) => !columns.includes(column));
  const faults = [
    ...missing.map((column) => `${TABLE} line 1: the column ${column} is missing; ${HEAD} says what it holds.`),
    ...unknown.map((column) => `${TABLE} line 1: the column ${JSON.stringify(column)} is not described in ${HEAD}.`),
  ];
  if (faults.length > 0) throw new SettingsError(faults);
  return records.slice(1).map(({ record, info }) => ({
    line: info.lines,
    cells: Object.fromEntries(header.map((column, i) => [column, record[i] ?? ''])),
  }));
}

function loadHead(directory: string): z.output<typeof HeadSchema> {
  let content: unknown;
  const text = readText(path.join(directory, HEAD));
  try {
    content = parseYaml(text);
  } catch (error) {
    throw new SettingsError([`${HEAD}: not YAML: ${(error as Error).message}`]);
  }
  const head = HeadSchema.safeParse(content);
  if (head.success) return head.data;
  throw new SettingsError(head.error.issues.map((issue) => `${HEAD}, ${issue.path.join('.')}: ${issue.message}.`));
}

function readText(file: string): string {
  try {
    return readFileSync(file, 'utf8');
  } catch (error) {
    throw new SettingsError([`${file}: cannot be read (${(error as NodeJS.ErrnoException).code}).`]);
  }
}

function shortened(faults: readonly string[]): string[] {
  const shown = faults.slice(0, MOST_FAULTS_SHOWN);
  return faults.length > shown.length
    ? [...shown, `${TABLE}: and ${faults.length - shown.length} more faults.`]
    : shown;
}
