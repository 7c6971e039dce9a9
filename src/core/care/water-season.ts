import { addDays, type CivilDay } from '../units/civil-day.js';
import { seasonOf, seasonStart } from './seasons.js';

/**
 * A quarter of a pond's year, by its water: `rest` below 10 °C, `growing` from 15 °C on, and between them `spring`
 * while the year warms and `autumn` while it cools.
 */
export type WaterSeason = 'rest' | 'spring' | 'growing' | 'autumn';

/** In the order in which they follow each other. */
export const WATER_SEASONS: readonly WaterSeason[] = ['rest', 'spring', 'growing', 'autumn'];

/** The feeding limits: no food below the first, a staple food from the second on (rulings 4 to 6). [°C] */
export const SEASON_LIMITS_C = { rest: 10, growing: 15 } as const;
/** A season has begun when the 7-day mean stays in it so long. [days] */
const LASTING_DAYS = 7;

/** Median trailing 7-day means of the water, from a day on. */
export interface SeasonWater {
  readonly firstDay: CivilDay;
  /** [°C] */
  readonly median7dMeanC: readonly number[];
}

/** The season of a 7-day mean on a day. @param latitude Degrees, north positive: it says which half of the year warms. */
export function waterSeason(mean7dC: number, day: CivilDay, latitude: number): WaterSeason {
  if (mean7dC < SEASON_LIMITS_C.rest) return 'rest';
  if (mean7dC >= SEASON_LIMITS_C.growing) return 'growing';
  const warmingSince = seasonStart(seasonOf('warming', day, latitude), latitude);
  const coolingSince = seasonStart(seasonOf('cooling', day, latitude), latitude);
  return warmingSince > coolingSince ? 'spring' : 'autumn';
}

/**
 * The first season that begins on one of these days and lasts a week, other than the one that was told last; null where
 * none does. The season may stand already on the first day.
 * @param told The season told last, null where none was: then only a change within the days is a beginning.
 */
export function seasonBeginning(
  water: SeasonWater,
  days: { readonly from: CivilDay; readonly to: CivilDay },
  latitude: number,
  told: WaterSeason | null,
): { readonly season: WaterSeason; readonly on: CivilDay } | null {
  const before = told ?? lastingSeason(water, days.from, latitude);
  for (let day = days.from; day <= days.to; day = addDays(day, 1)) {
    const season = lastingSeason(water, day, latitude);
    if (season !== null && before !== null && season !== before && !isStepBack(before, season)) {
      return { season, on: day };
    }
  }
  return null;
}

/** The season that a day and the six after it share, or null. */
export function lastingSeason(water: SeasonWater, day: CivilDay, latitude: number): WaterSeason | null {
  let found: WaterSeason | null = null;
  for (let ahead = 0; ahead < LASTING_DAYS; ahead++) {
    const meanC = water.median7dMeanC[day - water.firstDay + ahead];
    if (meanC === undefined) return null;
    const season = waterSeason(meanC, addDays(day, ahead), latitude);
    if (found !== null && season !== found) return null;
    found = season;
  }
  return found;
}

/** A forecast that moves to and fro about a limit begins no season twice. */
function isStepBack(before: WaterSeason, season: WaterSeason): boolean {
  const steps =
    (WATER_SEASONS.indexOf(season) - WATER_SEASONS.indexOf(before) + WATER_SEASONS.length) % WATER_SEASONS.length;
  return steps === WATER_SEASONS.length - 1;
}
