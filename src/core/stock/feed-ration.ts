import type { StockGroup } from '../care/pond-facts.js';
import { requireWithin } from '../errors.js';
import { fishMassG } from './fish-mass.js';

/** Feeding stops below this on either mean, at once (common practice; carp eat very little below 10 °C). [°C] */
export const FEED_STOP_BELOW_C = 10;
/** No setting of a company opens feeding below this (common practice; carp stop at 7 to 8 °C). [°C] */
export const FEED_LOCK_BELOW_C = 8;
/** Light food below, staple food from here (common practice). [°C] */
export const STAPLE_FROM_C = 15;
/** Daily maxima: feed early and aerate; feed half; feed nothing (common practice). [°C] */
export const FEED_EARLY_FROM_C = 26;
export const FEED_HALF_FROM_C = 28;
export const FEED_NONE_FROM_C = 30;

/** Protein of the usual food, light (wheat germ) and staple (common practice). [-] */
export const FEED_PROTEIN_SHARE = { light: 0.3, staple: 0.35 } as const;

const WATER_RANGE_C = { min: -1, max: 45 } as const;
const FISH_MASS_RANGE_G = { min: 0, max: 50_000 } as const;

/** When on a day, and on how many days of a week, the ration is given. */
export type Meals =
  | 'none'
  | 'two-or-three-a-week'
  | 'at-most-one-a-day'
  | 'one-or-two-a-day'
  | 'two-to-four-a-day'
  | 'three-or-four-a-day'
  | 'two-each-morning'
  | 'one-each-morning';

interface RationBand {
  /** Lower end of the band, which belongs to it. [°C] */
  readonly fromC: number;
  /** Ration of fish above 500 g, of 50 to 500 g, and below 50 g. [% of body mass per day] */
  readonly pct: readonly [large: number, middle: number, small: number];
  readonly meals: Meals;
}

/** A care diet, not a growth diet (common practice; juvenile carp need 0.4 to 1.9 % just to keep their mass). */
const BANDS: readonly RationBand[] = [
  { fromC: 30, pct: [0.5, 0.8, 1.2], meals: 'one-each-morning' },
  { fromC: 28, pct: [1.0, 1.5, 2.5], meals: 'two-each-morning' },
  { fromC: 25, pct: [1.2, 2.0, 3.0], meals: 'three-or-four-a-day' },
  { fromC: 20, pct: [1.0, 1.5, 2.5], meals: 'two-to-four-a-day' },
  { fromC: 16, pct: [0.7, 1.0, 1.5], meals: 'one-or-two-a-day' },
  { fromC: 13, pct: [0.4, 0.6, 0.8], meals: 'at-most-one-a-day' },
  { fromC: FEED_STOP_BELOW_C, pct: [0.2, 0.3, 0.4], meals: 'two-or-three-a-week' },
];
const TOO_HOT_ABOVE_C = 32;
const NO_BAND: RationBand = { fromC: Number.NEGATIVE_INFINITY, pct: [0, 0, 0], meals: 'none' };

function bandAt(waterTemperatureC: number): RationBand {
  if (waterTemperatureC > TOO_HOT_ABOVE_C) return NO_BAND;
  return BANDS.find((band) => waterTemperatureC >= band.fromC) ?? NO_BAND;
}

/**
 * Daily ration of a fish as a share of its mass, averaged over the week. [-]
 * A koi of 1 kg at 22 °C: 0.010. Below 10 °C and above 32 °C: 0.
 * @param fish.fishMassG 0 to 50,000. [g]
 * @param fish.waterTemperatureC -1 to 45. [°C]
 * @see Common practice, anchored to Goolish & Adelman (1984), Aquaculture 36, 27-35.
 */
export function feedRationShare(fish: { fishMassG: number; waterTemperatureC: number }): number {
  requireWithin('fish mass, g', fish.fishMassG, FISH_MASS_RANGE_G);
  requireWithin('water temperature, °C', fish.waterTemperatureC, WATER_RANGE_C);

  const [large, middle, small] = bandAt(fish.waterTemperatureC).pct;
  if (fish.fishMassG > 500) return large / 100;
  return (fish.fishMassG >= 50 ? middle : small) / 100;
}

/** Why the ration is what it is; the gravest reason. */
export type FeedReason =
  | 'no-fish'
  | 'locked-cold'
  | 'too-cold'
  | 'too-hot'
  | 'oxygen-emergency'
  | 'ammonia-high'
  | 'hot-half'
  | 'oxygen-low-half'
  | 'nitrite-high-half'
  | 'warm-feed-early'
  | 'cool-light-food'
  | 'in-season';

export interface Feed {
  /** Mean over the week; see `feedingDaysPerWeek`. */
  readonly feedGPerDay: number;
  readonly kind: 'none' | 'light' | 'staple';
  readonly mealsText: Meals;
  /** Days of the week with food. On one of them goes feedGPerDay x 7 / feedingDaysPerWeek. */
  readonly feedingDaysPerWeek: number;
  readonly halved: boolean;
  readonly reason: FeedReason;
  /** The temperature that set the ration: the lower of the two means. */
  readonly rationTemperatureC: number;
}

export interface FeedConditions {
  readonly stock: readonly StockGroup[];
  readonly waterTemperature7dMeanC: number;
  readonly waterTemperature3dMeanC: number;
  /** Highest of the day; the higher mean stands in where nobody knows. [°C] */
  readonly waterTemperatureMaxC?: number;
  /** Oxygen measured at dawn of that day: below 5 halves, below 4 stops; from 6 on it lifts the heat rule. [mg/L] */
  readonly dawnOxygenMgPerL?: number;
  /** Latest un-ionised ammonia: from 0.05 on it stops. [mg/L N] */
  readonly unionisedAmmoniaMgNPerL?: number;
  /** Latest nitrite: from 0.3 on it halves. [mg/L N] */
  readonly nitriteMgNPerL?: number;
}

/**
 * Food for the fish of a pond on one day, size class by size class. Turtles are not counted.
 * The lower of the 3-day and 7-day means sets the ration; the daily maximum sets what heat takes off.
 * Ten adult kilograms at 22 °C: 100 g of staple.
 * @see Common practice throughout; the ration of `feedRationShare`.
 */
export function feedFor(conditions: FeedConditions): Feed {
  requireConditions(conditions);
  const means = [conditions.waterTemperature7dMeanC, conditions.waterTemperature3dMeanC] as const;
  const rationTemperatureC = Math.min(...means);
  const maxC = conditions.waterTemperatureMaxC ?? Math.max(...means);

  const stop = reasonToStop(conditions, rationTemperatureC, maxC);
  if (stop) return nothing(stop, rationTemperatureC);

  const band = bandAt(rationTemperatureC);
  const half = reasonToHalve(conditions, maxC);
  const fullG = rationG(conditions.stock, rationTemperatureC, isHeatRuleLifted(conditions) ? maxC : rationTemperatureC);
  const kind = rationTemperatureC < STAPLE_FROM_C ? 'light' : 'staple';
  return {
    feedGPerDay: half ? fullG / 2 : fullG,
    kind,
    mealsText: mealsAt(band, maxC),
    feedingDaysPerWeek: band.meals === 'two-or-three-a-week' ? 3 : 7,
    halved: half !== null,
    reason: half ?? reasonToFeed(maxC, kind),
    rationTemperatureC,
  };
}

/**
 * Whether light feeding may begin again in spring: seven 7-day means in a row of 10 °C or more, and the last five daily
 * means above 8 °C (common practice).
 * @param water.waterTemperature7dMeansC The latest seven, in order. [°C]
 * @param water.waterTemperaturesC The latest five daily means, in order. [°C]
 */
export function mayFeedAgain(water: {
  waterTemperature7dMeansC: readonly number[];
  waterTemperaturesC: readonly number[];
}): boolean {
  const means = water.waterTemperature7dMeansC.slice(-7);
  const days = water.waterTemperaturesC.slice(-5);
  return (
    means.length === 7 &&
    days.length === 5 &&
    means.every((meanC) => meanC >= FEED_STOP_BELOW_C) &&
    days.every((dayC) => dayC > FEED_LOCK_BELOW_C)
  );
}

/** On hot days all food goes in early, in fewer meals; the sparse meals of cool water stay as they are. */
function mealsAt(band: RationBand, maxC: number): Meals {
  if (maxC < FEED_EARLY_FROM_C || band.fromC < STAPLE_FROM_C) return band.meals;
  return maxC < FEED_NONE_FROM_C ? 'two-each-morning' : 'one-each-morning';
}

function rationG(stock: readonly StockGroup[], meanC: number, hottestC: number): number {
  let totalG = 0;
  for (const { species, count, lengthCm } of stock) {
    if (species === 'slider-turtle') continue;
    const massG = fishMassG({ species, lengthCm });
    const share = Math.min(
      feedRationShare({ fishMassG: massG, waterTemperatureC: meanC }),
      hottestC >= FEED_HALF_FROM_C ? feedRationShare({ fishMassG: massG, waterTemperatureC: hottestC }) : 1,
    );
    totalG += count * massG * share;
  }
  return totalG;
}

/** Oxygen of 6 mg/L or more at dawn of the same day: the ration table alone rules in the heat. */
function isHeatRuleLifted({ dawnOxygenMgPerL }: FeedConditions): boolean {
  return dawnOxygenMgPerL !== undefined && dawnOxygenMgPerL >= 6;
}

function reasonToStop(conditions: FeedConditions, rationC: number, maxC: number): FeedReason | null {
  const { stock, dawnOxygenMgPerL, unionisedAmmoniaMgNPerL } = conditions;
  if (!stock.some(({ species, count }) => species !== 'slider-turtle' && count > 0)) return 'no-fish';
  if (rationC < FEED_LOCK_BELOW_C) return 'locked-cold';
  if (rationC < FEED_STOP_BELOW_C) return 'too-cold';
  const hottestC = Math.max(maxC, rationC);
  if (hottestC > TOO_HOT_ABOVE_C) return 'too-hot';
  if (hottestC >= FEED_NONE_FROM_C && !isHeatRuleLifted(conditions)) return 'too-hot';
  if (dawnOxygenMgPerL !== undefined && dawnOxygenMgPerL < 4) return 'oxygen-emergency';
  if (unionisedAmmoniaMgNPerL !== undefined && unionisedAmmoniaMgNPerL >= 0.05) return 'ammonia-high';
  return null;
}

function reasonToHalve(conditions: FeedConditions, maxC: number): FeedReason | null {
  const { dawnOxygenMgPerL, nitriteMgNPerL } = conditions;
  if (maxC >= FEED_HALF_FROM_C && !isHeatRuleLifted(conditions)) return 'hot-half';
  if (dawnOxygenMgPerL !== undefined && dawnOxygenMgPerL < 5) return 'oxygen-low-half';
  if (nitriteMgNPerL !== undefined && nitriteMgNPerL >= 0.3) return 'nitrite-high-half';
  return null;
}

function reasonToFeed(maxC: number, kind: 'light' | 'staple'): FeedReason {
  if (maxC >= FEED_EARLY_FROM_C) return 'warm-feed-early';
  return kind === 'light' ? 'cool-light-food' : 'in-season';
}

function nothing(reason: FeedReason, rationTemperatureC: number): Feed {
  return {
    feedGPerDay: 0,
    kind: 'none',
    mealsText: 'none',
    feedingDaysPerWeek: 0,
    halved: false,
    reason,
    rationTemperatureC,
  };
}

function requireConditions(conditions: FeedConditions): void {
  requireWithin('7-day mean of the water, °C', conditions.waterTemperature7dMeanC, WATER_RANGE_C);
  requireWithin('3-day mean of the water, °C', conditions.waterTemperature3dMeanC, WATER_RANGE_C);
  if (conditions.waterTemperatureMaxC !== undefined) {
    requireWithin('highest water temperature, °C', conditions.waterTemperatureMaxC, WATER_RANGE_C);
  }
  if (conditions.dawnOxygenMgPerL !== undefined) {
    requireWithin('oxygen at dawn, mg/L', conditions.dawnOxygenMgPerL, { min: 0, max: 20 });
  }
  if (conditions.unionisedAmmoniaMgNPerL !== undefined) {
    requireWithin('un-ionised ammonia, mg/L N', conditions.unionisedAmmoniaMgNPerL, { min: 0, max: 20 });
  }
  if (conditions.nitriteMgNPerL !== undefined) {
    requireWithin('nitrite, mg/L N', conditions.nitriteMgNPerL, { min: 0, max: 50 });
  }
  for (const { species, count } of conditions.stock) {
    requireWithin(`number of ${species}`, count, { min: 0, max: 100_000 });
  }
}
