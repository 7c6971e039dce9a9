import type { SiteClimate } from '../climate/station.js';
import { crossingDates, PERSISTENCE_DAYS } from '../thermal/crossing-dates.js';
import type { CrossingDates, WaterForecast } from '../thermal/water-forecast.js';
import { addDays, type CivilDay, monthOf } from '../units/civil-day.js';
import { type Season, searchWindow } from './seasons.js';

const YEAR_DAYS = 365;
/** Ice that counts as ice. [cm] */
const ICE_CM = 0.1;
/** Half the daily range of a pond one metre deep; shallower water swings more, within 0.5 to 2 (common practice). [°C] */
const HALF_DAILY_RANGE_AT_1_M_C = 1;
const HALF_DAILY_RANGE_C = { min: 0.5, max: 2 } as const;

/**
 * The water forecast as the planner asks it. Days outside the forecast are answered by the same day of the nearest
 * forecast year, so that loads of last season can be counted; the ensemble median stands for "the" water.
 */
export interface WaterOutlook {
  readonly forecast: WaterForecast;
  /** Trailing 7-day mean, median of the traces. [°C] */
  median7dMeanC(day: CivilDay): number;
  /** Trailing 3-day mean of the median. [°C] */
  median3dMeanC(day: CivilDay): number;
  /** Daily mean, median of the traces. [°C] */
  medianC(day: CivilDay): number;
  /** Estimated daily maximum at mid-depth. [°C] */
  medianMaximumC(day: CivilDay): number;
  /** Lowest daily mean of the last n days, median of the traces. [°C] */
  lowestMedianC(day: CivilDay, days: number): number;
  /** Share of the traces with ice on that day. [-] */
  iceShare(day: CivilDay): number;
  /** Crossing of the 7-day mean inside the search window of a season. */
  crossing(crossing: SoughtCrossing): CrossingDates;
  /** Median over the traces of the coldest night in the days that follow. [°C] */
  coldestNightC(day: CivilDay, days: number): number;
  /** Each trace's first day with ice inside a season, latest last; null where a trace stays open. */
  firstIceDays(season: Season): readonly (CivilDay | null)[];
  /** Each trace's first day without ice after its last ice of a season. */
  iceOutDays(season: Season): readonly (CivilDay | null)[];
}

export interface SoughtCrossing {
  readonly thresholdC: number;
  readonly direction: 'rising' | 'falling';
  readonly season: Season;
  readonly persistenceDays?: number;
}

export function waterOutlook(
  forecast: WaterForecast,
  climate: SiteClimate,
  pond: { readonly latitude: number; readonly meanDepthM: number },
): WaterOutlook {
  const indexOf = (day: CivilDay) => foldedIndex(forecast, day);
  const at = (series: Float64Array, day: CivilDay) => series[indexOf(day)] ?? Number.NaN;
  const medianC = (day: CivilDay) => at(forecast.p50C, day);
  const known = knownOf(forecast);
  const halfRangeC = Math.min(
    HALF_DAILY_RANGE_C.max,
    Math.max(HALF_DAILY_RANGE_C.min, HALF_DAILY_RANGE_AT_1_M_C / pond.meanDepthM),
  );

  return {
    forecast,
    medianC,
    median7dMeanC: (day) => at(forecast.median7dMeanC, day),
    median3dMeanC: (day) => (medianC(day) + medianC(addDays(day, -1)) + medianC(addDays(day, -2))) / 3,
    medianMaximumC: (day) => medianC(day) + halfRangeC,
    lowestMedianC: (day, days) => {
      let lowest = Number.POSITIVE_INFINITY;
      for (let back = 0; back < days; back++) lowest = Math.min(lowest, medianC(addDays(day, -back)));
      return lowest;
    },
    iceShare: (day) => {
      known.iceShares ??= iceSharePerDay(forecast);
      return at(known.iceShares, day);
    },
    crossing: (sought) => {
      const hemisphere = pond.latitude < 0 ? 'S' : 'N';
      const key = `${hemisphere} ${sought.direction} ${sought.thresholdC} ${sought.season.half} ${sought.season.year} ${sought.persistenceDays ?? ''}`;
      let dates = known.crossings.get(key);
      if (!dates) {
        dates = soughtDates(forecast, sought, pond.latitude);
        known.crossings.set(key, dates);
      }
      return dates;
    },
    coldestNightC: (day, days) => medianColdestNightC(forecast, climate, day, days),
    firstIceDays: (season) => iceDays(forecast, season, pond.latitude, 'first'),
    iceOutDays: (season) => iceDays(forecast, season, pond.latitude, 'out'),
  };
}

/** What was worked out of a forecast already. */
interface Known {
  readonly crossings: Map<string, CrossingDates>;
  iceShares: Float64Array | null;
}

/** Kept beside the forecast it is of: a pond planned anew with the same forecast asks for the same dates. */
const KNOWN = new WeakMap<WaterForecast, Known>();

function knownOf(forecast: WaterForecast): Known {
  const known = KNOWN.get(forecast) ?? { crossings: new Map(), iceShares: null };
  KNOWN.set(forecast, known);
  return known;
}

/** Index of a day, or of the same day in the nearest year the forecast has. */
function foldedIndex(forecast: WaterForecast, day: CivilDay): number {
  let index = day - forecast.firstDay;
  if (index < 0) index += Math.ceil(-index / YEAR_DAYS) * YEAR_DAYS;
  if (index >= forecast.days) index -= Math.ceil((index - forecast.days + 1) / YEAR_DAYS) * YEAR_DAYS;
  return Math.min(Math.max(index, 0), forecast.days - 1);
}

const NOT_COVERED: CrossingDates = { share: 0, p10: null, p50: null, p90: null, none: null };

function soughtDates(forecast: WaterForecast, sought: SoughtCrossing, latitude: number): CrossingDates {
  const window = searchWindow(sought.season, latitude);
  const persistence = sought.persistenceDays ?? PERSISTENCE_DAYS;
  const from = Math.max(window.from, forecast.firstDay + 1) as CivilDay;
  const until = Math.min(window.until, forecast.firstDay + forecast.days - persistence) as CivilDay;
  if (from > until) return NOT_COVERED;
  return crossingDates(forecast, {
    thresholdC: sought.thresholdC,
    direction: sought.direction,
    from,
    until,
    persistenceDays: persistence,
  });
}

function iceSharePerDay({ days, iceCm, traces }: WaterForecast): Float64Array {
  const shares = new Float64Array(days);
  for (let trace = 0; trace < traces; trace++) {
    const row = iceCm.subarray(trace * days, (trace + 1) * days);
    for (let day = 0; day < days; day++) {
      if ((row[day] as number) > ICE_CM) shares[day]!++;
    }
  }
  for (let day = 0; day < days; day++) shares[day]! /= traces;
  return shares;
}

function medianColdestNightC(forecast: WaterForecast, climate: SiteClimate, day: CivilDay, days: number): number {
  const month = monthOf(day) - 1;
  const belowMeanC = ((climate.maxC[month] ?? 0) - (climate.minC[month] ?? 0)) / 2;
  const first = foldedIndex(forecast, day);
  const coldest = new Float64Array(forecast.traces);
  for (let trace = 0; trace < forecast.traces; trace++) {
    let lowest = Number.POSITIVE_INFINITY;
    for (let i = first; i < Math.min(first + days, forecast.days); i++) {
      lowest = Math.min(lowest, forecast.airC[trace * forecast.days + i] ?? Number.POSITIVE_INFINITY);
    }
    coldest[trace] = lowest - belowMeanC;
  }
  coldest.sort();
  return coldest[Math.floor(forecast.traces / 2)] ?? Number.NaN;
}

/** Ice lies between midsummer and the next midsummer of the cooling season, or around the midwinter of the warming one. */
function iceDays(
  forecast: WaterForecast,
  season: Season,
  latitude: number,
  which: 'first' | 'out',
): (CivilDay | null)[] {
  const { from, until } = searchWindow(season, latitude);
  const firstIndex = Math.max(0, (which === 'out' ? addDays(from, -60) : from) - forecast.firstDay);
  const lastIndex = Math.min(forecast.days - 1, addDays(until, which === 'first' ? 60 : 0) - forecast.firstDay);
  const found: (CivilDay | null)[] = [];
  for (let trace = 0; trace < forecast.traces; trace++) {
    let index: number | null = null;
    for (let i = firstIndex; i <= lastIndex; i++) {
      if ((forecast.iceCm[trace * forecast.days + i] ?? 0) <= ICE_CM) continue;
      index = which === 'first' ? i : i + 1;
      if (which === 'first') break;
    }
    found.push(index === null ? null : addDays(forecast.firstDay, index));
  }
  return found;
}
