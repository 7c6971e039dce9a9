/**
 * The disturbances of an ensemble: weather of days, of months, and the model's own error. Each is addressed by
 * (seed, trace, calendar day), never by the day of the run, so a forecast made tomorrow has today's weather in its traces
 * and its dates do not flutter.
 *
 * Traces come in pairs of opposite sign, and the offsets of the pairs are evenly spread quantiles: the median of few
 * traces is then as steady as that of many.
 */

import { gaussianAt, noiseKey, normalQuantile } from '../climate/counter-noise.js';
import { CURVE_DAYS, curveIndex, dailyCurve } from '../climate/daily-curve.js';
import type { SiteClimate } from '../climate/station.js';
import { ofMonth, twelveMonths } from '../climate/twelve-months.js';
import { type CivilDay, dayFromParts } from '../units/civil-day.js';

/** Memory of the daily anomaly from one day to the next; De Bilt 0.78 to 0.85 by season (derived). [-] */
export const WEATHER_KEEP = 0.8;
const WEATHER_INNOVATION = Math.sqrt(1 - WEATHER_KEEP * WEATHER_KEEP);
/** Days by which the recursions run ahead, so that nothing is left of their start. */
export const NOISE_RUN_IN_DAYS = 120;

const MONTH_STREAM = 1 << 16;
const FADING_STREAM = 2 << 16;
const OFFSET_STREAM = 3 << 16;
const SIGN_STREAM = 4 << 16;

/** Standard deviations of the two weather disturbances, as daily curves of 366 places. [°C] */
export interface WeatherSpread {
  /** Of the day-to-day anomaly. */
  readonly daySdC: Float64Array;
  /** Of the offset that one calendar month shares. */
  readonly monthSdC: Float64Array;
}

const DAYS_OF_A_MONTH = 30.4;
/** Variance of a month's mean of the daily anomaly, as a share of the daily variance. */
const MONTH_MEAN_SHARE = monthMeanShare(WEATHER_KEEP, DAYS_OF_A_MONTH);
const SMALLEST_SD_C = 0.3;

/**
 * Splits the station's spread so that nothing is counted twice (climate handbook 8; derived). The daily anomaly must
 * give the spread of days inside a month once the seasonal drift of that month is taken out; what it does not give of
 * the spread between years is added as a monthly offset.
 */
export function weatherSpreadOf(climate: SiteClimate): WeatherSpread {
  const drift = driftVariance(dailyCurve(climate.meanC));
  const daySd = twelveMonths((month) => {
    const within = ofMonth(climate.dailySdC, month) ** 2 - (drift[month] as number);
    return Math.max(SMALLEST_SD_C, Math.sqrt(Math.max(0, within) / (1 - MONTH_MEAN_SHARE)));
  });
  const daySdC = dailyCurve(daySd).map((sd) => Math.max(SMALLEST_SD_C, sd));
  const monthSdC = new Float64Array(CURVE_DAYS);
  for (let month = 0; month < 12; month++) {
    const between = ofMonth(climate.betweenYearsSdC, month) ** 2 - MONTH_MEAN_SHARE * ofMonth(daySd, month) ** 2;
    const first = curveIndex(dayFromParts(2024, month + 1, 1));
    const end = month === 11 ? CURVE_DAYS : curveIndex(dayFromParts(2024, month + 2, 1));
    monthSdC.fill(Math.sqrt(Math.max(0, between)), first, end);
  }
  return { daySdC, monthSdC };
}

/** Variance of the mean of n values of an AR(1) series of unit variance. */
function monthMeanShare(keep: number, n: number): number {
  const shared = (1 + keep) / (1 - keep) / n;
  return shared - (2 * keep * (1 - keep ** n)) / (n * n * (1 - keep) ** 2);
}

/** Variance inside each month that comes from the season alone. */
function driftVariance(curve: Float64Array): number[] {
  return Array.from({ length: 12 }, (_, month) => {
    const first = curveIndex(dayFromParts(2024, month + 1, 1));
    const end = month === 11 ? CURVE_DAYS : curveIndex(dayFromParts(2024, month + 2, 1));
    const values = curve.subarray(first, end);
    const mean = values.reduce((total, value) => total + value, 0) / values.length;
    return values.reduce((total, value) => total + (value - mean) ** 2, 0) / values.length;
  });
}

/** The noise of all traces on one day; advanced day by day in place, without allocation. */
export class EnsembleNoise {
  /** Unit daily weather anomaly of each trace today. [-] */
  readonly weather: Float64Array;
  /** Unit offset of each trace for today's calendar month. [-] */
  readonly month: Float64Array;
  /** Unit fading model error of each trace today. [-] */
  readonly fading: Float64Array;
  /** Unit static model offset of each trace: evenly spread quantiles in an order given by the seed. [-] */
  readonly offset: Float64Array;
  private readonly weatherKeys: Int32Array;
  private readonly monthKeys: Int32Array;
  private readonly fadingKeys: Int32Array;
  private monthNumber = Number.NaN;

  /**
   * @param seed Any number; see `ensembleSeed`.
   * @param traces 1 to 400.
   * @param startDay The day before the first `advance`.
   * @param fadingKeep Memory of the fading error from one day to the next. [-]
   */
  constructor(
    seed: number,
    private readonly traces: number,
    startDay: CivilDay,
    private readonly fadingKeep: number,
  ) {
    const pairs = Math.ceil(traces / 2);
    this.weather = new Float64Array(traces);
    this.month = new Float64Array(traces);
    this.fading = new Float64Array(traces);
    this.offset = spreadOffsets(seed, traces);
    this.weatherKeys = Int32Array.from({ length: pairs }, (_, pair) => noiseKey(seed, pair));
    this.monthKeys = Int32Array.from({ length: pairs }, (_, pair) => noiseKey(seed, MONTH_STREAM + pair));
    this.fadingKeys = Int32Array.from({ length: pairs }, (_, pair) => noiseKey(seed, FADING_STREAM + pair));
    for (let day = startDay - NOISE_RUN_IN_DAYS + 1; day <= startDay; day++) this.advanceDay(day);
  }

  /** Moves on to `day`, which must follow the day before; `monthNumber` counts calendar months from any start. */
  advance(day: CivilDay, monthNumber: number): void {
    this.advanceDay(day);
    if (monthNumber === this.monthNumber) return;
    this.monthNumber = monthNumber;
    for (let trace = 0; trace < this.traces; trace++) {
      const unit = gaussianAt(this.monthKeys[trace >> 1] as number, monthNumber);
      this.month[trace] = (trace & 1) === 0 ? unit : -unit;
    }
  }

  private advanceDay(day: number): void {
    const { weather, fading, traces, fadingKeep } = this;
    const fadingInnovation = Math.sqrt(1 - fadingKeep * fadingKeep);
    for (let trace = 0; trace < traces; trace += 2) {
      const pair = trace >> 1;
      const weatherToday =
        WEATHER_KEEP * (weather[trace] as number) +
        WEATHER_INNOVATION * gaussianAt(this.weatherKeys[pair] as number, day);
      const fadingToday =
        fadingKeep * (fading[trace] as number) + fadingInnovation * gaussianAt(this.fadingKeys[pair] as number, day);
      weather[trace] = weatherToday;
      fading[trace] = fadingToday;
      if (trace + 1 < traces) {
        weather[trace + 1] = -weatherToday;
        fading[trace + 1] = -fadingToday;
      }
    }
  }
}

/** Offsets of the pairs: quantiles of the normal distribution, shuffled and signed by the seed. */
function spreadOffsets(seed: number, traces: number): Float64Array {
  const pairs = Math.ceil(traces / 2);
  const order = Array.from({ length: pairs }, (_, pair) => pair);
  const key = noiseKey(seed, OFFSET_STREAM);
  order.sort((a, b) => gaussianAt(key, a) - gaussianAt(key, b));
  const signKey = noiseKey(seed, SIGN_STREAM);
  return Float64Array.from({ length: traces }, (_, trace) => {
    const pair = trace >> 1;
    const quantile = normalQuantile(0.5 + (0.5 * ((order[pair] as number) + 0.5)) / pairs);
    const sign = gaussianAt(signKey, pair) > 0 === ((trace & 1) === 0) ? 1 : -1;
    return sign * quantile;
  });
}
