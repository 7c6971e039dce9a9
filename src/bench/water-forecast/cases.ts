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
  readonly key: string;
  readonly name: string;
  readonly withAir: boolean;
  readonly withSolar?: boolean;
  readonly readingsPerYear: number;
  /** Replaces the lake's wind; null leaves it out of site.json. */
  readonly windMPerS?: number | null;
  /** Adds one reading 10 °C too high or low. */
  readonly withWrongReading?: boolean;
}

/** A wind that is right for a wooded lake and half of what it should be on the prairie. [m/s] */
const WRONG_WIND_M_PER_S = 2;

export const CASES: readonly ForecastCase[] = [
  { key: 'daily-air', name: 'daily air', withAir: true, readingsPerYear: 0 },
  { key: 'normals', name: 'normals only', withAir: false, readingsPerYear: 0 },
  { key: 'six-readings', name: 'daily air, six readings a year', withAir: true, readingsPerYear: 6 },
  { key: 'normals-six', name: 'normals, six readings a year', withAir: false, readingsPerYear: 6 },
  {
    key: 'wrong-wind',
    name: 'daily air, wind 2 m/s',
    withAir: true,
    readingsPerYear: 0,
    windMPerS: WRONG_WIND_M_PER_S,
  },
  {
    key: 'wrong-wind-six',
    name: 'daily air, wind 2 m/s, six readings',
    withAir: true,
    readingsPerYear: 6,
    windMPerS: WRONG_WIND_M_PER_S,
  },
  {
    key: 'no-wind-six',
    name: 'daily air, wind not told, six readings',
    withAir: true,
    readingsPerYear: 6,
    windMPerS: null,
  },
  {
    key: 'bad-reading',
    name: 'six readings, one 10 °C off',
    withAir: true,
    readingsPerYear: 6,
    withWrongReading: true,
  },
  { key: 'solar', name: 'daily air and measured sun', withAir: true, withSolar: true, readingsPerYear: 0 },
];

/** Writes the files of a case, runs the command on them and gives its forecast. */
export function runCase(set: LakeSet, kind: ForecastCase, stations: readonly Station[]): WaterForecast {
  const folder = mkdtempSync(path.join(tmpdir(), 'tarnkeep-validation-'));
  try {
    const { latitude, longitude, elevationM, meanDepthM, areaM2, timeZone } = set.site;
    const wind = kind.windMPerS === undefined ? set.site.windMPerS : kind.windMPerS;
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

/** Readings evenly spread over the observed days of each year, to half a degree as a hand thermometer shows. */
function readingsCsv(set: LakeSet, kind: ForecastCase): string {
  const byYear = new Map<number, number[]>();
  for (let i = 0; i < set.days; i++) {
    if (Number.isNaN(set.waterC[i])) continue;
    const year = yearOf(addDays(set.firstDay, i));
    byYear.set(year, [...(byYear.get(year) ?? []), i]);
  }
  const lines = ['date,water_c'];
  for (const days of byYear.values()) {
    for (let n = 0; n < kind.readingsPerYear; n++) {
      const i = days[Math.floor(((n + 0.5) * days.length) / kind.readingsPerYear)] as number;
      const wrong = kind.withWrongReading && n === 2 ? ((set.waterC[i] as number) > 18 ? -10 : 10) : 0;
      lines.push(`${isoDateOf(addDays(set.firstDay, i))},${Math.round(2 * (set.waterC[i] as number)) / 2 + wrong}`);
    }
  }
  return lines.join('\n');
}
