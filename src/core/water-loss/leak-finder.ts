import { InvalidValueError, requireWithin } from '../errors.js';
import { WATERFALL_FACTOR } from '../evaporation/top-up.js';
import {
  type LossParts,
  type LossReference,
  RULER_SIGMA_MM,
  reckonedSigmaMmPerDay,
  rulerSigmaMmPerDay,
  SPLASH_SHARE,
  weatherSigmaMmPerDay,
} from './loss-errors.js';
import { normalShareBelow } from './normal-distribution.js';

/** One look at the level. */
export interface LevelReading {
  /** From the first reading on; fractions count. */
  readonly atDay: number;
  /** Water below a fixed mark; negative above it. */
  readonly belowMarkMm: number;
  /** Since the reading before; 0 for the first. */
  readonly rainMm: number;
  readonly addedL: number;
}

export interface LeakTest {
  /** At least two, over 6 hours to 60 days, by time. */
  readonly readings: readonly LevelReading[];
  readonly surfaceAreaM2: number;
  /** What stands in for evaporation: the site's climate, or the fall in a bucket over the whole test. */
  readonly evaporation:
    | { readonly from: 'climate'; readonly mmPerDay: number }
    | { readonly from: 'bucket'; readonly fallMm: number };
  /** Whether it runs during the test. */
  readonly hasWaterfall: boolean;
  /** Flow of the falls where spray leaves the basin; left out where none does. */
  readonly sprayedFlowLPerH?: number;
  /** 1 when left out. */
  readonly rulerSigmaMm?: number;
}

/** `came-in`: the level fell so much less than reckoned that water must have been added. */
export type LeakVerdictKind = 'leak' | 'tight' | 'undecided' | 'came-in';

export interface LeakVerdict {
  readonly verdict: LeakVerdictKind;
  /** That more than 2 mm a day is lost without a reason, 0 to 1. */
  readonly leakProbability: number;
  /** Loss without a reason. */
  readonly unexplainedMmPerDay: number;
  /** One standard deviation. */
  readonly sigmaMmPerDay: number;
  readonly unexplainedLPerDay: number;
  readonly sigmaLPerDay: number;
  readonly days: number;
  /** What the pond lost in all, water added counted in; and what is reckoned of it. Both over the whole test. */
  readonly lostMm: number;
  readonly reckonedMm: number;
  /** The smallest loss without a reason this test would have called a leak. */
  readonly leastProvableMmPerDay: number;
  /** Where the fall stopped, if it did: a hole sits at that height. Below the mark. */
  readonly stoppedAtMm: number | null;
}

/** Loss without a reason up to which a pond counts as tight, and from which it leaks for sure (common practice). [mm/day] */
export const TIGHT_UP_TO_MM_PER_DAY = 2;
export const LEAK_FROM_MM_PER_DAY = 5;
/** A verdict is given when it is at least this certain. [-] */
export const CERTAIN_FROM = 0.95;
/** Standard deviations on one side that hold 95 %. */
export const CERTAIN_SIGMAS = 1.6449;

/**
 * Whether a pond loses water without a reason, and how certain that is.
 *   unexplained = (fall + added / A - reckoned) / days;   reckoned = E x 1.2 while the falls run - rain + splash
 *   P(leak) = P(unexplained > 2 mm/day), its error from `loss-errors`; with 95 % it is a verdict
 * With more than two readings the fall is the least-squares line through all of them. What evaporated
 * from a bucket is its fall and the rain.
 * 30 mm in 3 days, a bucket 12 mm, 12 m²: 72 L a day.
 * @see Balance and propagation of errors (derived); the limits of 2 and 5 mm a day are common practice.
 */
export function leakVerdict(test: LeakTest): LeakVerdict {
  requireLeakTest(test);
  const parts = partsOf(test);
  const { days } = parts;
  const reckonedPerDay = reckonedMmPerDay(parts);
  const rulerMm = test.rulerSigmaMm ?? RULER_SIGMA_MM;
  const { slope, sigma } = lossLine(test, parts.reference, rulerMm);

  const unexplained = slope - reckonedPerDay;
  const sigmaMmPerDay = Math.hypot(sigma, reckonedSigmaMmPerDay(parts));
  const leakProbability = 1 - normalShareBelow((TIGHT_UP_TO_MM_PER_DAY - unexplained) / sigmaMmPerDay);
  const cameIn = normalShareBelow((-TIGHT_UP_TO_MM_PER_DAY - unexplained) / sigmaMmPerDay);
  return {
    verdict: verdictOf(leakProbability, cameIn),
    leakProbability,
    unexplainedMmPerDay: unexplained,
    sigmaMmPerDay,
    unexplainedLPerDay: unexplained * test.surfaceAreaM2,
    sigmaLPerDay: sigmaMmPerDay * test.surfaceAreaM2,
    days,
    lostMm: slope * days,
    reckonedMm: reckonedPerDay * days,
    leastProvableMmPerDay: TIGHT_UP_TO_MM_PER_DAY + CERTAIN_SIGMAS * sigmaMmPerDay,
    stoppedAtMm: stoppedAtMm(test, parts, rulerMm),
  };
}

function verdictOf(leakProbability: number, cameIn: number): LeakVerdictKind {
  if (leakProbability >= CERTAIN_FROM) return 'leak';
  if (cameIn >= CERTAIN_FROM) return 'came-in';
  return leakProbability <= 1 - CERTAIN_FROM ? 'tight' : 'undecided';
}

/** Loss the known reasons account for. [mm/day] */
export function reckonedMmPerDay(parts: LossParts): number {
  const { evaporationMmPerDay } = parts;
  // Below zero it is rain in the bucket that nobody wrote down, and a waterfall adds none of that.
  const isMore = parts.hasWaterfall && evaporationMmPerDay > 0;
  const evaporation = evaporationMmPerDay * (isMore ? WATERFALL_FACTOR : 1);
  return evaporation - parts.rainMmPerDay + SPLASH_SHARE * parts.sprayedFlowMmPerH;
}

function partsOf(test: LeakTest): LossParts {
  const days = test.readings.at(-1)?.atDay ?? 0;
  const total = (amount: (reading: LevelReading) => number) =>
    test.readings.slice(1).reduce((sum, reading) => sum + amount(reading), 0);
  const { evaporation } = test;
  const rainMm = total((reading) => reading.rainMm);
  return {
    reference: evaporation.from,
    days,
    // The bucket stands in the same rain: what evaporated from it is its fall and that rain.
    evaporationMmPerDay: evaporation.from === 'climate' ? evaporation.mmPerDay : (evaporation.fallMm + rainMm) / days,
    hasWaterfall: test.hasWaterfall,
    sprayedFlowMmPerH: (test.sprayedFlowLPerH ?? 0) / test.surfaceAreaM2,
    rainMmPerDay: rainMm / days,
    addedMmPerDay: total(({ addedL }) => addedL) / test.surfaceAreaM2 / days,
  };
}

/**
 * What the pond lost a day, water added counted in, and the error the ruler gives it.
 * Rain is put back in before the line is drawn and taken out after, so that a shower bends nothing.
 */
function lossLine(test: LeakTest, reference: LossReference, rulerSigmaMm: number) {
  const lost = lostSoFarMm(test);
  const days = test.readings.at(-1)?.atDay ?? 0;
  if (reference === 'bucket') {
    return { slope: (lost.at(-1) as number) / days, sigma: rulerSigmaMmPerDay({ reference, days, rulerSigmaMm }) };
  }
  const rain = rainSoFarMm(test);
  const at = test.readings.map(({ atDay }) => atDay);
  const meanDay = mean(at);
  const spread = at.reduce((sum, day) => sum + (day - meanDay) ** 2, 0);
  const dry = lost.map((mm, i) => mm + (rain[i] as number));
  const slope = dry.reduce((sum, mm, i) => sum + ((at[i] as number) - meanDay) * mm, 0) / spread;
  return { slope: slope - (rain.at(-1) as number) / days, sigma: rulerSigmaMm / Math.sqrt(spread) };
}

function lostSoFarMm({ readings, surfaceAreaM2 }: LeakTest): number[] {
  const first = readings[0] as LevelReading;
  let addedL = 0;
  return readings.map((reading, i) => {
    if (i > 0) addedL += reading.addedL;
    return reading.belowMarkMm - first.belowMarkMm + addedL / surfaceAreaM2;
  });
}

function rainSoFarMm({ readings }: LeakTest): number[] {
  let rainMm = 0;
  return readings.map((reading, i) => {
    if (i > 0) rainMm += reading.rainMm;
    return rainMm;
  });
}

/**
 * Where a fall ended: for some reading, the water fell certainly faster before it than after it, and after it no faster
 * than reckoned. What the climate is off by all along drops out of the difference. Needs four readings.
 */
function stoppedAtMm(test: LeakTest, parts: LossParts, rulerSigmaMm: number): number | null {
  const { readings } = test;
  const lost = lostSoFarMm(test);
  const rain = rainSoFarMm(test);
  const dry = lost.map((mm, i) => mm + (rain[i] as number));
  const dryReckoned = reckonedMmPerDay({ ...parts, rainMmPerDay: 0 });
  let best: { atMm: number; byMmPerDay: number } | null = null;
  for (let i = 1; i <= readings.length - 3; i++) {
    const rate = (from: number, to: number) => {
      const days = (readings[to] as LevelReading).atDay - (readings[from] as LevelReading).atDay;
      const perDay = ((dry[to] as number) - (dry[from] as number)) / days;
      const sigma = Math.hypot(
        (rulerSigmaMm * Math.SQRT2) / days,
        weatherSigmaMmPerDay({ reference: 'climate', days, evaporationMmPerDay: parts.evaporationMmPerDay }),
      );
      return { perDay, sigma };
    };
    const before = rate(0, i);
    const after = rate(i, readings.length - 1);
    const slower = before.perDay - after.perDay;
    const isCertain = slower - TIGHT_UP_TO_MM_PER_DAY >= CERTAIN_SIGMAS * Math.hypot(before.sigma, after.sigma);
    const isTightAfter = after.perDay - dryReckoned <= TIGHT_UP_TO_MM_PER_DAY;
    if (isCertain && isTightAfter && (best === null || slower > best.byMmPerDay)) {
      best = { atMm: (readings[i] as LevelReading).belowMarkMm, byMmPerDay: slower };
    }
  }
  return best?.atMm ?? null;
}

const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

function requireLeakTest(test: LeakTest): void {
  const { readings, evaporation } = test;
  if (readings.length < 2) {
    throw new InvalidValueError('levels', readings.length, 'Give at least two, some days apart.');
  }
  requireWithin('surface area, m²', test.surfaceAreaM2, { min: 0.1, max: 100_000 });
  requireWithin('day of the first level', readings[0]?.atDay ?? Number.NaN, { min: 0, max: 0 });
  for (const [i, reading] of readings.entries()) {
    requireWithin('water below the mark, mm', reading.belowMarkMm, { min: -2000, max: 5000 });
    requireWithin('rain, mm', reading.rainMm, { min: 0, max: 1000 });
    requireWithin('water added, L', reading.addedL, { min: 0, max: 10_000_000 });
    const before = readings[i - 1];
    if (before && reading.atDay <= before.atDay) {
      throw new InvalidValueError('time of a level', reading.atDay, 'Each is later than the one before.');
    }
  }
  requireWithin('length of the test, days', readings.at(-1)?.atDay ?? 0, { min: 0.25, max: 60 });
  if (evaporation.from === 'climate') {
    requireWithin('evaporation, mm/day', evaporation.mmPerDay, { min: 0, max: 30 });
  } else {
    requireWithin('fall in the bucket, mm', evaporation.fallMm, { min: -500, max: 500 });
  }
  requireWithin('flow of the falls, L/h', test.sprayedFlowLPerH ?? 0, { min: 0, max: 1_000_000 });
  requireWithin('error of the ruler, mm', test.rulerSigmaMm ?? RULER_SIGMA_MM, { min: 0.1, max: 20 });
}
