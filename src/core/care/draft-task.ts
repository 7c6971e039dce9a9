import type { NotDue, TaskWindow } from './care-plan.js';
import type { CareRule } from './care-rule.js';
import type { Firing } from './triggers/trigger-outcome.js';

/** A task whose day may still be moved by the courtesy between rules. */
export interface DraftTask {
  readonly rule: CareRule;
  readonly cycle: string;
  /** The machine it is for, where each has its own. */
  readonly machine?: { readonly id: string; readonly name: string };
  readonly firing: Firing;
  readonly window: TaskWindow;
}

/** What a rule gives on a pond: tasks, or why there is none. */
export interface Occurrences {
  readonly drafts: readonly DraftTask[];
  readonly notDue: readonly NotDue[];
}

export function withWindow(draft: DraftTask, window: TaskWindow): DraftTask {
  return { ...draft, window };
}

/** By due day, then rule, then cycle: the order of a plan. */
export function byDueThenRule(
  a: { window: TaskWindow; rule: { id: string }; cycle: string },
  b: { window: TaskWindow; rule: { id: string }; cycle: string },
): number {
  return a.window.due - b.window.due || compareText(a.rule.id, b.rule.id) || compareText(a.cycle, b.cycle);
}

export function compareText(a: string, b: string): number {
  if (a === b) return 0;
  return a < b ? -1 : 1;
}
