import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import type { DailyAir } from '../../core/thermal/water-forecast.js';
import { civilDay } from '../../core/units/civil-day.js';

/** A station with a record of real years, and the years that are lived through. */
export interface WeatherSite {
  readonly name: string;
  readonly file: string;
  readonly latitude: number;
  readonly longitude: number;
  readonly elevationM: number;
  readonly years: readonly number[];
}

/** Places as the files say; elevations of New York and De Bilt from memory. */
export const WEATHER_SITES: readonly WeatherSite[] = [
  {
    name: 'Seattle',
    file: 'weather-seattle-us-2012-2015.csv',
    latitude: 47.44,
    longitude: -122.31,
    elevationM: 113,
    years: [2013, 2014],
  },
  {
    name: 'New York',
    file: 'weather-newyork-us-2012-2015.csv',
    latitude: 40.78,
    longitude: -73.97,
    elevationM: 40,
    years: [2013, 2014],
  },
  {
    name: 'De Bilt',
    file: 'weather-debilt-nl-1980-2019.csv',
    latitude: 52.1,
    longitude: 5.18,
    elevationM: 2,
    years: [2010, 2018],
  },
];

/** Says which file is not there. */
export class MissingWeatherError extends Error {
  constructor(file: string) {
    super(
      `${file} is missing. It holds the daily air of a station. Point --data at the folder that contains climate/.`,
    );
  }
}

/** The daily air of a site from `<data>/climate/`; days without a mean are left out. @throws MissingWeatherError */
export function measuredAir(dataDirectory: string, site: WeatherSite): DailyAir[] {
  const file = path.join(dataDirectory, 'climate', site.file);
  if (!existsSync(file)) throw new MissingWeatherError(file);
  const [header = [], ...rows] = readFileSync(file, 'utf8')
    .split(/\r?\n/)
    .filter((line) => line !== '' && !line.startsWith('#'))
    .map((line) => line.split(','));
  const cell = (cells: readonly string[], name: string): number | null => {
    const text = cells[header.indexOf(name)]?.trim() ?? '';
    return text === '' ? null : Number(text);
  };
  return rows.flatMap((cells) => {
    const meanC = cell(cells, 'tmean_c');
    if (meanC === null) return [];
    return {
      on: civilDay(cells[header.indexOf('date')] ?? ''),
      airTemperatureC: meanC,
      airTemperatureMinC: cell(cells, 'tmin_c'),
      airTemperatureMaxC: cell(cells, 'tmax_c'),
      solarMjPerM2: null,
      windMPerS: null,
      relativeHumidityPct: cell(cells, 'rh_pct'),
      precipitationMm: cell(cells, 'prcp_mm'),
    };
  });
}
