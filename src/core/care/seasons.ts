import { seasonWindow } from '../thermal/crossing-dates.js';
import { addDays, type CivilDay, dayFromParts, yearOf } from '../units/civil-day.js';

/** The half of the year in which water cools, or warms. */
export type SeasonHalf = 'cooling' | 'warming';

/** One season of one hemisphere: the year is that of the midsummer (cooling) or midwinter (warming) it starts from. */
export interface Season {
  readonly half: SeasonHalf;
  readonly year: number;
}

/** Month of the June solstice and of the December solstice; the day is the 21st (a day off does not matter here). */
const JUNE = 6;
const DECEMBER = 12;
const SOLSTICE_DAY = 21;

/** The solstice a season starts from: midsummer for cooling, midwinter for warming. */
export function seasonStart(season: Season, latitude: number): CivilDay {
  const startsInJune = (season.half === 'cooling') === latitude >= 0;
  return dayFromParts(season.year, startsInJune ? JUNE : DECEMBER, SOLSTICE_DAY);
}

/** The season of one kind that a day belongs to, e.g. 3 January 2027 in the north belongs to `cooling` 2026. */
export function seasonOf(half: SeasonHalf, day: CivilDay, latitude: number): Season {
  const year = yearOf(day);
  return seasonStart({ half, year }, latitude) <= day ? { half, year } : { half, year: year - 1 };
}

export function nextSeason(season: Season): Season {
  return { half: season.half, year: season.year + 1 };
}

/** Calendar year in which the autumn (cooling) or the spring (warming) of a season lies. */
export function calendarYearOf(season: Season, latitude: number): number {
  return seasonStart(season, latitude) === dayFromParts(season.year, JUNE, SOLSTICE_DAY)
    ? season.year
    : season.year + 1;
}

/** First and last day on which a crossing of this season may begin; see `seasonWindow`. */
export function searchWindow(season: Season, latitude: number): { from: CivilDay; until: CivilDay } {
  const direction = season.half === 'cooling' ? 'falling' : 'rising';
  return seasonWindow(direction, latitude, calendarYearOf(season, latitude));
}

/** Last day of the season: the day before the next one of its kind starts. */
export function seasonEnd(season: Season, latitude: number): CivilDay {
  return addDays(seasonStart(nextSeason(season), latitude), -1);
}
