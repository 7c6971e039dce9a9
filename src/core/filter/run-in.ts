import type { PondReading } from '../care/care-plan.js';
import { requireWithin } from '../errors.js';
import { ACCEPTED_CHLORINE_READING_MG_PER_L } from '../water/chlorine.js';
import { NITRIFICATION_THETA } from './nitrification.js';

/** Days a new pond runs before anything lives in it, whatever it reads (common practice). */
export const DAYS_WITHOUT_LIVESTOCK = 7;
/** Part of the final stock that goes in first (published source: Hager et al. 2021, staged stocking). [-] */
export const firstStockShare = 0.2;
/** Days from one part of the stock to the next (common practice). */
export const STOCK_STAGE_GAP_DAYS = 14;
/** No run-in is begun in colder water (common practice). [°C] */
const COLDEST_START_C = 10;

const SHORTEST_RUN_IN_DAYS = 42;
const RUN_IN_DAYS_AT_20_C = 35;

/** Two readings at least so far apart. */
const READINGS_APART_MS = 48 * 3_600_000;
/** Limits of common practice; nitrite is that of a pond in order. [mg/L N, mg/L N, mg/L Cl2] */
const STOCKING_LIMITS = {
  'total-ammonia': 0.25,
  nitrite: 0.1,
  'total-chlorine': ACCEPTED_CHLORINE_READING_MG_PER_L,
} as const;
type StockingQuantity = keyof typeof STOCKING_LIMITS;

/**
 * Days a new filter is planned to take; only readings end it. [d]
 *   max(42, 35 x 1.07^(20 - T))
 * At 20 °C 42, at 10 °C 68.9. In print one to sixteen weeks.
 * @param water.temperatureC 0 to 45. [°C]
 */
export function runInDays(water: { temperatureC: number }): number {
  requireWithin('water temperature, °C', water.temperatureC, { min: -1, max: 45 });
  return Math.max(SHORTEST_RUN_IN_DAYS, RUN_IN_DAYS_AT_20_C * NITRIFICATION_THETA ** (20 - water.temperatureC));
}

/** Whether a run-in may begin: not below 10 °C. */
export function mayStartRunIn(water: { waterTemperature7dMeanC: number }): boolean {
  requireWithin('7-day mean of the water, °C', water.waterTemperature7dMeanC, { min: -1, max: 45 });
  return water.waterTemperature7dMeanC >= COLDEST_START_C;
}

/** Why livestock must wait, by quantity. */
export interface StockingHold {
  readonly quantity: StockingQuantity;
  readonly because: 'no-reading' | 'too-high' | 'second-reading-missing';
  /** Below this it must read. */
  readonly limit: number;
}

export interface StockingRelease {
  readonly may: boolean;
  /** A filter that handles the ammonia it is fed, or a first group so small that it feeds the filter itself. */
  readonly basis: 'fed-filter' | 'staged' | null;
  /** The most that may go in now, as part of the final stock. [-] */
  readonly largestShare: number;
  readonly missing: readonly StockingHold[];
}

/**
 * Whether the first livestock may go in, by the readings of a new pond.
 * Total ammonia below 0.25, nitrite below 0.1 mg/L N and total chlorine below 0.02 mg/L, each on the latest reading and
 * on one at least 48 h before, with nothing higher between. Either way no more than a fifth of the final stock at first.
 * @param pond.readings In any order; other quantities are ignored.
 * @param pond.feedingFilter Whether ammonia is being supplied to the filter, without which low readings prove nothing.
 * @param pond.tapIsChlorinated False for a well: then no chlorine reading is asked for. True when left out.
 * @see Common practice; readings and a fifth after a university manual (Hager et al. 2021).
 */
export function mayStock(pond: {
  readings: readonly Pick<PondReading, 'quantity' | 'value' | 'atMs'>[];
  feedingFilter: boolean;
  tapIsChlorinated?: boolean;
}): StockingRelease {
  const asked = (Object.keys(STOCKING_LIMITS) as StockingQuantity[]).filter(
    (quantity) => quantity !== 'total-chlorine' || (pond.tapIsChlorinated ?? true),
  );
  const missing = asked.flatMap((quantity) => holdOf(quantity, pond.readings));
  if (missing.length > 0) return { may: false, basis: null, largestShare: 0, missing };
  return { may: true, basis: pond.feedingFilter ? 'fed-filter' : 'staged', largestShare: firstStockShare, missing };
}

function holdOf(
  quantity: StockingQuantity,
  readings: readonly Pick<PondReading, 'quantity' | 'value' | 'atMs'>[],
): StockingHold[] {
  const limit = STOCKING_LIMITS[quantity];
  const own = readings.filter((reading) => reading.quantity === quantity).sort((a, b) => b.atMs - a.atMs);
  for (const { value } of own) requireWithin(quantity, value, { min: 0, max: 100 });

  const latest = own[0];
  if (!latest) return [{ quantity, because: 'no-reading', limit }];
  if (latest.value >= limit) return [{ quantity, because: 'too-high', limit }];
  const firstHigh = own.findIndex(({ value }) => value >= limit);
  const goodRun = firstHigh === -1 ? own : own.slice(0, firstHigh);
  const isLongEnough = goodRun.some(({ atMs }) => latest.atMs - atMs >= READINGS_APART_MS);
  return isLongEnough ? [] : [{ quantity, because: 'second-reading-missing', limit }];
}
