import { FORECAST_DAYS, HORIZON_DAYS } from '../../care-calendar/index.js';
import type { CarePlan, FinishedTask, PlanInput } from '../../core/care/care-plan.js';
import { planCareCalendar } from '../../core/care/plan-care-calendar.js';
import type { PondFacts } from '../../core/care/pond-facts.js';
import { isNear, reconcile } from '../../core/care/reconcile.js';
import type { PlanChange, StandingTask } from '../../core/care/standing-task.js';
import { weatherWarnings } from '../../core/care/weather-warnings.js';
import type { SiteClimate } from '../../core/climate/station.js';
import { winterClassFor } from '../../core/climate/winter-class.js';
import { forecastWater } from '../../core/thermal/forecast-water.js';
import { shadeShareFrom, windOverPond } from '../../core/thermal/shade.js';
import type { DailyAir, PondHeat } from '../../core/thermal/water-forecast.js';
import { addDays, type CivilDay, dayFromParts } from '../../core/units/civil-day.js';
import type { ChurnPond } from './churn-ponds.js';

/** Weather providers tell this many days ahead, and the program keeps this many that are over. [days] */
const TOLD_AHEAD_DAYS = 7;
const KEPT_DAYS = 21;
/** A task is mailed a week before it is due. [days] */
const MAILED_AHEAD_DAYS = 7;
const SEED = 7;

/** What a year is lived through with. */
export interface ChurnCase {
  readonly climate: SiteClimate;
  readonly pond: ChurnPond;
  readonly year: number;
  readonly air: readonly DailyAir[];
  readonly settings: Pick<PlanInput, 'rules' | 'dechlorinator'>;
}

/** One night's changes, with the calendar as it stood before them. */
export interface Night {
  readonly today: CivilDay;
  readonly before: ReadonlyMap<string, StandingTask>;
  readonly changes: readonly PlanChange[];
  readonly after: ReadonlyMap<string, StandingTask>;
}

export function nameOf({ ruleId, cycle }: { readonly ruleId: string; readonly cycle: string }): string {
  return `${ruleId} ${cycle}`;
}

/**
 * A year night by night: what is due today is done, what is due in a week is mailed, and every night the pond is planned
 * anew with the air of the last three weeks and of the week ahead as it came to be.
 */
export function* livedYear(churn: ChurnCase): Generator<Night> {
  const place = placeOf(churn);
  const finished: FinishedTask[] = [];
  let standing = new Map<string, StandingTask>();
  const [first, last] = [dayFromParts(churn.year, 1, 1), dayFromParts(churn.year, 12, 31)];
  for (let today = first; today <= last; today = addDays(today, 1)) {
    const known = churn.air.filter(({ on }) => on >= today - KEPT_DAYS && on < today + TOLD_AHEAD_DAYS);
    const plan = planFor(churn, place, { today, air: known, finished });
    const changes = reconcile({ standing: [...standing.values()], plan, today });
    const after = applied(standing, changes, today);
    yield { today, before: standing, changes, after };
    standing = afterTheDay(after, today, finished);
  }
}

/** The plan of the first of January by somebody who knows all the air of the year and of the next. */
export function planInHindsight(churn: ChurnCase): CarePlan {
  return planFor(churn, placeOf(churn), { today: dayFromParts(churn.year, 1, 1), air: churn.air, finished: [] });
}

interface Place {
  readonly heat: PondHeat;
  readonly facts: PondFacts;
}

function placeOf({ climate, pond }: ChurnCase): Place {
  const { latitude, elevationM } = climate;
  const heat: PondHeat = {
    latitude,
    elevationM,
    surfaceAreaM2: pond.surfaceAreaM2,
    meanDepthM: pond.meanDepthM,
    shadeShare: shadeShareFrom({ directSunHours: 6, latitude }),
    windAt2mMPerS: windOverPond({ shelter: 'suburban' }),
    waterfallFlowLPerH: pond.volumeL / 2,
  };
  const { winterClass } = winterClassFor({ climate, pond: heat, seed: SEED, maxDepthM: pond.maxDepthM });
  return { heat, facts: { ...pond, latitude, elevationM, winterClass } };
}

function planFor(
  { climate, settings }: ChurnCase,
  { heat, facts }: Place,
  given: { readonly today: CivilDay; readonly air: readonly DailyAir[]; readonly finished: readonly FinishedTask[] },
): CarePlan {
  const { today, air, finished } = given;
  const forecast = forecastWater({ pond: heat, climate, seed: SEED, firstDay: today, days: FORECAST_DAYS, air });
  const knownUntil = air.at(-1)?.on ?? today;
  const events = weatherWarnings(forecast, { today, knownUntil }, facts.latitude);
  return planCareCalendar({
    pond: facts,
    today,
    horizonDays: HORIZON_DAYS,
    forecast,
    climate,
    ...settings,
    history: { finished, readings: [], events },
    careSince: facts.commissionedOn ?? today,
    defaultDoneBy: 'company',
  });
}

/** The calendar with a night's changes, as the stored one takes them. */
function applied(
  standing: ReadonlyMap<string, StandingTask>,
  changes: readonly PlanChange[],
  today: CivilDay,
): Map<string, StandingTask> {
  const after = new Map(standing);
  for (const change of changes) {
    if (change.kind === 'cancelled') {
      after.delete(nameOf(change));
      continue;
    }
    const { task } = change;
    const before = after.get(nameOf(task));
    const isNearMove = change.kind === 'moved' && before !== undefined && isNear(before.window, today);
    const isKept = change.kind !== 'added' && !(change.kind === 'moved' && change.breaksPromise);
    after.set(nameOf(task), {
      ruleId: task.ruleId,
      cycle: task.cycle,
      state: 'NEEDS-ACTION',
      window: task.window,
      planned: task,
      heldDue: null,
      promisedOn: isKept ? (before?.promisedOn ?? null) : null,
      nearMoves: (before?.nearMoves ?? 0) + (isNearMove ? 1 : 0),
    });
  }
  return after;
}

/** Does what is due, and promises what will be in a week. Lines that stand all season are neither. */
function afterTheDay(
  standing: ReadonlyMap<string, StandingTask>,
  today: CivilDay,
  finished: FinishedTask[],
): Map<string, StandingTask> {
  const after = new Map<string, StandingTask>();
  for (const [name, task] of standing) {
    const due = task.promisedOn ?? task.window.due;
    if (task.state !== 'NEEDS-ACTION' || task.planned.routineLine) after.set(name, task);
    else if (due <= today) {
      finished.push({ ruleId: task.ruleId, cycle: task.cycle, state: 'COMPLETED', on: today, actuals: {} });
      after.set(name, { ...task, state: 'COMPLETED' });
    } else if (task.promisedOn === null && due <= today + MAILED_AHEAD_DAYS)
      after.set(name, { ...task, promisedOn: due });
    else after.set(name, task);
  }
  return after;
}
