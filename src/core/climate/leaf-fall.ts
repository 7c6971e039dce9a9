import { requireWithin } from '../errors.js';
import { WEATHER_KEEP, weatherSpreadOf } from '../thermal/ensemble-noise.js';
import { addDays, type CivilDay, dayFromParts, monthOf } from '../units/civil-day.js';
import { gaussianAt, noiseKey } from './counter-noise.js';
import { curveIndex, dailyCurve } from './daily-curve.js';
import { firstFreezeOn, freezeDatesOf } from './freeze-dates.js';
import type { SiteClimate } from './station.js';

const MEAN_DAYS = 10;
const LEAVES_DROP_BELOW_C = 12;
const HALF_FALLEN_BELOW_C = 8.5;
const NET_BEFORE_FREEZE_DAYS = 21;
const HALF_FALLEN_AFTER_FREEZE_DAYS = 14;
const NET_UP_DAYS = 56;
const WINDOW_DAYS = 14;
const EVERGREEN_ABOVE_C = 15;
/** Places of the year, counted from midsummer: the search ends at midwinter plus a month. */
const SEARCH_DAYS = 215;
const SIMULATED_AUTUMNS = 600;
/** Any year serves for the distance from midsummer to a day. */
const PLAIN_YEAR = 2025;

export type LeafNetDates =
  | {
      readonly netOn: CivilDay;
      readonly netOff: CivilDay;
      /** Half the leaves are down; null where the climate gives no such day. */
      readonly halfFallenOn: CivilDay | null;
      /** Either date may be this far off. */
      readonly windowDays: number;
      readonly none: null;
    }
  | { readonly none: 'leaves-fall-all-year' | 'autumn-too-warm' };

/**
 * When to put the leaf net over a pond and take it off, from the climate (ruling 35; common practice, 14 days either
 * way). On: the median first freeze less 21 days or the day the 10-day mean air falls below 12 °C, whichever is
 * earlier, but no more than 21 days before the latter; off 56 days later, or when someone reports the trees bare.
 * No net in tropical climates or where the coldest month is above 15 °C.
 * Fitted process models do no better than a site's average date (Meier, Bigler & Chuine 2025, Geosci. Model Dev. 18, 6963).
 * @param season.year Calendar year in which the autumn lies.
 */
export function leafNetDates(climate: SiteClimate, season: { year: number }): LeafNetDates {
  requireWithin('year', season.year, { min: 1900, max: 2200 });
  if (climate.koeppen?.startsWith('A') || Math.min(...climate.meanC) > EVERGREEN_ABOVE_C) {
    return { none: 'leaves-fall-all-year' };
  }
  const curve = dailyCurve(climate.meanC);
  const coolOn = fallsBelow(curve, LEAVES_DROP_BELOW_C, climate.latitude, season.year);
  const freezeOn = firstFreezeOn(freezeDatesOf(climate), { year: season.year, probability: 0.5 });
  const netOn = netOnDay(coolOn, freezeOn);
  if (netOn === null) return { none: 'autumn-too-warm' };
  return {
    netOn,
    netOff: addDays(netOn, NET_UP_DAYS),
    halfFallenOn: earlierOf(
      fallsBelow(curve, HALF_FALLEN_BELOW_C, climate.latitude, season.year),
      freezeOn && addDays(freezeOn, HALF_FALLEN_AFTER_FREEZE_DAYS),
    ),
    windowDays: WINDOW_DAYS,
    none: null,
  };
}

/**
 * Day by which the leaves have begun to drop with this probability; 0.5 is the rule's own date, `leafNetDates().netOn`.
 * The rule follows the 10-day mean air; how far that date moves from year to year (600 autumns with the weather of the
 * water forecast's traces) is laid about it. Derived; leaf fall itself also hangs on species and drought. Null where
 * the climate has no such day, or so few autumns have one that the quantile would be invented.
 * @param season.year Calendar year in which the autumn lies.
 * @param season.probability 0.01 to 0.99.
 */
export function leafFallOn(climate: SiteClimate, season: { year: number; probability: number }): CivilDay | null {
  requireWithin('probability', season.probability, { min: 0.01, max: 0.99 });
  const net = leafNetDates(climate, season);
  if (net.none !== null) return null;
  if (season.probability === 0.5) return net.netOn;
  const cool = coolDays(climate);
  const at = quantileOf(cool, season.probability);
  const middle = quantileOf(cool, 0.5);
  return at === null || middle === null ? null : addDays(net.netOn, at - middle);
}

interface AutumnDay {
  readonly month: number;
  readonly normalC: number;
  readonly daySdC: number;
  readonly monthSdC: number;
}

/** Days from midsummer to the first 10-day mean below the limit, ascending, of the simulated autumns that have one. */
function coolDays(climate: SiteClimate): number[] {
  const curve = dailyCurve(climate.meanC);
  const spread = weatherSpreadOf(climate);
  const start = midsummer(climate.latitude, PLAIN_YEAR);
  const autumn = Array.from({ length: SEARCH_DAYS + MEAN_DAYS }, (_, i): AutumnDay => {
    const day = addDays(start, i - MEAN_DAYS + 1);
    const place = curveIndex(day);
    return {
      month: monthOf(day),
      normalC: curve[place] as number,
      daySdC: spread.daySdC[place] as number,
      monthSdC: spread.monthSdC[place] as number,
    };
  });
  return Array.from({ length: SIMULATED_AUTUMNS }, (_, year) => firstCoolDay(autumn, year))
    .filter((day) => day !== null)
    .sort((a, b) => a - b);
}

function firstCoolDay(autumn: readonly AutumnDay[], year: number): number | null {
  const days = noiseKey(year, 1);
  const offsets = noiseKey(year, 2);
  const innovation = Math.sqrt(1 - WEATHER_KEEP * WEATHER_KEEP);
  const airC: number[] = [];
  let z = gaussianAt(days, -1);
  let sum = 0;
  for (const [i, day] of autumn.entries()) {
    z = WEATHER_KEEP * z + innovation * gaussianAt(days, i);
    airC.push(day.normalC + z * day.daySdC + gaussianAt(offsets, day.month) * day.monthSdC);
    sum += (airC[i] as number) - (i >= MEAN_DAYS ? (airC[i - MEAN_DAYS] as number) : 0);
    if (i >= MEAN_DAYS - 1 && sum / MEAN_DAYS < LEAVES_DROP_BELOW_C) return i - MEAN_DAYS + 1;
  }
  return null;
}

/** Value below which the share of all autumns lies; null where that many have none. */
function quantileOf(ascending: readonly number[], probability: number): number | null {
  return ascending[Math.ceil(probability * SIMULATED_AUTUMNS) - 1] ?? null;
}

function midsummer(latitude: number, year: number): CivilDay {
  return latitude >= 0 ? dayFromParts(year, 7, 15) : dayFromParts(year, 1, 15);
}

function netOnDay(coolOn: CivilDay | null, freezeOn: CivilDay | null): CivilDay | null {
  const beforeFreeze = freezeOn && addDays(freezeOn, -NET_BEFORE_FREEZE_DAYS);
  if (coolOn === null || beforeFreeze === null) return coolOn ?? beforeFreeze;
  return Math.max(Math.min(coolOn, beforeFreeze), coolOn - NET_BEFORE_FREEZE_DAYS) as CivilDay;
}

function earlierOf(a: CivilDay | null, b: CivilDay | null): CivilDay | null {
  if (a === null || b === null) return a ?? b;
  return Math.min(a, b) as CivilDay;
}

/** First day after midsummer whose trailing 10-day mean of the normal lies below; midsummer itself where it never is above. */
function fallsBelow(curve: Float64Array, thresholdC: number, latitude: number, year: number): CivilDay | null {
  const start = midsummer(latitude, year);
  for (let i = 0; i < SEARCH_DAYS; i++) {
    let sum = 0;
    for (let back = 0; back < MEAN_DAYS; back++) sum += curve[curveIndex(addDays(start, i - back))] as number;
    if (sum / MEAN_DAYS < thresholdC) return addDays(start, i);
  }
  return null;
}
