import type { CarePlan } from '../../core/care/care-plan.js';
import type { CivilDay } from '../../core/units/civil-day.js';
import { isoDateOf } from '../../core/units/civil-day.js';
import { type Night, nameOf } from './churn-year.js';

/** Inside so many days before it is due a task is to hold still. [days] */
const NEAR_DAYS = 60;
const MOST_MOVES = 2;

/** What a task went through after it first came near. */
interface NearTask {
  readonly announcedDue: CivilDay;
  readonly trigger: string;
  moves: number;
}

/** A task that moved as it should not have. */
export interface Violation {
  readonly kind: 'inside-its-window' | 'more-than-twice' | 'unsaid-broken-promise' | 'promise-broken-for-nothing';
  readonly task: string;
  readonly on: string;
}

export interface ChurnCount {
  /** Dated tasks that came near in the year; lines that stand all season are no dated tasks. */
  readonly tasks: number;
  readonly neverMoved: number;
  readonly moves: number;
  readonly brokenPromises: number;
  readonly violations: readonly Violation[];
  /** Days between the first date announced inside the 60 days and the one the year brought, by kind of trigger. */
  readonly errorsDays: readonly { readonly trigger: string; readonly days: number }[];
}

/** Counts what the nights of a year did to dated tasks, and checks each move. */
export function churnCount(nights: Iterable<Night>, hindsight: CarePlan): ChurnCount {
  const near = new Map<string, NearTask>();
  const violations: Violation[] = [];
  let brokenPromises = 0;
  for (const night of nights) {
    const found = (kind: Violation['kind'], task: string) =>
      violations.push({ kind, task, on: isoDateOf(night.today) });
    for (const change of night.changes) {
      if (change.kind === 'added' || change.kind === 'revised') continue;
      const name = nameOf(change);
      const before = night.before.get(name);
      if (!before || before.planned.routineLine) continue;
      if (change.kind === 'cancelled') {
        if (before.promisedOn === null || before.promisedOn < night.today) continue;
        brokenPromises += 1;
        if (!change.breaksPromise) found('unsaid-broken-promise', name);
        continue;
      }
      if (before.window.due - night.today > NEAR_DAYS) continue;
      const { from, to } = change;
      const task = near.get(name);
      if (task) task.moves += 1;
      if (task && task.moves > MOST_MOVES) found('more-than-twice', name);
      if (to.due >= from.earliest && to.due <= from.latest) found('inside-its-window', name);
      if (before.promisedOn === null) continue;
      brokenPromises += 1;
      if (!change.breaksPromise) found('unsaid-broken-promise', name);
      if (before.promisedOn >= to.earliest && before.promisedOn <= to.latest) found('promise-broken-for-nothing', name);
    }
    for (const [name, { state, window, planned }] of night.after) {
      if (state !== 'NEEDS-ACTION' || planned.routineLine || near.has(name)) continue;
      if (window.due - night.today > NEAR_DAYS || window.due < night.today) continue;
      near.set(name, { announcedDue: window.due, trigger: planned.reason.trigger, moves: 0 });
    }
  }
  const inTruth = new Map(hindsight.tasks.map((task) => [nameOf(task), task]));
  const all = [...near.entries()];
  return {
    tasks: all.length,
    neverMoved: all.filter(([, { moves }]) => moves === 0).length,
    moves: all.reduce((sum, [, { moves }]) => sum + moves, 0),
    brokenPromises,
    violations,
    errorsDays: all.flatMap(([name, { announcedDue, trigger }]) => {
      const task = inTruth.get(name);
      const isOfWeather = task?.reason.trigger === 'crossing' || task?.reason.trigger === 'season';
      return task && isOfWeather ? [{ trigger, days: announcedDue - task.window.due }] : [];
    }),
  };
}
