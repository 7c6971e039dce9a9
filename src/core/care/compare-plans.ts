import type { CarePlan, NotDue, PlannedTask } from './care-plan.js';
import type { ProjectedOccurrence } from './project-occurrences.js';

/** A year of one pond: what is planned, and what is expected after that. */
export interface CareYear {
  readonly plan: CarePlan;
  readonly later: readonly ProjectedOccurrence[];
}

/** What becomes of one rule between two plans of a pond. */
export interface RuleDifference {
  readonly ruleId: string;
  readonly kind: 'new' | 'gone' | 'moved' | 'more-often' | 'less-often' | 'other-amount' | 'other-person';
  /** The first that moves, else the next one, before and after; null where there is none. */
  readonly before: PlannedTask | null;
  readonly after: PlannedTask | null;
  /** Times in the year, planned and projected; a standing line of a season counts once. */
  readonly timesBefore: number;
  readonly timesAfter: number;
  /** By how much it moves, late work counting as due today, later positive; null where one of the two is missing. [days] */
  readonly movedDays: number | null;
  /** Why a rule gives none any more. */
  readonly notDue: NotDue | null;
}

/**
 * What differs between two years of the same pond, rule by rule: new, gone, more or less often, moved, done by somebody
 * else, or with another amount. What is the same is left out. In order of the next due day, then rule.
 * Amounts are those of the next task.
 */
export function comparePlans(before: CareYear, after: CareYear): readonly RuleDifference[] {
  const ruleIds = new Set([...before.plan.tasks, ...after.plan.tasks].map(({ ruleId }) => ruleId));
  return [...ruleIds]
    .map((ruleId) => differenceOf(ruleId, before, after))
    .filter((difference) => difference !== null)
    .sort((a, b) => firstDue(a) - firstDue(b) || (a.ruleId < b.ruleId ? -1 : 1));
}

function differenceOf(ruleId: string, yearBefore: CareYear, yearAfter: CareYear): RuleDifference | null {
  const { before, after } = telling(ruleId, yearBefore, yearAfter);
  const timesBefore = timesOf(ruleId, yearBefore);
  const timesAfter = timesOf(ruleId, yearAfter);
  const movedDays = before && after ? dayOf(after, yearAfter) - dayOf(before, yearBefore) : null;
  const kind = kindOf(before, after, timesAfter - timesBefore, movedDays ?? 0);
  if (kind === null) return null;
  const notDue = after ? null : (yearAfter.plan.notDue.find((one) => one.ruleId === ruleId) ?? null);
  return { ruleId, kind, before, after, timesBefore, timesAfter, movedDays, notDue };
}

function kindOf(
  before: PlannedTask | null,
  after: PlannedTask | null,
  moreTimes: number,
  movedDays: number,
): RuleDifference['kind'] | null {
  if (!before) return 'new';
  if (!after) return 'gone';
  if (moreTimes !== 0) return moreTimes > 0 ? 'more-often' : 'less-often';
  if (before.doneBy !== after.doneBy) return 'other-person';
  if (movedDays !== 0) return 'moved';
  return amountsOf(before) === amountsOf(after) ? null : 'other-amount';
}

/**
 * The task that shows the difference: the first that moves, of those with the same name on both sides; else the next of
 * each side. What is due already on both sides has not moved.
 */
function telling(
  ruleId: string,
  before: CareYear,
  after: CareYear,
): { readonly before: PlannedTask | null; readonly after: PlannedTask | null } {
  const [first, second] = [tasksOf(ruleId, before), tasksOf(ruleId, after)];
  for (const task of first) {
    const same = second.find(({ cycle }) => cycle === task.cycle);
    if (same && dayOf(same, after) !== dayOf(task, before)) return { before: task, after: same };
  }
  return { before: first[0] ?? null, after: second[0] ?? null };
}

function tasksOf(ruleId: string, { plan }: CareYear): readonly PlannedTask[] {
  return plan.tasks.filter((task) => task.ruleId === ruleId);
}

/** The day on which it can be done at the earliest as planned: late work is due today. */
function dayOf({ window }: PlannedTask, { plan }: CareYear): number {
  return Math.max(window.due, plan.today);
}

function timesOf(ruleId: string, { plan, later }: CareYear): number {
  const isIts = (one: { readonly ruleId: string }) => one.ruleId === ruleId;
  return plan.tasks.filter(isIts).length + later.filter(isIts).length;
}

function amountsOf({ quantities }: PlannedTask): string {
  return JSON.stringify(quantities.map(({ of, amount, unit, per }) => [of, amount, unit, per]));
}

function firstDue({ before, after }: RuleDifference): number {
  return Math.min(...[before, after].flatMap((task) => (task ? [task.window.due] : [])));
}
