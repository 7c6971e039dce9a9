import { CONFIRM_FALLING_DAYS, CONFIRM_RISING_DAYS, REARM_C } from '../../thermal/live-crossing.js';
import { addDays, type CivilDay } from '../../units/civil-day.js';
import type { CareRule, Trigger } from '../care-rule.js';
import { optionalParameter, type PlanningContext, parameter } from '../planning-context.js';
import { nextSeason, type Season, searchWindow } from '../seasons.js';
import { type Firing, input, noFiring, orderedWindow, type TriggerOutcome } from './trigger-outcome.js';

type Crossing = Extract<Trigger, { kind: 'crossing' }>;

interface Sought {
  readonly thresholdC: number;
  readonly direction: 'rising' | 'falling';
  readonly persistenceDays?: number;
}

const YEAR_DAYS = 365;
const FORMULA = 'first day of seven with the 7-day mean beyond the threshold; p10, p50 and p90 of the traces';

/**
 * The 7-day mean of the water passes a threshold in a season: due at the median of the traces, earliest and latest at
 * the quantiles asked for. A crossing that lies before the forecast is dated by the same crossing of the year after,
 * and stands as long as the water stays beyond the threshold.
 */
export function crossingOutcome(
  trigger: Crossing,
  rule: CareRule,
  context: PlanningContext,
  season: Season,
): TriggerOutcome {
  const thresholdC = parameter(rule, trigger.threshold);
  const sought: Sought = {
    thresholdC,
    direction: trigger.direction,
    ...(trigger.persistenceDays === undefined ? {} : { persistenceDays: trigger.persistenceDays }),
  };
  const dates = context.outlook.crossing({ ...sought, season });
  const isSettled = isAlreadyBeyond(context, sought, season);
  if (!isSettled && dates.p10 !== null && dates.p50 !== null && dates.p90 !== null) {
    return firing(trigger, rule, { p10: dates.p10, p50: dates.p50, p90: dates.p90 }, dates.share, thresholdC);
  }

  const { today, outlook, pond } = context;
  const window = searchWindow(season, pond.latitude);
  if (today < window.from || !isBeyond(outlook.median7dMeanC(today), thresholdC, trigger.direction)) {
    const passed = today > window.until ? 'overtaken' : 'no-crossing';
    return noFiring(passed, dates.none ?? `in ${Math.round(dates.share * 100)} of 100 traces`);
  }
  const past = pastCrossing(context, sought, season);
  if (past === null) return noFiring('no-crossing', 'always beyond');
  return firing(trigger, rule, { p10: past, p50: past, p90: past }, 1, thresholdC);
}

/**
 * Whether the water lies beyond the threshold since before today, and stays there by the median for the days a live
 * crossing takes to be confirmed. Then a second crossing in the traces is a wobble, not a new event, until the water
 * has gone 2 °C back.
 */
function isAlreadyBeyond({ today, outlook, pond }: PlanningContext, sought: Sought, season: Season): boolean {
  const window = searchWindow(season, pond.latitude);
  if (today < window.from || today > window.until) return false;
  const isRising = sought.direction === 'rising';
  for (let ahead = 0; ahead < (isRising ? CONFIRM_RISING_DAYS : CONFIRM_FALLING_DAYS); ahead++) {
    if (!isBeyond(outlook.median7dMeanC(addDays(today, ahead)), sought.thresholdC, sought.direction)) return false;
  }
  const backC = sought.thresholdC + (isRising ? -REARM_C : REARM_C);
  const again = outlook.crossing({ ...sought, season }).p50 ?? today;
  for (let day = today; day < again; day = addDays(day, 1)) {
    if (!isBeyond(outlook.median7dMeanC(day), backC, sought.direction)) return false;
  }
  return true;
}

function isBeyond(waterC: number, thresholdC: number, direction: 'rising' | 'falling'): boolean {
  return direction === 'rising' ? waterC >= thresholdC : waterC < thresholdC;
}

/**
 * The day of a crossing that lies before the forecast, today at the latest. While the season lasts it is as many days
 * ago as next year's median takes from the threshold to where the water stands today; after that it is next year's day
 * a year before. Null where next year has no such crossing, so that this one is no event of the season.
 */
function pastCrossing(context: PlanningContext, sought: Sought, season: Season): CivilDay | null {
  const { today, outlook, pond } = context;
  const nextYear = outlook.crossing({ ...sought, season: nextSeason(season) });
  if (nextYear.p50 === null) return nextYear.none === null ? today : null;
  const isSeasonStillOn = today <= searchWindow(season, pond.latitude).until;
  const daysAgo = isSeasonStillOn ? daysFromThreshold(context, sought, nextSeason(season)) : null;
  const past = daysAgo === null ? addDays(nextYear.p50, -YEAR_DAYS) : addDays(today, -daysAgo);
  return Math.min(past, today) as CivilDay;
}

/** Days the median of a season takes from the threshold to the water of today; null where it never gets there. */
function daysFromThreshold({ today, outlook, pond }: PlanningContext, sought: Sought, season: Season): number | null {
  const { from, until } = searchWindow(season, pond.latitude);
  const todayC = outlook.median7dMeanC(today);
  let crossed: CivilDay | null = null;
  for (let day = from; day <= until; day = addDays(day, 1)) {
    const waterC = outlook.median7dMeanC(day);
    if (crossed === null && isBeyond(waterC, sought.thresholdC, sought.direction)) crossed = day;
    if (crossed !== null && (sought.direction === 'rising' ? waterC >= todayC : waterC <= todayC)) return day - crossed;
  }
  return null;
}

function firing(
  trigger: Crossing,
  rule: CareRule,
  dates: { p10: CivilDay; p50: CivilDay; p90: CivilDay },
  share: number,
  thresholdC: number,
): Firing {
  const lead = optionalParameter(rule, trigger.leadDays, 0);
  const opens = trigger.earliestQuantile === 0.5 ? dates.p50 : dates.p10;
  const closes = trigger.latestQuantile === 0.5 ? dates.p50 : dates.p90;
  const window = orderedWindow({
    earliest: opens - lead - optionalParameter(rule, trigger.earlyDays, 0),
    due: dates.p50 - lead,
    latest: closes - lead + optionalParameter(rule, trigger.lateDays, 0),
  });
  return {
    fires: true,
    window,
    confidence: share,
    reason: {
      trigger: 'crossing',
      formula: FORMULA,
      source: rule.parameters[trigger.threshold]?.source ?? rule.source,
      inputs: [
        input('threshold', thresholdC, '°C'),
        input('direction', trigger.direction),
        input('crossing-p10', dates.p10, 'day'),
        input('crossing-p50', dates.p50, 'day'),
        input('crossing-p90', dates.p90, 'day'),
        input('lead', lead, 'd'),
      ],
    },
  };
}
