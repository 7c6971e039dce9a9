import { crossingDates, firstSustainedRun, seasonWindow } from '../../core/thermal/crossing-dates.js';
import type { WaterForecast } from '../../core/thermal/water-forecast.js';
import { addDays, type CivilDay, monthOf, yearOf } from '../../core/units/civil-day.js';
import type { LakeSet } from './lake-sets.js';

const SKIPPED_DAYS = 30;
const THRESHOLDS_C = [10, 15, 20] as const;
const FEWEST_IN_MEAN = 5;
const PERSISTENCE_DAYS = 7;

export interface DayScores {
  readonly days: number;
  readonly rmseC: number;
  readonly maeC: number;
  readonly biasC: number;
}

/** Errors of a daily series against the observed water, first 30 days left out. */
export function dayScores(set: LakeSet, modelC: ArrayLike<number>): DayScores {
  let days = 0;
  let squares = 0;
  let absolute = 0;
  let sum = 0;
  for (const i of scoredDays(set)) {
    const error = (modelC[i] as number) - (set.waterC[i] as number);
    if (Number.isNaN(error)) continue;
    days++;
    squares += error * error;
    absolute += Math.abs(error);
    sum += error;
  }
  return { days, rmseC: Math.sqrt(squares / days), maeC: absolute / days, biasC: sum / days };
}

/** Share of the observed days inside p10 to p90. */
export function dayCoverage(set: LakeSet, forecast: WaterForecast): number {
  const days = scoredDays(set);
  const inside = days.filter((i) => {
    const waterC = set.waterC[i] as number;
    return waterC >= (forecast.p10C[i] as number) && waterC <= (forecast.p90C[i] as number);
  });
  return inside.length / days.length;
}

function scoredDays(set: LakeSet): number[] {
  const days: number[] = [];
  for (let i = SKIPPED_DAYS; i < set.days; i++) {
    if (Number.isNaN(set.waterC[i])) continue;
    if (set.site.months.includes(monthOf(addDays(set.firstDay, i)))) days.push(i);
  }
  return days;
}

/** Trailing 7-day mean, NaN where fewer than five values stand. */
export function trailingMean(values: ArrayLike<number>): Float64Array {
  const means = new Float64Array(values.length);
  for (let i = 0; i < values.length; i++) {
    let sum = 0;
    let count = 0;
    for (let back = Math.max(0, i - 6); back <= i; back++) {
      const value = values[back] as number;
      if (Number.isNaN(value)) continue;
      sum += value;
      count++;
    }
    means[i] = count >= FEWEST_IN_MEAN ? sum / count : Number.NaN;
  }
  return means;
}

/** A crossing that the observed water really made. */
export interface ObservedCrossing {
  readonly thresholdC: number;
  readonly direction: 'rising' | 'falling';
  readonly index: number;
  readonly window: { readonly from: CivilDay; readonly until: CivilDay };
}

/** Observed crossings of 10, 15 and 20 °C inside their windows. */
export function observedCrossings(set: LakeSet): ObservedCrossing[] {
  const means = trailingMean(set.waterC);
  const found: ObservedCrossing[] = [];
  for (let year = yearOf(set.firstDay); year <= yearOf(addDays(set.firstDay, set.days - 1)); year++) {
    for (const direction of ['rising', 'falling'] as const) {
      for (const thresholdC of THRESHOLDS_C) {
        const window = seasonWindow(direction, set.site.latitude, year);
        const index = crossingIn(set, means, { thresholdC, direction, window });
        if (index === null || index <= SKIPPED_DAYS) continue;
        if (set.site.months.includes(monthOf(addDays(set.firstDay, index)))) {
          found.push({ thresholdC, direction, index, window });
        }
      }
    }
  }
  return found;
}

type Wanted = Pick<ObservedCrossing, 'thresholdC' | 'direction' | 'window'>;

function crossingIn(set: LakeSet, means: ArrayLike<number>, wanted: Wanted): number | null {
  const first = Math.max(1, wanted.window.from - set.firstDay);
  const last = Math.min(set.days - PERSISTENCE_DAYS, wanted.window.until - set.firstDay);
  if (last < first) return null;
  return firstSustainedRun(means, { ...wanted, first, last, persistence: PERSISTENCE_DAYS });
}

/** Absolute errors of crossing dates; `missed` counts those that the model does not make at all. */
export interface CrossingScores {
  readonly events: number;
  readonly missed: number;
  readonly medianDays: number | null;
  readonly meanDays: number | null;
  readonly within7Days: number | null;
}

export function crossingScores(set: LakeSet, means: ArrayLike<number>, events: readonly ObservedCrossing[]): number[] {
  return events.map((event) => {
    const modelled = crossingIn(set, means, event);
    return modelled === null ? Number.NaN : Math.abs(modelled - event.index);
  });
}

export function summarised(errors: readonly number[]): CrossingScores {
  const made = errors.filter((error) => !Number.isNaN(error)).sort((a, b) => a - b);
  const middle = made.length / 2;
  const median = ((made[Math.ceil(middle) - 1] ?? 0) + (made[Math.floor(middle)] ?? 0)) / 2;
  return {
    events: errors.length,
    missed: errors.length - made.length,
    medianDays: made.length === 0 ? null : median,
    meanDays: made.length === 0 ? null : made.reduce((sum, error) => sum + error, 0) / made.length,
    within7Days: errors.length === 0 ? null : made.filter((error) => error <= 7).length / errors.length,
  };
}

/** How many of the observed crossings lie inside p10 to p90 of the forecast dates. */
export function crossingsCovered(set: LakeSet, forecast: WaterForecast, events: readonly ObservedCrossing[]): number {
  return events.filter(({ thresholdC, direction, window, index }) => {
    const dates = crossingDates(forecast, { thresholdC, direction, ...window });
    const day = addDays(set.firstDay, index);
    return dates.p10 !== null && dates.p90 !== null && day >= dates.p10 && day <= dates.p90;
  }).length;
}
