import { requireWithin } from '../errors.js';
import { relativeNitrificationRate } from './nitrification.js';

/** Bacteria a new filter begins with, and what is called ripe, as shares of the full film (our own rule). [-] */
export const NEW_FILTER_SHARE = 0.01;
export const RIPE_SHARE = 0.95;
/** A filter of which so much is live media ripens in half the time (derived from "inoculation halves it"). [-] */
export const INOCULATED_SHARE = 0.3;
/** Days from new to ripe at 20 °C in a filter that is fed (common practice; 20 to 56 in print). [d] */
export const RIPE_AFTER_DAYS_AT_20_C = 35;

const START_RANGE = { min: 0.001, max: 1 } as const;
const logit = (share: number) => Math.log(share / (1 - share));
/** Net growth of the film that takes a new filter to ripe in those days; 0.22. [per day at 20 °C] */
const GROWTH_PER_DAY_AT_20_C = (logit(RIPE_SHARE) - logit(NEW_FILTER_SHARE)) / RIPE_AFTER_DAYS_AT_20_C;

/**
 * Part of its full capacity a new filter has reached, while it is fed with ammonia all along. [-]
 *   m = 1 / (1 + (1/m0 - 1) e^(-0.215 d)),  d = sum of 1.07^(T - 20) over the days, level from 28 °C
 * New, after 35 days at 20 °C: 0.95; after 35 days at 10 °C: 0.32. It plans; only readings release a pond.
 * @param filter.temperaturesC Mean water of each day since the filter was first fed, -1 to 45. [°C]
 * @param filter.startShare 0.001 to 1: 0.01 for new media, about 0.3 where a third is live; 0.01 when left out. [-]
 * @see Logistic growth; constants derived from the run-in times of common practice.
 */
export function filterMaturityShare(filter: { temperaturesC: readonly number[]; startShare?: number }): number {
  const { startShare = NEW_FILTER_SHARE } = filter;
  requireWithin('ripeness at the start, share', startShare, START_RANGE);
  const daysAt20C = filter.temperaturesC.reduce(
    (sum, temperatureC) => sum + relativeNitrificationRate({ temperatureC }),
    0,
  );
  return maturityAfter(daysAt20C, startShare);
}

/**
 * Days in which a fed filter becomes ripe at an even temperature, without the floor of the plan (`runInDays`). [d]
 *   35 x 1.07^(20 - T) for new media
 * At 10, 15, 20 and 25 °C: 9.8, 7.0, 5.0 and 3.6 weeks.
 */
export function ripeAfterDays(filter: { temperatureC: number; startShare?: number }): number {
  const { startShare = NEW_FILTER_SHARE } = filter;
  requireWithin('ripeness at the start, share', startShare, START_RANGE);
  if (startShare >= RIPE_SHARE) return 0;
  const daysAt20C = (logit(RIPE_SHARE) - logit(startShare)) / GROWTH_PER_DAY_AT_20_C;
  return daysAt20C / relativeNitrificationRate(filter);
}

/** The curve by days at 20 °C already summed; for loops that go day by day. */
export function maturityAfter(daysAt20C: number, startShare: number): number {
  if (startShare >= 1) return 1;
  return 1 / (1 + (1 / startShare - 1) * Math.exp(-GROWTH_PER_DAY_AT_20_C * daysAt20C));
}
