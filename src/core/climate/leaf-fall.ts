import { requireWithin } from '../errors.js';
import { addDays, type CivilDay, dayFromParts } from '../units/civil-day.js';
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
  const start = latitude >= 0 ? dayFromParts(year, 7, 15) : dayFromParts(year, 1, 15);
  for (let i = 0; i < SEARCH_DAYS; i++) {
    let sum = 0;
    for (let back = 0; back < MEAN_DAYS; back++) sum += curve[curveIndex(addDays(start, i - back))] as number;
    if (sum / MEAN_DAYS < thresholdC) return addDays(start, i);
  }
  return null;
}
