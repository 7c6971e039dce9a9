import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { type CivilDay, civilDay } from '../../core/units/civil-day.js';

/** One lake of the validation: what is known of it, and which days count. */
export interface LakeSite {
  readonly key: string;
  readonly name: string;
  readonly file: string;
  readonly latitude: number;
  readonly longitude: number;
  readonly elevationM: number;
  readonly meanDepthM: number;
  readonly areaM2: number;
  readonly windMPerS: number;
  readonly timeZone: string;
  /** Months scored, 1 to 12. */
  readonly months: readonly number[];
}

const ALL_MONTHS = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12];

/** Depths and winds as in the climate handbook, section 10; areas and elevations from memory. */
export const LAKES: readonly LakeSite[] = [
  {
    key: 'PRPO',
    name: 'Prairie Pothole, North Dakota',
    file: 'water-neon-prpo-2018-2020.csv',
    latitude: 47.13,
    longitude: -99.25,
    elevationM: 588,
    meanDepthM: 1.1,
    areaM2: 110_000,
    windMPerS: 4,
    timeZone: 'America/Chicago',
    months: ALL_MONTHS,
  },
  {
    key: 'SUGG',
    name: 'Suggs Lake, Florida',
    file: 'water-neon-sugg-2018-2020.csv',
    latitude: 29.69,
    longitude: -82.02,
    elevationM: 32,
    meanDepthM: 1.5,
    areaM2: 310_000,
    windMPerS: 2,
    timeZone: 'America/New_York',
    months: ALL_MONTHS,
  },
  {
    key: 'LIRO',
    name: 'Little Rock Lake, Wisconsin (June to November)',
    file: 'water-neon-liro-2018-2020.csv',
    latitude: 46.0,
    longitude: -89.7,
    elevationM: 501,
    meanDepthM: 3.5,
    areaM2: 190_000,
    windMPerS: 2,
    timeZone: 'America/Chicago',
    months: [6, 7, 8, 9, 10, 11],
  },
];

/** Daily air and water of one lake; NaN where missing or marked as bad. */
export interface LakeSet {
  readonly site: LakeSite;
  readonly firstDay: CivilDay;
  readonly days: number;
  readonly airC: Float64Array;
  readonly solarMjPerM2: Float64Array;
  readonly waterC: Float64Array;
}

/** Says where a set comes from that is not there. */
export class MissingSetError extends Error {
  constructor(file: string) {
    super(
      `${file} is missing. It holds daily means of a lake of the National Ecological Observatory Network ` +
        '(https://www.neonscience.org), as prepared for module 5 of Macrosystems EDDIE ' +
        '(https://github.com/MacrosystemsEDDIE/module5). Point --data at the folder that contains climate/.',
    );
  }
}

/** Reads one lake from `<data>/climate/`. @throws MissingSetError */
export function readLakeSet(dataDirectory: string, site: LakeSite): LakeSet {
  const file = path.join(dataDirectory, 'climate', site.file);
  if (!existsSync(file)) throw new MissingSetError(file);
  const lines = readFileSync(file, 'utf8')
    .split(/\r?\n/)
    .filter((line) => line !== '' && !line.startsWith('#'))
    .map((line) => line.split(','));
  const header = lines.shift() ?? [];
  const column = (name: string) => header.indexOf(name);
  const firstDay = civilDay(lines[0]?.[column('date')] ?? '');
  const days = civilDay(lines.at(-1)?.[column('date')] ?? '') - firstDay + 1;
  const empty = () => new Float64Array(days).fill(Number.NaN);
  const set = { site, firstDay, days, airC: empty(), solarMjPerM2: empty(), waterC: empty() };
  for (const cells of lines) {
    const index = civilDay(cells[column('date')] ?? '') - firstDay;
    set.airC[index] = numberOf(cells[column('air_c')]);
    set.solarMjPerM2[index] = numberOf(cells[column('solar_w_m2')]) * 0.0864;
    set.waterC[index] = cells[column('qc')] ? Number.NaN : numberOf(cells[column('water_upper1m_c')]);
  }
  return set;
}

function numberOf(cell: string | undefined): number {
  return cell === undefined || cell.trim() === '' ? Number.NaN : Number(cell);
}
