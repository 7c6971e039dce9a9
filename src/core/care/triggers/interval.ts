import { addDays, type CivilDay } from '../../units/civil-day.js';
import { misfit } from '../applicability.js';
import type { CareRule, Trigger } from '../care-rule.js';
import { optionalParameter, type PlanningContext, parameter } from '../planning-context.js';
import type { Equipment } from '../pond-facts.js';
import { type CountingFrom, countingFrom } from './counting-from.js';
import { input, noFiring, orderedWindow, type TriggerOutcome } from './trigger-outcome.js';

type Interval = Extract<Trigger, { kind: 'interval' }>;

/** A day that lies after a pause of the season is known no better than the season's start. [days] */
const AFTER_PAUSE_SLACK_DAYS = 14;
const PAUSE_DAYS = 14;

/** Share of the traces with ice that ends a season. [-] */
const ICED_SHARE = 0.5;

/** Days since it was last done, counted only in season. Due in season, or else on the next day that is. */
export function intervalOutcome(
  trigger: Interval,
  rule: CareRule,
  context: PlanningContext,
  machine: Equipment | null = null,
): TriggerOutcome {
  const misfitting = trigger.onlyIf && misfit(trigger.onlyIf, context.pond);
  if (misfitting) return noFiring(misfitting.because, misfitting.detail);
  const since = startOfInterval(trigger, rule, context, machine);
  if (since === null) return noFiring('gate-never-holds', `rule-completed ${trigger.fromRule}`);
  if (since === 'not-known') return noFiring('input-missing', 'day the machine was fitted');
  const days = (trigger.fromInstallation && machine?.rated.serviceLifeDays) || parameter(rule, trigger.days);
  const isInSeason = seasonTest(trigger, rule, context);

  const reached = trigger.season
    ? dayReached(since.day, days, isInSeason, context.horizon)
    : withinHorizon(addDays(since.day, days), context.horizon);
  const due = reached === null ? null : firstInSeason(reached, isInSeason, context);
  if (due === null) return noFiring('beyond-horizon', 'not in season before the horizon');

  const isAfterPause = due - since.day - days >= PAUSE_DAYS;
  const slack = Math.max(parameter(rule, trigger.slackDays), isAfterPause ? AFTER_PAUSE_SLACK_DAYS : 0);
  const shortest = optionalParameter(rule, trigger.minDays, 0);
  const longest = optionalParameter(rule, trigger.maxDays, Number.POSITIVE_INFINITY);
  return {
    fires: true,
    window: orderedWindow({
      earliest: Math.max(due - slack, since.day + shortest),
      due,
      latest: Math.min(due + slack, since.day + longest),
    }),
    confidence: 1,
    reason: {
      trigger: 'interval',
      formula: trigger.season ? 'days in season since it was last done' : 'days since it was last done',
      source: rule.parameters[trigger.days]?.source ?? rule.source,
      inputs: [
        input('interval', days, 'd'),
        input(since.isDone ? 'last-done' : 'counted-from', since.day, 'day'),
        ...(machine ? [input('machine', machine.name)] : []),
        ...seasonInputs(trigger, rule),
      ],
    },
  };
}

/** The last time it was done or, where it follows another rule, that one was, whichever came later. */
function startOfInterval(
  trigger: Interval,
  rule: CareRule,
  context: PlanningContext,
  machine: Equipment | null,
): CountingFrom | 'not-known' | null {
  const own = countingFrom(rule, context, machine);
  if (trigger.fromInstallation) {
    if (machine?.installedOn != null && (!own.isDone || own.day < machine.installedOn)) {
      return { day: machine.installedOn, isDone: false, actuals: {} };
    }
    return own.isDone ? own : 'not-known';
  }
  if (trigger.fromRule === undefined) return own;
  const other = context.history.lastCompleted(trigger.fromRule);
  if (other === null) return null;
  return own.isDone && own.day >= other.on ? own : { day: other.on, isDone: true, actuals: {} };
}

/** Whether a day counts: between the season's temperatures on the median, and without ice where the rule says so. */
export function seasonTest(
  trigger: Pick<Interval, 'season'>,
  rule: CareRule,
  context: PlanningContext,
): (day: CivilDay) => boolean {
  const { season } = trigger;
  if (!season) return () => true;
  const aboveC = optionalParameter(rule, season.aboveC, Number.NEGATIVE_INFINITY);
  const belowC = optionalParameter(rule, season.belowC, Number.POSITIVE_INFINITY);
  return (day) => {
    const waterC = context.outlook.median7dMeanC(day);
    if (waterC < aboveC || waterC >= belowC) return false;
    return season.iceFree !== true || context.outlook.iceShare(day) < ICED_SHARE;
  };
}

function withinHorizon(day: CivilDay, horizon: CivilDay): CivilDay | null {
  return day <= horizon ? day : null;
}

function dayReached(
  since: CivilDay,
  days: number,
  isInSeason: (day: CivilDay) => boolean,
  horizon: CivilDay,
): CivilDay | null {
  let counted = 0;
  for (let day = addDays(since, 1); day <= horizon; day = addDays(day, 1)) {
    if (isInSeason(day)) counted++;
    if (counted >= days) return day;
  }
  return null;
}

/** An overdue task waits for its season; one that is not overdue falls into it by the way it is counted. */
function firstInSeason(
  due: CivilDay,
  isInSeason: (day: CivilDay) => boolean,
  context: PlanningContext,
): CivilDay | null {
  if (due >= context.today || isInSeason(context.today)) return due;
  for (let day = context.today; day <= context.horizon; day = addDays(day, 1)) {
    if (isInSeason(day)) return day;
  }
  return null;
}

function seasonInputs(trigger: Interval, rule: CareRule) {
  const { aboveC, belowC } = trigger.season ?? {};
  return [
    ...(aboveC === undefined ? [] : [input('season-above', parameter(rule, aboveC), '°C')]),
    ...(belowC === undefined ? [] : [input('season-below', parameter(rule, belowC), '°C')]),
  ];
}
