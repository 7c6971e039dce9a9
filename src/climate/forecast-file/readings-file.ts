import type { WaterReading } from '../../core/thermal/water-forecast.js';
import { readDailyCsv } from './daily-csv.js';
import { ForecastFileError } from './forecast-file-error.js';

/**
 * Reads `readings.csv`: `date,water_c`, several rows a day allowed, empty values skipped.
 * @throws ForecastFileError naming file, line, field, value and what is allowed.
 */
export function readReadingsFile(file: string): WaterReading[] {
  const { columns, lines } = readDailyCsv(file);
  if (!columns.includes('water_c')) {
    throw new ForecastFileError(`${file} line 1: no column "water_c"; found ${columns.join(', ')}.`);
  }
  return lines
    .flatMap((line) => {
      const waterTemperatureC = line.number('water_c', { min: -1, max: 45 });
      return waterTemperatureC === null ? [] : [{ on: line.on, waterTemperatureC }];
    })
    .sort((a, b) => a.on - b.on);
}
