import { CURVE_DAYS, curveIndex } from '../climate/daily-curve.js';
import { InvalidValueError, requireWithin } from '../errors.js';
import { yearOf } from '../units/civil-day.js';
import type { DailyAir } from './water-forecast.js';

/** A year with fewer days of air is left out. */
const FEWEST_DAYS = 300;
/** Fewer years say little of how years differ; 20 to 40 are usual (climate handbook 8). */
const FEWEST_YEARS = 5;

/**
 * Whole years of daily air of the place, as the weather to come: each trace lives through the years of the record one
 * after another, each beginning with another. Which year a trace has in a calendar year hangs on that year alone, never
 * on the day of the forecast. Keeps what a chance process loses: warm and cold months, skewness, spells.
 */
export class WeatherHistory {
  readonly years: number;
  private readonly airC: Float64Array;

  /** @throws InvalidValueError with fewer than five whole years; OutOfRangeError for absurd air. */
  constructor(days: readonly DailyAir[]) {
    const byYear = new Map<number, { count: number; airC: Float64Array }>();
    for (const { on, airTemperatureC } of days) {
      requireWithin('air temperature of the history, °C', airTemperatureC, { min: -60, max: 55 });
      const year = yearOf(on);
      let entry = byYear.get(year);
      if (!entry) {
        entry = { count: 0, airC: new Float64Array(CURVE_DAYS).fill(Number.NaN) };
        byYear.set(year, entry);
      }
      entry.airC[curveIndex(on)] = airTemperatureC;
      entry.count++;
    }
    const whole = [...byYear].filter(([, { count }]) => count >= FEWEST_DAYS).sort(([a], [b]) => a - b);
    if (whole.length < FEWEST_YEARS) {
      throw new InvalidValueError(
        'whole years of daily air',
        whole.length,
        `Give at least ${FEWEST_YEARS} years of ${FEWEST_DAYS} days or more, or leave the history out.`,
      );
    }
    this.years = whole.length;
    this.airC = new Float64Array(whole.length * CURVE_DAYS);
    whole.forEach(([, { airC }], index) => {
      this.airC.set(airC, index * CURVE_DAYS);
    });
  }

  /** Air of a trace on a day; NaN where the record has a gap. [°C] @param place See `curveIndex`. */
  airOf(trace: number, year: number, place: number): number {
    return this.airC[((trace + year) % this.years) * CURVE_DAYS + place] as number;
  }
}
