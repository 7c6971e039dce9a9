import type { CivilDay } from '../units/civil-day.js';
import type { Conflict, TaskWindow } from './care-plan.js';
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
 * window and not before today; what cannot be honoured is reported and left where it is.
 */
export function arrange(drafts: readonly DraftTask[], history: HistoryIndex, today: CivilDay): Arranged {
  const arranged = [...drafts].sort((a, b) => compareText(a.rule.id, b.rule.id) || compareText(a.cycle, b.cycle));
  const conflicts: Conflict[] = [];
  for (const step of [alignOne, orderOne, spaceOne]) {
    for (let index = 0; index < arranged.length; index++) {
      const draft = arranged[index];
      if (draft && !draft.rule.anyOf.some((trigger) => trigger.kind === 'reading')) {
        arranged[index] = step(draft, arranged, { history, today, conflicts });
      }
    }
  }
  return { drafts: arranged, conflicts };
}

interface Surroundings {
  readonly history: HistoryIndex;
  readonly today: CivilDay;
  readonly conflicts: Conflict[];
}

function alignOne(draft: DraftTask, all: readonly DraftTask[], around: Surroundings): DraftTask {
  for (const otherRuleId of draft.rule.alignWith) {
    const other = nearest(draft, otherRuleId, all);
    if (!other) continue;
    if (isInside(other.window.due, draft.window) && other.window.due >= around.today) {
      return withWindow(draft, { ...draft.window, due: other.window.due });
    }
    report(around, 'align-with', draft, otherRuleId, `${Math.abs(other.window.due - draft.window.due)} days apart`);
  }
  return draft;
}

function orderOne(draft: DraftTask, all: readonly DraftTask[], around: Surroundings): DraftTask {
  let arranged = draft;
  for (const otherRuleId of draft.rule.before) {
    const other = nearest(arranged, otherRuleId, all);
    if (!other || arranged.window.due <= other.window.due) continue;
    const due = other.window.due;
    if (due >= arranged.window.earliest && due >= around.today) {
      arranged = withWindow(arranged, { ...arranged.window, due });
    } else {
      report(around, 'before', arranged, otherRuleId, `${arranged.window.due - due} days after`);
    }
  }
  return arranged;
}

function spaceOne(draft: DraftTask, all: readonly DraftTask[], around: Surroundings): DraftTask {
  if (draft.rule.notWithin.length === 0) return draft;
  const busy = busyDays(draft, all, around.history);
  const clash = (day: number) => busy.find((other) => Math.abs(day - other.day) < other.days);
  const first = clash(draft.window.due);
  if (!first) return draft;

  const due = freeDay(draft.window, around.today, (day) => clash(day) === undefined);
  if (due !== null) return withWindow(draft, { ...draft.window, due });
  report(
    around,
    'not-within',
    draft,
    first.ruleId,
    `${Math.abs(draft.window.due - first.day)} of ${first.days} days apart`,
  );
  return draft;
}

/** The free day nearest to the due day: later ones first, so that nothing is done before its time. */
function freeDay(window: TaskWindow, today: CivilDay, isFree: (day: number) => boolean): CivilDay | null {
  for (let day: number = window.due; day <= window.latest; day++) if (isFree(day)) return day as CivilDay;
  for (let day = window.due - 1; day >= Math.max(window.earliest, today); day--) {
    if (isFree(day)) return day as CivilDay;
  }
  return null;
}

/** Days taken by the rules a draft must keep away from: planned, and really done. */
function busyDays(draft: DraftTask, all: readonly DraftTask[], history: HistoryIndex) {
  return draft.rule.notWithin.flatMap(({ ruleId, days }) => {
    const planned = all.filter((other) => other !== draft && other.rule.id === ruleId).map((other) => other.window.due);
    const done = ruleId === draft.rule.id ? [] : history.completed(ruleId).map((task) => task.on);
    return [...planned, ...done].map((day) => ({ ruleId, days, day }));
  });
}

function nearest(draft: DraftTask, ruleId: string, all: readonly DraftTask[]): DraftTask | null {
  const distance = (other: DraftTask) => Math.abs(other.window.due - draft.window.due);
  const others = all.filter((other) => other.rule.id === ruleId && distance(other) <= SAME_SEASON_DAYS);
  return others.sort((a, b) => distance(a) - distance(b))[0] ?? null;
}

function isInside(day: CivilDay, window: TaskWindow): boolean {
  return day >= window.earliest && day <= window.latest;
}

function report(
  around: Surroundings,
  kind: Conflict['kind'],
  draft: DraftTask,
  otherRuleId: string,
  detail: string,
): void {
  around.conflicts.push({ kind, ruleId: draft.rule.id, otherRuleId, detail });
}
