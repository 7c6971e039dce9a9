import { requireWithin } from '../errors.js';
import { addDays, type CivilDay } from '../units/civil-day.js';
import { LAMP_END_OUTPUT_SHARE, LAMP_RATED_HOURS, lampOutputShare } from './lamp.js';

/** Days on which the lamp burns, both ends included. */
export interface LampSeason {
  readonly from: CivilDay;
  readonly until: CivilDay;
}

export interface LampLife {
  /** The day on which the rated hours are reached; null where the seasons given do not use them up. */
  readonly runsOutOn: CivilDay | null;
  /** When to put a new lamp in: at the start of the season it would not last, else on the day it runs out. */
  readonly replaceOn: CivilDay | null;
  readonly because: 'not-lasting-the-season' | 'hours' | null;
  /** Hours left when the season of `replaceOn` starts, and what that season takes. [h] */
  readonly hoursLeft: number | null;
  readonly seasonHours: number | null;
  /** Output at the end of the last day before `replaceOn`, as a share of new; of the last season where it lasts. [-] */
  readonly outputShare: number;
}

/**
 * Useful life of a lamp that burns by season: hours run up on the days it is on. A lamp that would run out inside a
 * season is replaced at that season's start, so that it is not spent when the algae are; in the season it was put in,
 * or where it burns all year, on the day it runs out.
 * New on 15 April, 24 h a day to 31 October each year, 9,000 h: 4,200 h are left at the second spring, the season takes
 * 4,800: replaced on 15 April.
 * @param lamp.seasons In order of time, not overlapping. One without end may be given a far `until`.
 * @param lamp.usedHours Run before the first season given, 0 to 1,000,000; 0 when left out. [h]
 * @param lamp.ratedHours 100 to 100,000; 9,000 when left out. [h]
 * @param lamp.hoursPerDay 0.1 to 24; 24 when left out. A lamp does not like to be switched often. [h/day]
 * @see Common practice: hours reached, or at spring start when the rest is less than the season.
 */
export function lampLife(lamp: {
  seasons: readonly LampSeason[];
  usedHours?: number;
  ratedHours?: number;
  hoursPerDay?: number;
  endOutputShare?: number;
}): LampLife {
  const { usedHours = 0, ratedHours = LAMP_RATED_HOURS, hoursPerDay = 24 } = lamp;
  const lampEndOutputShare = lamp.endOutputShare ?? LAMP_END_OUTPUT_SHARE;
  requireWithin('lamp hours, h', usedHours, { min: 0, max: 1_000_000 });
  requireWithin('rated lamp hours, h', ratedHours, { min: 100, max: 100_000 });
  requireWithin('hours a day', hoursPerDay, { min: 0.1, max: 24 });
  const outputAt = (lampRunHours: number) =>
    lampOutputShare({ lampRunHours, lampRatedHours: ratedHours, lampEndOutputShare });

  let hours = usedHours;
  let previous: LampSeason | null = null;
  for (const season of lamp.seasons) {
    requireWithin('last day of the season', season.until, { min: season.from, max: Number.MAX_SAFE_INTEGER });
    if (previous) requireWithin('first day of the season', season.from, { min: previous.until + 1, max: season.until });
    const seasonHours = (season.until - season.from + 1) * hoursPerDay;
    const hoursLeft = Math.max(0, ratedHours - hours);
    if (hoursLeft < seasonHours) {
      const daysLeft = Math.max(1, Math.ceil(hoursLeft / hoursPerDay - 1e-9));
      const runsOutOn = addDays(season.from, hoursLeft === 0 ? 0 : daysLeft - 1);
      const isFirst = previous === null && usedHours === 0;
      return {
        runsOutOn,
        replaceOn: isFirst ? runsOutOn : season.from,
        because: isFirst ? 'hours' : 'not-lasting-the-season',
        hoursLeft,
        seasonHours,
        outputShare: outputAt(isFirst ? ratedHours : hours),
      };
    }
    hours += seasonHours;
    previous = season;
  }
  return {
    runsOutOn: null,
    replaceOn: null,
    because: null,
    hoursLeft: null,
    seasonHours: null,
    outputShare: outputAt(hours),
  };
}
