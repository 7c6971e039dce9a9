import { InvalidValueError, requireWithin } from '../errors.js';

const AIR_RANGE_C = { min: -90, max: 60 } as const;
const BASE_RANGE_C = { min: -30, max: 40 } as const;

/** Daily mean where only the extremes are known: half their sum (FAO-56 eq 9). [°C] */
export function meanOfExtremesC({ maxC, minC }: { maxC: number; minC: number }): number {
  requireWithin('highest temperature, °C', maxC, AIR_RANGE_C);
  requireWithin('lowest temperature, °C', minC, AIR_RANGE_C);
  if (minC > maxC) throw new InvalidValueError('lowest temperature, °C', minC, `It lies above the highest, ${maxC}.`);
  return (maxC + minC) / 2;
}

/**
 * Degree-days of one day from its mean: what the mean lies above the base, never below zero. For water; for air where
 * only the mean is known. Common practice. [°C d]
 * @param day.meanC Daily mean, -90 to 60. [°C]
 * @param day.baseC Temperature from which on something grows or works, -30 to 40. [°C]
 */
export function degreeDaysOfMeanC(day: { meanC: number; baseC: number }): number {
  requireWithin('daily mean, °C', day.meanC, AIR_RANGE_C);
  requireWithin('base of the degree-days, °C', day.baseC, BASE_RANGE_C);
  return Math.max(0, day.meanC - day.baseC);
}

/**
 * Degree-days of one day by a sine through its extremes, which counts the warm hours of a day whose mean is below the base.
 * Baskerville & Emin (1969), Ecology 50, 514-517 (single sine, horizontal cutoff at the base; from memory). [°C d]
 * @param day.maxC Highest of the day, -90 to 60. [°C]
 * @param day.minC Lowest of the day, no higher than the highest. [°C]
 * @param day.baseC -30 to 40. [°C]
 * @throws OutOfRangeError naming the value; InvalidValueError where the lowest lies above the highest.
 */
export function singleSineDegreeDaysC(day: { maxC: number; minC: number; baseC: number }): number {
  const { maxC, minC, baseC } = day;
  requireWithin('base of the degree-days, °C', baseC, BASE_RANGE_C);
  const meanC = meanOfExtremesC(day);
  if (baseC >= maxC) return 0;
  if (baseC <= minC) return meanC - baseC;
  const halfRangeC = (maxC - minC) / 2;
  const crossing = Math.asin((baseC - meanC) / halfRangeC);
  return ((meanC - baseC) * (Math.PI / 2 - crossing) + halfRangeC * Math.cos(crossing)) / Math.PI;
}

/**
 * Degree-days of a series of daily means. A missing value (NaN) adds nothing and is counted, since a sum over gaps is
 * too low. [°C d]
 */
export function degreeDaysOfSeries(series: { dailyMeanC: ArrayLike<number>; baseC: number }): {
  degreeDaysC: number;
  missingDays: number;
} {
  requireWithin('base of the degree-days, °C', series.baseC, BASE_RANGE_C);
  let degreeDaysC = 0;
  let missingDays = 0;
  for (let i = 0; i < series.dailyMeanC.length; i++) {
    const meanC = series.dailyMeanC[i] as number;
    if (Number.isNaN(meanC)) missingDays++;
    else degreeDaysC += degreeDaysOfMeanC({ meanC, baseC: series.baseC });
  }
  return { degreeDaysC, missingDays };
}
