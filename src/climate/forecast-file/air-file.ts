import type { DailyAir } from '../../core/thermal/water-forecast.js';
import { isoDateOf } from '../../core/units/civil-day.js';
import { type CsvLine, readDailyCsv } from './daily-csv.js';
import { ForecastFileError } from './forecast-file-error.js';

const KNOWN = ['date', 'tmin_c', 'tmax_c', 'tmean_c', 'solar_mj_m2', 'wind_m_s', 'rh_pct', 'precip_mm'];
const AIR_RANGE_C = { min: -60, max: 55 } as const;

export interface AirFile {
  /** The days that have a temperature, in order. Wind is as written in the file. */
  readonly air: readonly DailyAir[];
  readonly notices: readonly string[];
}

/**
 * Reads `air.csv`: `date` and `tmin_c,tmax_c` or `tmean_c` or all three; optionally `solar_mj_m2`, `wind_m_s`, `rh_pct`,
 * `precip_mm`; any column order, one row a day. Without a mean the half sum of the extremes stands for it (FAO-56 eq 9).
 * @throws ForecastFileError naming file, line, field, value and what is allowed.
 */
export function readAirFile(file: string): AirFile {
  const { columns, lines } = readDailyCsv(file);
  const hasExtremes = columns.includes('tmin_c') && columns.includes('tmax_c');
  if (!hasExtremes && !columns.includes('tmean_c')) {
    throw new ForecastFileError(`${file} line 1: give tmean_c, or tmin_c and tmax_c; found ${columns.join(', ')}.`);
  }
  const lineOfDay = new Map<number, number>();
  const air: DailyAir[] = [];
  for (const line of lines) {
    const twin = lineOfDay.get(line.on);
    if (twin !== undefined) {
      throw new ForecastFileError(
        `${file} line ${line.line}, date: ${isoDateOf(line.on)} stands in line ${twin} as well. One row a day.`,
      );
    }
    lineOfDay.set(line.on, line.line);
    const day = airOf(file, line);
    if (day) air.push(day);
  }
  if (air.length === 0)
    throw new ForecastFileError(`${file}: no day with a temperature. Put one row a day below the header.`);
  const unknown = columns.filter((column) => !KNOWN.includes(column));
  return {
    air: air.sort((a, b) => a.on - b.on),
    notices: unknown.length > 0 ? [`${file}: columns not used: ${unknown.join(', ')}.`] : [],
  };
}

function airOf(file: string, line: CsvLine): DailyAir | null {
  const min = line.number('tmin_c', AIR_RANGE_C);
  const max = line.number('tmax_c', AIR_RANGE_C);
  if (min !== null && max !== null && min > max) {
    throw new ForecastFileError(
      `${file} line ${line.line}, tmin_c: ${min} is above tmax_c, ${max}. Swap them or leave them empty.`,
    );
  }
  const mean = line.number('tmean_c', AIR_RANGE_C);
  const solarMjPerM2 = line.number('solar_mj_m2', { min: 0, max: 45 });
  const windMPerS = line.number('wind_m_s', { min: 0, max: 60 });
  const relativeHumidityPct = line.number('rh_pct', { min: 0, max: 100 });
  const precipitationMm = line.number('precip_mm', { min: 0, max: 2000 });
  const airTemperatureC = mean ?? (min === null || max === null ? null : (min + max) / 2);
  if (airTemperatureC === null) return null;
  return {
    on: line.on,
    airTemperatureC,
    airTemperatureMinC: min,
    airTemperatureMaxC: max,
    solarMjPerM2,
    windMPerS,
    relativeHumidityPct,
    precipitationMm,
  };
}
