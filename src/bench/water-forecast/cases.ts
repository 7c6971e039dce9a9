import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { runForecastFile } from '../../climate/index.js';
import type { Station } from '../../core/climate/station.js';
import type { WaterForecast } from '../../core/thermal/water-forecast.js';
import { addDays, isoDateOf, yearOf } from '../../core/units/civil-day.js';
import type { LakeSet } from './lake-sets.js';

/** One way of running a lake through the forecast command. */
export interface ForecastCase {
  readonly key: 'normals' | 'daily-air' | 'wrong-exposure-six' | 'other';
  readonly name: string;
  readonly withAir: boolean;
  readonly withSolar?: boolean;
  readonly readingsPerYear: number;
  /** What site.json says of the wind; the lake's own unless given. */
  readonly wind?: 'wrong' | 'not-told';
  /** Makes one reading wrong: its place among all of them, and by how much. */
  readonly wrongReading?: { readonly index: number; readonly byC: number };
}

/** The three cases of the goals. */
export const NORMALS: ForecastCase = { key: 'normals', name: 'normals only', withAir: false, readingsPerYear: 0 };
export const DAILY_AIR: ForecastCase = { key: 'daily-air', name: 'daily air', withAir: true, readingsPerYear: 0 };
export const WRONG_EXPOSURE_SIX: ForecastCase = {
  key: 'wrong-exposure-six',
  name: 'daily air, wrong wind, six readings a year',
  withAir: true,
  readingsPerYear: 6,
  wind: 'wrong',
};

export const CASES: readonly ForecastCase[] = [
  NORMALS,
  DAILY_AIR,
  WRONG_EXPOSURE_SIX,
  { key: 'other', name: 'daily air, wrong wind', withAir: true, readingsPerYear: 0, wind: 'wrong' },
  { key: 'other', name: 'daily air, six readings a year', withAir: true, readingsPerYear: 6 },
  { key: 'other', name: 'daily air, wind not told', withAir: true, readingsPerYear: 0, wind: 'not-told' },
  { key: 'other', name: 'daily air, wind not told, six readings', withAir: true, readingsPerYear: 6, wind: 'not-told' },
  { key: 'other', name: 'normals, six readings a year', withAir: false, readingsPerYear: 6 },
  { key: 'other', name: 'daily air and measured sun', withAir: true, withSolar: true, readingsPerYear: 0 },
];

/** Half the wind on an open lake, twice the wind on a wooded one: what a guess may be wrong by. */
const OPEN_FROM_M_PER_S = 3;

function windTold({ site }: LakeSet, kind: ForecastCase): number | null {
  if (kind.wind === 'not-told') return null;
  if (kind.wind === undefined) return site.windMPerS;
  return site.windMPerS >= OPEN_FROM_M_PER_S ? site.windMPerS / 2 : site.windMPerS * 2;
}

/** Writes the files of a case, runs the command on them and gives its forecast. */
export function runCase(set: LakeSet, kind: ForecastCase, stations: readonly Station[]): WaterForecast {
  const folder = mkdtempSync(path.join(tmpdir(), 'tarnkeep-validation-'));
  try {
    const { latitude, longitude, elevationM, meanDepthM, areaM2, timeZone } = set.site;
    const wind = windTold(set, kind);
    const siteFile = path.join(folder, 'site.json');
    const site = { latitude, longitude, elevationM, meanDepthM, areaM2, shadeFraction: 0, timeZone };
    writeFileSync(siteFile, JSON.stringify(wind === null ? site : { ...site, windMPerS: wind }));
    const airFile = path.join(folder, 'air.csv');
    writeFileSync(airFile, airCsv(set, kind.withSolar ?? false));
    const readingsFile = path.join(folder, 'readings.csv');
    writeFileSync(readingsFile, readingsCsv(set, kind));
    const { forecast } = runForecastFile({
      siteFile,
      airFile: kind.withAir ? airFile : undefined,
      from: isoDateOf(set.firstDay),
      to: isoDateOf(addDays(set.firstDay, set.days - 1)),
      readingsFile: kind.readingsPerYear > 0 ? readingsFile : undefined,
      stations,
    });
    return forecast;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function airCsv(set: LakeSet, withSolar: boolean): string {
  const cell = (value: number) => (Number.isNaN(value) ? '' : value.toFixed(2));
  const lines = Array.from({ length: set.days }, (_, i) => {
    const solar = withSolar ? `,${cell(set.solarMjPerM2[i] as number)}` : '';
    return `${isoDateOf(addDays(set.firstDay, i))},${cell(set.airC[i] as number)}${solar}`;
  });
  return [withSolar ? 'date,tmean_c,solar_mj_m2' : 'date,tmean_c', ...lines].join('\n');
}

/** Days with a reading: evenly spread over the observed days of each year. */
export function readingDays(set: LakeSet, perYear: number): number[] {
  const byYear = new Map<number, number[]>();
  for (let i = 0; i < set.days; i++) {
    if (Number.isNaN(set.waterC[i])) continue;
    const year = yearOf(addDays(set.firstDay, i));
    byYear.set(year, [...(byYear.get(year) ?? []), i]);
  }
  return [...byYear.values()].flatMap((days) =>
    Array.from({ length: perYear }, (_, n) => days[Math.floor(((n + 0.5) * days.length) / perYear)] as number),
  );
}

/** To half a degree, as a hand thermometer shows. */
export function handReadingC(waterC: number): number {
  return Math.round(2 * waterC) / 2;
}

function readingsCsv(set: LakeSet, { readingsPerYear, wrongReading }: ForecastCase): string {
  const lines = readingDays(set, readingsPerYear).map((i, index) => {
    const wrong = wrongReading?.index === index ? wrongReading.byC : 0;
    return `${isoDateOf(addDays(set.firstDay, i))},${handReadingC(set.waterC[i] as number) + wrong}`;
  });
  return ['date,water_c', ...lines].join('\n');
}
