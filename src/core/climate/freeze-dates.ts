import { InvalidValueError, requireWithin } from '../errors.js';
import { addDays, type CivilDay, dayFromParts, monthOf, yearOf } from '../units/civil-day.js';
import { gaussianAt, noiseKey } from './counter-noise.js';
import { curveIndex, dailyCurve } from './daily-curve.js';
import type { SiteClimate, TwelveMonths } from './station.js';
import { ofMonth, twelveMonths } from './twelve-months.js';

/** Spread of single daily minima where it is not known; continental 5, marine 3, desert 3.5. Common practice. [°C] */
export const MINIMUM_SD_C = { value: 4, min: 1, max: 10 } as const;
/** Memory of the minimum from one night to the next. From memory. [-] */
const NIGHT_KEEP = 0.65;
const SIMULATED_YEARS = 2000;
const YEAR_DAYS = 365;
/** A year, north or south, that has no leap day inside. */
const PLAIN_YEAR = 2025;
/** 15 July: before it a freeze is one of spring. 1 August: from here on it is one of autumn. Places in a year of 365. */
const SPRING_ENDS = 195;
const AUTUMN_BEGINS = 212;

/**
 * Last freeze of spring and first of autumn over many years. Years are counted from 1 January in the north and from
 * 1 July in the south, so that midwinter is the turn of the year everywhere.
 */
export interface FreezeDates {
  readonly latitude: number;
  readonly years: number;
  /** Days after the turn of a year without leap day, ascending, of the years that have such a freeze. */
  readonly lastFreezes: Int16Array;
  readonly firstFreezes: Int16Array;
  /** Share of the years without any freeze in spring, and in autumn. */
  readonly withoutSpringFreeze: number;
  readonly withoutAutumnFreeze: number;
}

/**
 * Freeze dates by simulation: daily minimum = normal + sd z with z an AR(1) series of memory 0.65, 2000 years
 * (climate handbook section 4; New York Central Park within 1 to 3 days of the published medians).
 * The screen stands at 2 m: the ground is 2 to 3 °C colder in clear nights.
 * @param site.minC Normal daily minima: twelve months, or a daily curve of 366. [°C]
 * @param site.minSdC Standard deviation of single daily minima: one number, twelve, or a daily curve; 4 unless given. [°C]
 * @param site.thresholdC What counts as a freeze, 0 unless given; -30 to 15. [°C]
 */
export function freezeDates(site: {
  minC: TwelveMonths | Float64Array;
  minSdC?: number | TwelveMonths | Float64Array;
  latitude: number;
  thresholdC?: number;
}): FreezeDates {
  requireWithin('latitude, degrees', site.latitude, { min: -90, max: 90 });
  requireWithin('freeze threshold, °C', site.thresholdC ?? 0, { min: -30, max: 15 });
  const sigmas = freezingSigmas(site);
  const noise = nightNoise();
  const last: number[] = [];
  const first: number[] = [];
  for (let year = 0; year < SIMULATED_YEARS; year++) {
    const offset = year * YEAR_DAYS;
    for (let day = SPRING_ENDS; day >= 0; day--) {
      if ((noise[offset + day] as number) > (sigmas[day] as number)) continue;
      last.push(day);
      break;
    }
    for (let day = AUTUMN_BEGINS; day < YEAR_DAYS; day++) {
      if ((noise[offset + day] as number) > (sigmas[day] as number)) continue;
      first.push(day);
      break;
    }
  }
  return gathered(site.latitude, SIMULATED_YEARS, last, first);
}

/**
 * Freeze dates of a real series of daily minima; at least 10 whole years.
 * @param history.minC Daily minima from `firstDay` on; NaN where missing. [°C]
 * @throws InvalidValueError when fewer than 10 whole years are given.
 */
export function freezeDatesFromHistory(history: {
  firstDay: CivilDay;
  minC: ArrayLike<number>;
  latitude: number;
  thresholdC?: number;
}): FreezeDates {
  requireWithin('latitude, degrees', history.latitude, { min: -90, max: 90 });
  const thresholdC = history.thresholdC ?? 0;
  const last: number[] = [];
  const first: number[] = [];
  let years = 0;
  for (let year = yearOf(history.firstDay); ; year++) {
    const turn = turnOfYear(year, history.latitude);
    const start = turn - history.firstDay;
    if (start < 0) continue;
    const length = turnOfYear(year + 1, history.latitude) - turn;
    if (start + length > history.minC.length) break;
    years++;
    let lastDay = -1;
    let firstDay = -1;
    for (let day = 0; day < length; day++) {
      if (!((history.minC[start + day] as number) <= thresholdC)) continue;
      const place = placeInPlainYear(turn, day);
      if (place <= SPRING_ENDS) lastDay = place;
      else if (place >= AUTUMN_BEGINS && firstDay < 0) firstDay = place;
    }
    if (lastDay >= 0) last.push(lastDay);
    if (firstDay >= 0) first.push(firstDay);
  }
  if (years < 10) throw new InvalidValueError('years of daily minima', years, 'Give at least ten whole years.');
  return gathered(history.latitude, years, last, first);
}

/**
 * Freeze dates of a site's climate; the spread of minima is taken as that of daily means about the normal.
 * @param options.thresholdC What counts as a freeze, 0 unless given; -30 to 15. [°C]
 */
export function freezeDatesOf(climate: SiteClimate, options: { thresholdC?: number } = {}): FreezeDates {
  const { minC, latitude } = climate;
  return freezeDates({ minC, minSdC: minimumSdOf(climate), latitude, ...options });
}

function minimumSdOf(climate: SiteClimate): TwelveMonths {
  return twelveMonths((month) => Math.hypot(ofMonth(climate.dailySdC, month), ofMonth(climate.betweenYearsSdC, month)));
}

/**
 * The day after which a freeze still comes with this probability, as in NOAA's normals (0.5 is the median last freeze,
 * 0.1 a late one); null where fewer years than that have one: no date is invented.
 * @param season.year Calendar year in which the spring lies.
 */
export function lastFreezeOn(dates: FreezeDates, season: { year: number; probability: number }): CivilDay | null {
  const place = placeOf(dates.lastFreezes, dates.lastFreezes.length - season.probability * dates.years, season);
  // The year counts from midwinter: in the south the spring of `year` began on 1 July of it.
  return place === null ? null : dayOfPlace(turnOfYear(season.year, dates.latitude), place);
}

/**
 * The day by which the first freeze has come with this probability (0.1 early, 0.5 the median); null where fewer years
 * than that have one.
 * @param season.year Calendar year in which the autumn lies.
 */
export function firstFreezeOn(dates: FreezeDates, season: { year: number; probability: number }): CivilDay | null {
  const place = placeOf(dates.firstFreezes, season.probability * dates.years, season);
  const startYear = dates.latitude >= 0 ? season.year : season.year - 1;
  return place === null ? null : dayOfPlace(turnOfYear(startYear, dates.latitude), place);
}

/** Value of ascending days below which `count` of them lie, midway between neighbours (Hazen's plotting position). */
function placeOf(days: Int16Array, count: number, { probability }: { probability: number }): number | null {
  requireWithin('probability', probability, { min: 0.01, max: 0.99 });
  if (count < 0 || count > days.length || days.length === 0) return null;
  const position = Math.min(days.length - 1, Math.max(0, count - 0.5));
  const below = days[Math.floor(position)] as number;
  const above = days[Math.ceil(position)] as number;
  return Math.round(below + (position - Math.floor(position)) * (above - below));
}

/** Midwinter: 1 January in the north, 1 July (182 days later in a year of 365) in the south. */
function turnOfYear(year: number, latitude: number): CivilDay {
  return latitude >= 0 ? dayFromParts(year, 1, 1) : dayFromParts(year, 7, 1);
}

/** The date of a place, the same in leap years as in others. */
function dayOfPlace(turn: CivilDay, place: number): CivilDay {
  const plainTurn = dayFromParts(PLAIN_YEAR, monthOf(turn), 1);
  const plain = addDays(plainTurn, place);
  const year = yearOf(turn) + yearOf(plain) - PLAIN_YEAR;
  return dayFromParts(year, monthOf(plain), plain - dayFromParts(yearOf(plain), monthOf(plain), 1) + 1);
}

/** Place of a day counted from the turn of its year; 29 February shares that of the day before. */
function placeInPlainYear(turn: CivilDay, day: number): number {
  const leapYear = monthOf(turn) === 1 ? yearOf(turn) : yearOf(turn) + 1;
  const march = dayFromParts(leapYear, 3, 1);
  const hasLeapDay = march - dayFromParts(leapYear, 2, 1) === 29;
  return hasLeapDay && turn + day >= march - 1 ? day - 1 : day;
}

function gathered(latitude: number, years: number, last: number[], first: number[]): FreezeDates {
  return {
    latitude,
    years,
    lastFreezes: Int16Array.from(last).sort(),
    firstFreezes: Int16Array.from(first).sort(),
    withoutSpringFreeze: 1 - last.length / years,
    withoutAutumnFreeze: 1 - first.length / years,
  };
}

/** How many standard deviations under its normal each night must lie to freeze, from the turn of the year. */
function freezingSigmas(site: Parameters<typeof freezeDates>[0]): Float64Array {
  const minC = asCurve('normal daily minimum, °C', site.minC, { min: -90, max: 60 });
  const sdC =
    typeof site.minSdC === 'object'
      ? asCurve('standard deviation of daily minima, °C', site.minSdC, { min: 0.1, max: 25 })
      : null;
  const single = typeof site.minSdC === 'number' ? site.minSdC : MINIMUM_SD_C.value;
  requireWithin('standard deviation of daily minima, °C', single, MINIMUM_SD_C);
  const start = turnOfYear(PLAIN_YEAR, site.latitude);
  return Float64Array.from({ length: YEAR_DAYS }, (_, day) => {
    const place = curveIndex(addDays(start, day));
    return ((site.thresholdC ?? 0) - (minC[place] as number)) / (sdC ? Math.max(0.3, sdC[place] as number) : single);
  });
}

function asCurve(field: string, values: TwelveMonths | Float64Array, allowed: { min: number; max: number }) {
  for (const value of values) requireWithin(field, value, allowed);
  if (values.length === 366) return values as Float64Array;
  if (values.length === 12) return dailyCurve(values as TwelveMonths);
  throw new InvalidValueError(field, values.length, 'Give twelve monthly or 366 daily values.');
}

let nights: Float32Array | null = null;
/** The same 2000 years of unit noise for every site, made once. */
function nightNoise(): Float32Array {
  if (nights) return nights;
  nights = new Float32Array(SIMULATED_YEARS * YEAR_DAYS);
  const key = noiseKey(1, 0);
  const innovation = Math.sqrt(1 - NIGHT_KEEP * NIGHT_KEEP);
  let z = 0;
  for (let i = 0; i < nights.length; i++) {
    z = NIGHT_KEEP * z + innovation * gaussianAt(key, i);
    nights[i] = z;
  }
  return nights;
}
