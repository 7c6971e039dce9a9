import { addDays, type CivilDay, isoDateOf } from '../units/civil-day.js';
import type { CarePlan, NotDue, PlannedTask, Quantity, TaskWindow } from './care-plan.js';
import { isLaterCount, seasonOfCycle } from './cycle.js';
import type { PlanChange, StandingTask } from './standing-task.js';

/** A standing task that the plan no longer dates is kept this long after its last day. [days] */
const KEPT_AFTER_LATEST_DAYS = 30;
/** A standing line is redrawn when a start still to come moves, or its end moves out, by more than this. [days] */
const LINE_TOLERANCE_DAYS = 14;
/** What is due so soon is not put off by the forecast for longer than this: it would come back next week. [days] */
const SOON_DAYS = 14;
const ANOTHER_SEASON_DAYS = 30;
/** People begin to count on a date so long before it: inside, the forecast moves a task no more often than twice. [days] */
const NEAR_DAYS = 60;
const MOST_NEAR_MOVES = 2;
/** Inputs of a reason that people set or made; when one differs, somebody changed something. */
const SET_BY_PEOPLE: ReadonlySet<string> = new Set([
  'interval',
  'limit',
  'threshold',
  'lead',
  'last-done',
  'counted-from',
]);
/** Amounts closer than this are the same amount. [-] */
const SAME_AMOUNT_SHARE = 0.1;
const WEEK_DAYS = 7;

/** Reasons that lie in the pond's record or the company's rules: a person changed something. */
const OF_THE_RECORD: ReadonlySet<NotDue['because']> = new Set([
  'not-this-equipment',
  'has-equipment',
  'no-frost-climate',
  'not-this-climate',
  'not-this-tap',
  'not-this-stocking',
  'no-livestock',
  'no-fish',
  'no-turtles',
  'no-plants',
  'no-trees',
  'no-waterfall',
  'not-in-run-in',
  'in-run-in',
  'heated',
  'switched-off',
]);
/** Reasons that say the moment has passed for good. */
const PASSED: ReadonlySet<NotDue['because']> = new Set(['overtaken', 'no-reading', 'no-event']);

/**
 * What a new plan changes in the stored calendar, as rows of the plan log. What is finished never moves; a held date
 * stays; a window stays while the new due day lies inside it; a promise is broken only when the new window excludes the
 * promised day, and then the change says so. Inside 60 days before it is due, a task that has moved twice stays whatever
 * the forecast says; another day to count from still moves it, and so does whoever leaves `nearMoves` out because a
 * record changed. A plan with nothing new changes nothing: `[]`.
 *
 * A task the plan no longer has goes as `not-applicable` when the record says so, and as `superseded` when its moment has
 * passed. While the forecast merely cannot date it, it stays where it is. Tasks held by a person are never taken away;
 * promised ones only when the record changed.
 * @param calendar.standing Every stored task of the pond, finished ones too: they keep their names taken.
 */
export function reconcile(calendar: {
  readonly standing: readonly StandingTask[];
  readonly plan: CarePlan;
  readonly today: CivilDay;
}): PlanChange[] {
  const { standing, plan, today } = calendar;
  const byName = new Map(standing.map((task) => [nameOf(task), task]));
  const changes: PlanChange[] = [];
  for (const task of plan.tasks) {
    const before = byName.get(nameOf(task));
    const change = before ? changeOf(before, task, today) : ({ kind: 'added', task } as const);
    if (change) changes.push(change);
  }
  const planned = new Set(plan.tasks.map(nameOf));
  for (const task of standing) {
    if (task.state !== 'NEEDS-ACTION' || planned.has(nameOf(task))) continue;
    const change = withdrawal(task, plan, today);
    if (change) changes.push(change);
  }
  return changes;
}

/** Whether a task is so near on a day that its moves are counted. */
export function isNear({ due }: Pick<TaskWindow, 'due'>, on: CivilDay): boolean {
  return due - on <= NEAR_DAYS;
}

function nameOf(task: { readonly ruleId: string; readonly cycle: string }): string {
  return `${task.ruleId}\n${task.cycle}`;
}

function changeOf(before: StandingTask, task: PlannedTask, today: CivilDay): PlanChange | null {
  if (before.state !== 'NEEDS-ACTION') return null;
  const name = { ruleId: task.ruleId, cycle: task.cycle };
  if (mustMove(before, task, today)) {
    return {
      kind: 'moved',
      ...name,
      from: before.window,
      to: task.window,
      task,
      because: becauseOf(task),
      breaksPromise: before.promisedOn !== null && !isInside(before.promisedOn, task.window),
    };
  }
  const difference = differenceOf(before.planned, task, today);
  if (difference === null) return null;
  return { kind: 'revised', ...name, task: { ...task, window: before.window }, because: difference };
}

/** Held dates stay, promises are kept while the new window allows, and an overdue task does not run after today. */
function mustMove(before: StandingTask, task: PlannedTask, today: CivilDay): boolean {
  if (before.heldDue !== null) return false;
  if (task.routineLine) return hasLineMoved(before.window, task.window, today);
  if (isInside(task.window.due, before.window)) return false;
  if (before.promisedOn !== null && isInside(before.promisedOn, task.window)) return false;
  const isOverdue = before.window.due <= today && task.window.due <= today;
  return !isOverdue && !isPutOffByForecast(before, task, today) && !hasMovedEnough(before, task, today);
}

function hasMovedEnough(before: StandingTask, task: PlannedTask, today: CivilDay): boolean {
  if ((before.nearMoves ?? 0) < MOST_NEAR_MOVES || !isNear(before.window, today)) return false;
  return workDone(before.planned) === workDone(task);
}

/** What was done and is counted from. A rule changes from one of its intervals to another with the season alone. */
function workDone({ reason }: PlannedTask): string {
  return reason.inputs
    .filter(({ name }) => name === 'last-done' || name === 'counted-from')
    .map(({ value }) => value)
    .join();
}

/** A task due within a fortnight that the forecast alone would put off to another season stays until its window is over. */
function isPutOffByForecast(before: StandingTask, task: PlannedTask, today: CivilDay): boolean {
  const isSoon = before.window.due <= today + SOON_DAYS && today <= before.window.latest;
  const isFarOff = task.window.due > before.window.latest + ANOTHER_SEASON_DAYS;
  return isSoon && isFarOff && peopleSet(before.planned) === peopleSet(task);
}

function peopleSet({ reason }: PlannedTask): string {
  const set = reason.inputs.filter((input) => SET_BY_PEOPLE.has(input.name));
  return `${reason.trigger} ${set.map((input) => `${input.name}=${input.value}`).join()}`;
}

function hasLineMoved(from: TaskWindow, to: TaskWindow, today: CivilDay): boolean {
  const isStartMoved = from.earliest > today && Math.abs(from.earliest - to.earliest) > LINE_TOLERANCE_DAYS;
  return isStartMoved || to.latest - from.latest > LINE_TOLERANCE_DAYS;
}

function isInside(day: CivilDay, window: TaskWindow): boolean {
  return day >= window.earliest && day <= window.latest;
}

/** The inputs of the new reason, as the log keeps them. */
function becauseOf(task: PlannedTask): string {
  const inputs = task.reason.inputs.map(({ name, value, unit }) => {
    const shown =
      unit === 'day' && typeof value === 'number' ? isoDateOf(value as CivilDay) : `${value} ${unit}`.trim();
    return `${name} ${shown}`;
  });
  return `${task.reason.trigger}: ${inputs.join(', ')}`;
}

/** What differs in substance between the task as it stands and as planned now; dates and confidence do not count. */
function differenceOf(before: PlannedTask, now: PlannedTask, today: CivilDay): string | null {
  if (before.doneBy !== now.doneBy) return `done by ${now.doneBy}`;
  if (before.consequence !== now.consequence) return `consequence ${now.consequence}`;
  if (before.minutes !== now.minutes || before.people !== now.people) return 'minutes or people of the rule';
  if (before.routineLine !== now.routineLine) return 'standing line';
  return quantityDifference(before.quantities, now.quantities, toleranceOf(now, today));
}

interface Tolerance {
  readonly isFarAhead: boolean;
  /** A standing line gives less at once, and more only with a new week. */
  readonly isMidWeekLine: boolean;
}

/** Amounts far ahead are a preview; those of a standing line belong to their week. Day 0 of the calendar was a Thursday. */
function toleranceOf(task: PlannedTask, today: CivilDay): Tolerance {
  return {
    isFarAhead: task.window.earliest > today + SOON_DAYS,
    isMidWeekLine: task.routineLine && (today + 3) % WEEK_DAYS !== 0,
  };
}

function quantityDifference(
  before: readonly Quantity[],
  now: readonly Quantity[],
  tolerance: Tolerance,
): string | null {
  if (tolerance.isMidWeekLine && isOnlyMore(before, now)) return null;
  if (before.length !== now.length) return tolerance.isFarAhead ? null : 'quantities';
  for (const [index, quantity] of now.entries()) {
    const was = before[index];
    if (!was || !isSameQuantity(was, quantity, tolerance)) return `quantity of ${quantity.of}`;
  }
  return null;
}

/** More of what there was already; not the first after nothing, and not for another pond or stock. */
function isOnlyMore([was]: readonly Quantity[], [now]: readonly Quantity[]): boolean {
  if (!was || !now || was.of !== now.of || was.basis.amount !== now.basis.amount) return false;
  return was.computed > 0 && now.computed >= was.computed;
}

/** What people measured or own, so that a change of it is a change of every amount. */
const BASES_OF_THE_RECORD = ['pond', 'fish', 'surface', 'media', 'final-stock'];

/** The same measure of the same thing, for the same pond, within a tenth; far ahead only the pond counts. */
function isSameQuantity(was: Quantity, now: Quantity, { isFarAhead }: Tolerance): boolean {
  if (was.recipe !== now.recipe || was.basis.of !== now.basis.of) return false;
  if (was.source !== now.source || was.productName !== now.productName) return false;
  if (BASES_OF_THE_RECORD.includes(now.basis.of) && was.basis.amount !== now.basis.amount) return false;
  if (isFarAhead) return true;
  if (was.of !== now.of || was.unit !== now.unit || was.per !== now.per) return false;
  if (was.remarks.join() !== now.remarks.join()) return false;
  return Math.abs(now.computed - was.computed) <= SAME_AMOUNT_SHARE * Math.abs(was.computed);
}

function withdrawal(task: StandingTask, plan: CarePlan, today: CivilDay): PlanChange | null {
  if (task.heldDue !== null) return null;
  const why = whyNot(task, plan);
  const isPromised = task.promisedOn !== null && task.promisedOn >= today;
  const base = { kind: 'cancelled', ruleId: task.ruleId, cycle: task.cycle } as const;
  if (why === null || OF_THE_RECORD.has(why.because)) {
    const detail = why ? `${why.because} ${why.detail}`.trim() : 'the rule is gone';
    return { ...base, because: 'not-applicable', detail, breaksPromise: isPromised };
  }
  const isPassed = PASSED.has(why.because) || addDays(task.window.latest, KEPT_AFTER_LATEST_DAYS) < today;
  if (!isPassed || isPromised) return null;
  return { ...base, because: 'superseded', detail: `${why.because} ${why.detail}`.trim(), breaksPromise: false };
}

const MACHINE_GONE = { because: 'not-this-equipment', detail: 'the machine is no longer there' } as const;

/** Why the plan has not this task: by its own name, else by its rule; a rule that has moved on has overtaken it. */
function whyNot(task: StandingTask, plan: CarePlan): NotDue | null {
  const ofRule = plan.notDue.filter((notDue) => notDue.ruleId === task.ruleId);
  const own = ofRule.find((notDue) => notDue.cycle === task.cycle) ?? ofRule.find((notDue) => !notDue.cycle);
  if (own) return own;
  const machineId = task.planned.machine?.id ?? null;
  const planned = plan.tasks.filter(
    (other) => other.ruleId === task.ruleId && (machineId === null || other.machine?.id === machineId),
  );
  if (planned.length === 0 && machineId !== null) return { ...MACHINE_GONE, ruleId: task.ruleId, cycle: task.cycle };
  if (planned.length === 0) return ofRule[0] ?? null;
  const isOvertaken = planned.some((other) => !isEarlierCycle(other.cycle, task.cycle));
  return {
    ruleId: task.ruleId,
    cycle: task.cycle,
    because: isOvertaken ? 'overtaken' : 'beyond-horizon',
    detail: isOvertaken ? 'a later one is planned' : '',
  };
}

/** Whether one season or count comes before another; names of events and readings have no order. */
function isEarlierCycle(cycle: string, than: string): boolean {
  const [season, other] = [seasonOfCycle(cycle), seasonOfCycle(than)];
  if (season && other) return season.year < other.year;
  return isLaterCount(than, cycle);
}
