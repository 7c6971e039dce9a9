import { doneBy } from './agreement.js';
import { notApplicable } from './applicability.js';
import type { CarePlan, NotDue, PlanInput, PlannedTask } from './care-plan.js';
import { arrange } from './conflicts.js';
import { byDueThenRule, compareText, type DraftTask } from './draft-task.js';
import { pondFindings } from './findings.js';
import { occurrencesOf } from './occurrences.js';
import { overtaken } from './overtaken.js';
import { type PlanningContext, planningContext } from './planning-context.js';
import { quantitiesOf } from './quantities/recipes.js';

/**
 * The care calendar of one pond: every rule that applies, as tasks with window, reason and quantities, and for every
 * other rule why it gives none. A function of its input alone: the same input gives the same plan, byte for byte, and
 * the order of rules, readings, events and machines does not matter.
 *
 * For rules that repeat (interval, load) only the next occurrence is planned: the one after depends on the day this one
 * is really done. Seasonal rules give this season's and, inside the horizon, the next one's.
 * @param input.horizonDays 1 to 540; the forecast should reach about half a year further. [days]
 * @throws InvalidValueError, OutOfRangeError when a rule or the pond carries a value the science refuses.
 */
export function planCareCalendar(input: PlanInput): CarePlan {
  const context = planningContext(input);
  const drafts: DraftTask[] = [];
  const notDue: NotDue[] = [];
  for (const rule of [...input.rules].sort((a, b) => compareText(a.id, b.id))) {
    const misfit = notApplicable(rule, context.pond);
    if (misfit) {
      notDue.push(misfit);
      continue;
    }
    const occurrences = occurrencesOf(rule, context);
    drafts.push(...occurrences.drafts);
    notDue.push(...occurrences.notDue);
  }
  const lapsed = overtaken(drafts, context);
  const arranged = arrange(lapsed.drafts, context.history, input.today);
  return {
    pondId: input.pond.pondId,
    today: input.today,
    tasks: [...arranged.drafts].sort(byDueThenRule).map((draft) => asTask(draft, context)),
    notDue: [...notDue, ...lapsed.notDue].sort(byRule),
    conflicts: arranged.conflicts,
    findings: pondFindings(context),
  };
}

function asTask(draft: DraftTask, context: PlanningContext): PlannedTask {
  const { rule, window, firing } = draft;
  return {
    ruleId: rule.id,
    cycle: draft.cycle,
    ...(draft.machine ? { machine: draft.machine } : {}),
    doneBy: doneBy(rule, context.pond, window.due, context.input.defaultDoneBy),
    consequence: firing.consequence ?? rule.consequence,
    routineLine: rule.routineLine,
    window,
    confidence: Number(firing.confidence.toFixed(3)),
    reason: firing.reason,
    quantities: quantitiesOf(draft, context),
    minutes: rule.minutes.value,
    people: rule.people,
  };
}

function byRule(a: NotDue, b: NotDue): number {
  return compareText(a.ruleId, b.ruleId) || compareText(a.cycle ?? '', b.cycle ?? '');
}
