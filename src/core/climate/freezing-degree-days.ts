import { OutOfRangeError } from '../errors.js';
import { addDays, type CivilDay, monthOf, yearOf } from '../units/civil-day.js';

/**
 * Largest running sum of the season's cold: each day adds -T, a thaw takes away again, never below zero.
 * The freezing index of the AMS Glossary of Meteorology, https://glossary.ametsoc.org/wiki/Freezing_index (published
 * source). [°C d]
 * @param dailyMeanC Daily mean air temperatures of one season in order. A missing value (NaN) leaves the sum as it is.
 */
export function freezingDegreeDaysC(dailyMeanC: ArrayLike<number>): number {
  let running = 0;
  let largest = 0;
  for (let i = 0; i < dailyMeanC.length; i++) {
    const meanC = dailyMeanC[i] as number;
    if (Number.isNaN(meanC)) continue;
    if (meanC < -90 || meanC > 60)
      throw new OutOfRangeError('daily mean air temperature, °C', meanC, { min: -90, max: 60 });
    running = Math.max(0, running - meanC);
    if (running > largest) largest = running;
  }
  return largest;
}

/** Freezing degree-days of every whole cold season of a daily series, oldest first. */
export interface SeasonCold {
  /** Year in which the season begins (1 July in the north, 1 January in the south). */
  readonly seasonYear: number;
  readonly freezingDegreeDaysC: number;
}

/**
 * Splits a daily series at midsummer and gives each whole season's freezing degree-days.
 * @param series.dailyMeanC One value a day from `firstDay` on; NaN where missing.
 */
export function freezingDegreeDaysBySeason(series: {
  firstDay: CivilDay;
  dailyMeanC: ArrayLike<number>;
  latitude: number;
}): SeasonCold[] {
  const firstMonth = series.latitude >= 0 ? 7 : 1;
  const seasons: SeasonCold[] = [];
  let start: number | null = null;
  for (let i = 0; i <= series.dailyMeanC.length; i++) {
    const day = addDays(series.firstDay, i);
    if (monthOf(day) !== firstMonth || monthOf(addDays(day, -1)) === firstMonth) continue;
    if (start !== null) {
      seasons.push({
        seasonYear: yearOf(addDays(series.firstDay, start)),
        freezingDegreeDaysC: freezingDegreeDaysC(Array.prototype.slice.call(series.dailyMeanC, start, i)),
      });
    }
    start = i;
  }
  return seasons;
}
