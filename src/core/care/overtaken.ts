import type { NotDue } from './care-plan.js';
import { seasonOfCycle } from './cycle.js';
import type { DraftTask, Occurrences } from './draft-task.js';
import type { PlanningContext } from './planning-context.js';
import { seasonStart } from './seasons.js';

/** Days around a season's start to its half year that make two tasks of one year. */
const SAME_YEAR_DAYS = 330;

/**
 * Drops tasks whose moment has passed because a later one of the same row has come due: nobody changes over to light
 * food once feeding has stopped. Only what is already due is dropped, and only by what is due today or was done.
 */
export function overtaken(drafts: readonly DraftTask[], context: PlanningContext): Occurrences {
  const kept: DraftTask[] = [];
  const notDue: NotDue[] = [];
  for (const draft of drafts) {
    const by = draft.window.due <= context.today ? overtakingRule(draft, drafts, context) : null;
    if (by === null) kept.push(draft);
    else notDue.push({ ruleId: draft.rule.id, cycle: draft.cycle, because: 'overtaken', detail: by });
  }
  return { drafts: kept, notDue };
}

function overtakingRule(draft: DraftTask, drafts: readonly DraftTask[], context: PlanningContext): string | null {
  const season = seasonOfCycle(draft.cycle);
  const start = season ? seasonStart(season, context.pond.latitude) : draft.window.due;
  const isOfThisYear = (day: number) => day >= start && day - start <= SAME_YEAR_DAYS;
  for (const ruleId of draft.rule.overtakenBy ?? []) {
    const isDue = drafts.some(
      (other) =>
        other.rule.id === ruleId &&
        other.window.due <= context.today &&
        other.window.due >= draft.window.due &&
        isOfThisYear(other.window.due),
    );
    const isDone = context.history
      .completed(ruleId)
      .some((task) => isOfThisYear(task.on) && task.on >= draft.window.due);
    if (isDue || isDone) return ruleId;
  }
  return null;
}
