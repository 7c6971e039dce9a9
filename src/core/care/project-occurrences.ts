import { addDays, type CivilDay } from '../units/civil-day.js';
import { doneBy } from './agreement.js';
import type { CarePlan, FinishedTask, PlanInput, PlannedTask, TaskWindow } from './care-plan.js';
import type { CareRule } from './care-rule.js';
import { eventCycle } from './cycle.js';
import { compareText } from './draft-task.js';
import type { HistoryIndex } from './history-index.js';
import { nextOccurrences } from './occurrences.js';
import { type PlanningContext, planningContext } from './planning-context.js';
import { eventFiring } from './triggers/event.js';

/** Days, closed ends. */
export interface DaySpan {
  readonly from: CivilDay;
  readonly until: CivilDay;
}

/** A later occurrence as it is expected today. It is no task: nobody is told of it, and it keeps no identity. */
export interface ProjectedOccurrence {
  readonly ruleId: string;
  /** The name it would get if everything before it were done on its due day. */
  readonly cycle: string;
  readonly machine?: PlannedTask['machine'];
  readonly due: CivilDay;
  /** Where it comes when those before it are done here and there in their windows. */
  readonly likely: DaySpan;
  /** Where it comes when each of those before it is done at the same end of its window. */
  readonly possible: DaySpan;
  readonly doneBy: PlannedTask['doneBy'];
  readonly routineLine: boolean;
  readonly minutes: number;
  readonly people: 1 | 2;
  /** 1 for the one after the planned task, 2 for the next, and so on. */
  readonly step: number;
}

/** More of one rule in a year is no help to anybody who plans. */
const MOST_OF_A_RULE = 130;

/**
 * What a year holds beyond the planned tasks: for rules that repeat, each later occurrence up to the horizon of the plan
 * as if all before it were done on their due days; for work that follows other work, the one that follows each; for
 * standing lines the line of the next season. Seasonal tasks stand in the plan for all seasons up to the horizon, and
 * what readings will ask for nobody knows, so neither is projected.
 *
 * A function of its input alone; planning itself does not need it, so a nightly plan does not pay for it.
 * @param plan The plan of this very input.
 * @returns In order of due day, then rule, then cycle.
 */
export function projectOccurrences(input: PlanInput, plan: CarePlan): readonly ProjectedOccurrence[] {
  const context = planningContext(input);
  const ruleById = new Map(input.rules.map((rule) => [rule.id, rule]));
  const repeated = plan.tasks.flatMap((task) => {
    const rule = ruleById.get(task.ruleId);
    return rule && (rule.cycle === 'count' || rule.routineLine) ? chainAfter(task, rule, context) : [];
  });
  const following = input.rules.flatMap((rule) => followers(rule, [...plan.tasks, ...repeated], context));
  const planned = new Set(plan.tasks.map(({ ruleId, cycle }) => `${ruleId}\n${cycle}`));
  return [...repeated, ...following.filter(({ ruleId, cycle }) => !planned.has(`${ruleId}\n${cycle}`))].sort(
    (a, b) => a.due - b.due || compareText(a.ruleId, b.ruleId) || compareText(a.cycle, b.cycle),
  );
}

/** Each later occurrence of one planned task, one after the other. */
function chainAfter(task: PlannedTask, rule: CareRule, context: PlanningContext): ProjectedOccurrence[] {
  const chain: ProjectedOccurrence[] = [];
  let last: Pick<PlannedTask, 'cycle' | 'window'> = task;
  while (chain.length < MOST_OF_A_RULE) {
    const on = rule.routineLine ? last.window.latest : (Math.max(last.window.due, context.today) as CivilDay);
    const done: FinishedTask = { ruleId: rule.id, cycle: last.cycle, state: 'COMPLETED', on, actuals: {} };
    const next = nextOccurrences(rule, { ...context, history: historyWith(context.history, done) }).find(
      (draft) => draft.machine?.id === task.machine?.id,
    );
    // What does not come later than the one before it would never end.
    if (!next || next.window.due <= on) break;
    chain.push(projected(rule, next, chain.length + 1, context));
    last = next;
  }
  return chain;
}

/** Work that comes after other work is done, for each time that is planned or projected. */
function followers(
  rule: CareRule,
  before: readonly (PlannedTask | ProjectedOccurrence)[],
  context: PlanningContext,
): ProjectedOccurrence[] {
  return rule.anyOf.flatMap((trigger, index) => {
    if (trigger.kind !== 'event' || trigger.event !== 'task-completed') return [];
    return before
      .filter(({ ruleId }) => ruleId === trigger.ofRule)
      .flatMap((first) => {
        const on = 'window' in first ? first.window.due : first.due;
        const { window } = eventFiring(trigger, rule, { id: '', on });
        const cycle = eventCycle(`${first.ruleId}:${first.cycle}`, index);
        const isInReach = window.due >= context.today && window.due <= context.horizon;
        return isInReach ? [projected(rule, { cycle, window }, 1 + ('step' in first ? first.step : 0), context)] : [];
      });
  });
}

function projected(
  rule: CareRule,
  occurrence: Pick<ProjectedOccurrence, 'cycle' | 'machine'> & { readonly window: TaskWindow },
  step: number,
  { pond, today, input }: PlanningContext,
): ProjectedOccurrence {
  const { window, cycle, machine } = occurrence;
  const span = (times: number): DaySpan => ({
    from: Math.max(today, Math.round(window.due - times * (window.due - window.earliest))) as CivilDay,
    until: addDays(window.due, Math.round(times * (window.latest - window.due))),
  });
  // Independent errors add up by their squares; the same error each time adds up by itself.
  const [likely, possible] = rule.routineLine ? [span(1), span(1)] : [span(Math.sqrt(step + 1)), span(step + 1)];
  return {
    ruleId: rule.id,
    cycle,
    ...(machine ? { machine } : {}),
    due: window.due,
    likely,
    possible,
    doneBy: doneBy(rule, pond, window.due, input.defaultDoneBy),
    routineLine: rule.routineLine,
    minutes: rule.minutes.value,
    people: rule.people,
    step,
  };
}

/** The history as it would be with one more task done. */
function historyWith(history: HistoryIndex, done: FinishedTask): HistoryIndex {
  const isIts = (ruleId: string) => ruleId === done.ruleId;
  return {
    ...history,
    finishedCycles: (ruleId) =>
      isIts(ruleId) ? new Map([...history.finishedCycles(ruleId), [done.cycle, done]]) : history.finishedCycles(ruleId),
    lastFinished: (ruleId, machineId) => (isIts(ruleId) ? done : history.lastFinished(ruleId, machineId)),
    lastCompleted: (ruleId) => (isIts(ruleId) ? done : history.lastCompleted(ruleId)),
    completed: (ruleId) => (isIts(ruleId) ? [...history.completed(ruleId), done] : history.completed(ruleId)),
  };
}
