import type { CivilDay } from '../units/civil-day.js';
import type { Conflict, TaskWindow } from './care-plan.js';
import { isCycleOf } from './cycle.js';
import { compareText, type DraftTask, withWindow } from './draft-task.js';
import type { HistoryIndex } from './history-index.js';

/** Two tasks further apart than this belong to different seasons and do not wait for each other. [days] */
const SAME_SEASON_DAYS = 60;

export interface Arranged {
  readonly drafts: readonly DraftTask[];
  readonly conflicts: readonly Conflict[];
}

/**
 * Honours what rules say of each other: company first (`alignWith`), then order (`before`), then distance
 * (`notWithin`), which is about safety and therefore has the last word. The rule that speaks moves, inside its own
 * window and not before today. Work a reading asks for waits for nothing. What does not hold in the end is reported,
 * whichever step undid it.
 */
export function arrange(drafts: readonly DraftTask[], history: HistoryIndex, today: CivilDay): Arranged {
  const arranged = [...drafts].sort((a, b) => compareText(a.rule.id, b.rule.id) || compareText(a.cycle, b.cycle));
  const around = { history, today };
  for (const step of [alignOne, orderOne, spaceOne]) {
    for (let index = 0; index < arranged.length; index++) {
      const draft = arranged[index];
      if (draft && draft.firing.reason.trigger !== 'reading') arranged[index] = step(draft, arranged, around);
    }
  }
  return { drafts: arranged, conflicts: arranged.flatMap((draft) => unmet(draft, arranged, history)) };
}

interface Surroundings {
  readonly history: HistoryIndex;
  readonly today: CivilDay;
}

function alignOne(draft: DraftTask, all: readonly DraftTask[], around: Surroundings): DraftTask {
  for (const otherRuleId of draft.rule.alignWith) {
    const due = nearest(draft, otherRuleId, all)?.window.due;
    if (due !== undefined && isInside(due, draft.window) && due >= around.today) {
      return withWindow(draft, { ...draft.window, due });
    }
  }
  return draft;
}

function orderOne(draft: DraftTask, all: readonly DraftTask[], around: Surroundings): DraftTask {
  let arranged = draft;
  for (const otherRuleId of draft.rule.before) {
    const due = nearest(arranged, otherRuleId, all)?.window.due;
    if (due === undefined || arranged.window.due <= due) continue;
    if (due >= arranged.window.earliest && due >= around.today) {
      arranged = withWindow(arranged, { ...arranged.window, due });
    }
  }
  return arranged;
}

function spaceOne(draft: DraftTask, all: readonly DraftTask[], around: Surroundings): DraftTask {
  if (draft.rule.notWithin.length + (draft.rule.notAfter?.length ?? 0) === 0) return draft;
  const busy = busyDays(draft, all, around.history);
  const clash = (day: number) => busy.find((other) => Math.abs(day - other.day) < other.days);
  if (!clash(draft.window.due)) return draft;
  const due = freeDay(draft.window, around.today, (day) => clash(day) === undefined);
  return due === null ? draft : withWindow(draft, { ...draft.window, due });
}

/** What a task asks of others and does not get, as it stands in the end. */
function unmet(draft: DraftTask, all: readonly DraftTask[], history: HistoryIndex): Conflict[] {
  const { rule, window } = draft;
  const conflict = (kind: Conflict['kind'], otherRuleId: string, detail: string): Conflict => ({
    kind,
    ruleId: rule.id,
    otherRuleId,
    detail,
  });
  const company = rule.alignWith.flatMap((ruleId) => {
    const other = nearest(draft, ruleId, all);
    return other ? [{ ruleId, daysApart: Math.abs(other.window.due - window.due) }] : [];
  });
  const isInCompany = company.some(({ daysApart }) => daysApart === 0);
  const followers = rule.before.flatMap((ruleId) => {
    const other = nearest(draft, ruleId, all);
    return other && other.window.due < window.due ? [{ ruleId, daysAfter: window.due - other.window.due }] : [];
  });
  const clash = busyDays(draft, all, history).find((other) => Math.abs(window.due - other.day) < other.days);
  return [
    ...(isInCompany ? [] : company).map(({ ruleId, daysApart }) =>
      conflict('align-with', ruleId, `${daysApart} days apart`),
    ),
    ...followers.map(({ ruleId, daysAfter }) => conflict('before', ruleId, `${daysAfter} days after`)),
    ...(clash
      ? [conflict('not-within', clash.ruleId, `${Math.abs(window.due - clash.day)} of ${clash.days} days apart`)]
      : []),
  ];
}

/** The free day nearest to the due day: later ones first, so that nothing is done before its time. */
function freeDay(window: TaskWindow, today: CivilDay, isFree: (day: number) => boolean): CivilDay | null {
  for (let day: number = window.due; day <= window.latest; day++) if (isFree(day)) return day as CivilDay;
  for (let day = window.due - 1; day >= Math.max(window.earliest, today); day--) {
    if (isFree(day)) return day as CivilDay;
  }
  return null;
}

/**
 * Days taken by the rules a draft must keep away from: planned, and really done. Of its own rule only the other
 * machines count: its own last time is in its window already.
 */
function busyDays(draft: DraftTask, all: readonly DraftTask[], history: HistoryIndex) {
  const afterEvents = (draft.rule.notAfter ?? []).flatMap(({ event, days }) =>
    history.events(event).map(({ on }) => ({ ruleId: event, days, day: on as number })),
  );
  const awayFromRules = draft.rule.notWithin.flatMap(({ ruleId, days }) => {
    const planned = all.filter((other) => other !== draft && other.rule.id === ruleId).map((other) => other.window.due);
    const done = history
      .completed(ruleId)
      .filter((task) => ruleId !== draft.rule.id || isOfOtherMachine(task.cycle, draft))
      .map((task) => task.on);
    return [...planned, ...done].map((day) => ({ ruleId, days, day: day as number }));
  });
  return [...awayFromRules, ...afterEvents];
}

function isOfOtherMachine(cycle: string, { machine }: DraftTask): boolean {
  return machine !== undefined && !isCycleOf(cycle, machine.id);
}

function nearest(draft: DraftTask, ruleId: string, all: readonly DraftTask[]): DraftTask | null {
  let found: DraftTask | null = null;
  let closest = SAME_SEASON_DAYS;
  for (const other of all) {
    const distance = Math.abs(other.window.due - draft.window.due);
    if (other.rule.id !== ruleId || distance > closest || (found && distance === closest)) continue;
    found = other;
    closest = distance;
  }
  return found;
}

function isInside(day: CivilDay, window: TaskWindow): boolean {
  return day >= window.earliest && day <= window.latest;
}
