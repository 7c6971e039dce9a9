import { InvalidValueError, requireWithin } from '../errors.js';
import { addDays, type CivilDay, dayFromParts, isoDateOf } from '../units/civil-day.js';
import { quantileOfSorted } from './quantiles.js';
import type { CrossingDates, WaterForecast } from './water-forecast.js';

export const PERSISTENCE_DAYS = 7;

export interface CrossingRequest {
  /** -1 to 40. [°C] */
  readonly thresholdC: number;
  readonly direction: 'rising' | 'falling';
  /** First and last day on which the run may begin; see `seasonWindow`. */
  readonly from: CivilDay;
  readonly until: CivilDay;
  /** Days the 7-day mean must stay beyond, 1 to 30; 7 unless given. */
  readonly persistenceDays?: number;
}

/**
 * When the trailing 7-day mean crosses a threshold and stays beyond: the first day d inside the window with the mean of
 * d-1 on the near side and those of d to d+6 all beyond (climate handbook section 11, ruling 2). Quantiles are over the
 * traces that cross, and null when fewer than half do; `none` then says on which side the others are.
 * Days after the forecast's end are unknown: a run that they would have to complete does not count.
 * @throws InvalidValueError when the window lies outside the forecast altogether.
 */
export function crossingDates(forecast: WaterForecast, request: CrossingRequest): CrossingDates {
  requireWithin('threshold, °C', request.thresholdC, { min: -1, max: 40 });
  const persistence = request.persistenceDays ?? PERSISTENCE_DAYS;
  requireWithin('days of persistence', persistence, { min: 1, max: 30 });
  const first = Math.max(1, request.from - forecast.firstDay);
  const last = Math.min(forecast.days - persistence, request.until - forecast.firstDay);
  if (request.from > request.until || last < first) throw windowOutside(forecast, request);

  const found: number[] = [];
  let endedAbove = 0;
  const run: Run = { thresholdC: request.thresholdC, direction: request.direction, first, last, persistence };
  for (let trace = 0; trace < forecast.traces; trace++) {
    const offset = trace * forecast.days;
    const at = firstRun(forecast.water7dMeanC, offset, run);
    if (at !== null) found.push(at);
    else if ((forecast.water7dMeanC[offset + last] as number) >= request.thresholdC) endedAbove++;
  }
  const share = found.length / forecast.traces;
  if (share < 0.5) {
    const isAbove = endedAbove * 2 >= forecast.traces - found.length;
    return { share, p10: null, p50: null, p90: null, none: isAbove ? 'always-above' : 'always-below' };
  }
  found.sort((a, b) => a - b);
  const quantile = (probability: number) =>
    addDays(forecast.firstDay, Math.round(quantileOfSorted(found, probability)));
  return { share, p10: quantile(0.1), p50: quantile(0.5), p90: quantile(0.9), none: null };
}

interface Run {
  readonly thresholdC: number;
  readonly direction: 'rising' | 'falling';
  readonly first: number;
  readonly last: number;
  readonly persistence: number;
}

/** Index of the first day of a sustained crossing in one series of 7-day means; null when there is none. */
export function firstSustainedRun(mean7dC: ArrayLike<number>, run: Run): number | null {
  return firstRun(mean7dC, 0, run);
}

function firstRun(mean7dC: ArrayLike<number>, offset: number, run: Run): number | null {
  const { first, last, persistence, thresholdC } = run;
  const sign = run.direction === 'rising' ? 1 : -1;
  // Days in a row beyond the threshold after one on the near side; -1 while the near side has not been seen. NaN ends a run.
  let beyond = -1;
  for (let day = first - 1; day < last + persistence; day++) {
    const excess = sign * ((mean7dC[offset + day] as number) - thresholdC);
    if (excess > 0) {
      if (beyond < 0) continue;
      beyond++;
      if (beyond === persistence) return day - persistence + 1;
    } else {
      if (day >= last) return null;
      beyond = excess <= 0 ? 0 : -1;
    }
  }
  return null;
}

function windowOutside(forecast: WaterForecast, request: CrossingRequest): InvalidValueError {
  const lastDay = addDays(forecast.firstDay, forecast.days - 1);
  return new InvalidValueError(
    'crossing window',
    `${isoDateOf(request.from)} to ${isoDateOf(request.until)}`,
    `Ask inside the forecast, ${isoDateOf(forecast.firstDay)} to ${isoDateOf(lastDay)}, and long enough for the run of days.`,
  );
}

/**
 * The days on which a crossing of a season may begin: falling 25 July to 5 January, rising 10 January to 25 July; in the
 * south half a year shifted, falling 25 January to 5 July, rising 10 July to 25 January (climate handbook section 11).
 * @param yearStart Calendar year in which the window begins.
 */
export function seasonWindow(
  direction: 'rising' | 'falling',
  latitude: number,
  yearStart: number,
): { from: CivilDay; until: CivilDay } {
  requireWithin('latitude, degrees', latitude, { min: -90, max: 90 });
  const isSouth = latitude < 0;
  if (direction === 'falling') {
    return isSouth
      ? { from: dayFromParts(yearStart, 1, 25), until: dayFromParts(yearStart, 7, 5) }
      : { from: dayFromParts(yearStart, 7, 25), until: dayFromParts(yearStart + 1, 1, 5) };
  }
  return isSouth
    ? { from: dayFromParts(yearStart, 7, 10), until: dayFromParts(yearStart + 1, 1, 25) }
    : { from: dayFromParts(yearStart, 1, 10), until: dayFromParts(yearStart, 7, 25) };
}
