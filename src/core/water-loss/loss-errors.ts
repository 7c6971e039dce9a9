import { requireWithin } from '../errors.js';

/**
 * What the difference between a pond's level and a reckoning of it can be off by, part by part. All are one standard
 * deviation; parts are independent and add by squares.
 */

/** One reading of a ruler on calm water (common practice). [mm] */
export const RULER_SIGMA_MM = 1;
/** Penman for a garden: shelter, shade and heat stored in the water, 0.7 to 1.0 of it (derived). [-] */
const MODEL_SIGMA_SHARE = 0.15;
/**
 * A real day against the average day of its month, and how little it evens out: share 0.37 n^-0.25 over n days.
 * Derived: Penman 1948 from daily weather of De Bilt 1980-2019, April to September (KNMI, CC BY 4.0): 0.37 for one day,
 * 0.29 for 3, 0.24 for 7, 0.19 for 14; the form lies within 0.01 of them to a fortnight.
 */
const WEATHER_SIGMA_SHARE = 0.37;
const WEATHER_EVENS_OUT = 0.25;
/** Where hardly anything evaporates the shares say too little. [mm/day] */
const LEAST_MODEL_SIGMA_MM_PER_DAY = 0.3;
/** A bucket standing in the pond evaporates as the pond does, within this (common practice). [-] */
const BUCKET_SIGMA_SHARE = 0.1;
/** A waterfall adds 0 to 30 %, a fifth is reckoned (common practice). [-] */
const FALLS_SIGMA_SHARE = 0.09;
/** Spray that leaves the basin: 0 to 1 % of the hourly flow a day, half of it is reckoned (common practice). [-] */
export const SPLASH_SHARE = 0.005;
const SPLASH_SIGMA_SHARE = 0.003;
/** A garden rain gauge, and a metered top-up (common practice). [-] */
const RAIN_SIGMA_SHARE = 0.1;
const ADDED_SIGMA_SHARE = 0.05;

/** What stands in for evaporation: the climate of the site, or a bucket in the pond. */
export type LossReference = 'climate' | 'bucket';

/** The known parts of a test, as daily rates over its whole length. */
export interface LossParts {
  readonly reference: LossReference;
  readonly days: number;
  /** Of open water without the falls: from the climate, or what the bucket lost. [mm/day] */
  readonly evaporationMmPerDay: number;
  readonly hasWaterfall: boolean;
  /** Only where spray leaves the basin; else 0. [mm/day] */
  readonly sprayedFlowMmPerH: number;
  readonly rainMmPerDay: number;
  readonly addedMmPerDay: number;
}

/** Error of the reckoned loss over a test. [mm/day] */
export function reckonedSigmaMmPerDay(parts: LossParts): number {
  requireWithin('length of the test, days', parts.days, { min: 0.25, max: 60 });
  return Math.hypot(
    parts.reference === 'bucket'
      ? BUCKET_SIGMA_SHARE * parts.evaporationMmPerDay
      : Math.max(LEAST_MODEL_SIGMA_MM_PER_DAY, MODEL_SIGMA_SHARE * parts.evaporationMmPerDay),
    weatherSigmaMmPerDay(parts),
    parts.hasWaterfall ? FALLS_SIGMA_SHARE * parts.evaporationMmPerDay : 0,
    SPLASH_SIGMA_SHARE * parts.sprayedFlowMmPerH,
    parts.reference === 'bucket' ? 0 : RAIN_SIGMA_SHARE * parts.rainMmPerDay,
    ADDED_SIGMA_SHARE * parts.addedMmPerDay,
  );
}

/** The part of the error that differs from week to week; none beside a bucket, which has the same weather. [mm/day] */
export function weatherSigmaMmPerDay(parts: Pick<LossParts, 'reference' | 'days' | 'evaporationMmPerDay'>): number {
  if (parts.reference === 'bucket') return 0;
  return WEATHER_SIGMA_SHARE * parts.days ** -WEATHER_EVENS_OUT * parts.evaporationMmPerDay;
}

/** Error of the rate that two readings, or two of the pond and two of the bucket, give. [mm/day] */
export function rulerSigmaMmPerDay(test: { reference: LossReference; days: number; rulerSigmaMm: number }): number {
  requireWithin('error of the ruler, mm', test.rulerSigmaMm, { min: 0.1, max: 20 });
  const readings = test.reference === 'bucket' ? 4 : 2;
  return (test.rulerSigmaMm * Math.sqrt(readings)) / test.days;
}
