import type { CivilDay } from '../units/civil-day.js';
import { type BundleTask, fitsVisit, withParts } from './bundle-task.js';

/** A visit that is planned already. Its day and its tasks are not touched. */
export interface StandingVisit {
  readonly id: string;
  readonly day: CivilDay;
  /** Work on it, set-up not counted. [min] */
  readonly workMinutes: number;
  readonly people: 1 | 2;
  readonly taskIds: readonly string[];
}

export interface Joining {
  /** Tasks that fit on a visit that is planned already. */
  readonly joins: readonly { readonly taskId: string; readonly visitId: string }[];
  readonly left: readonly BundleTask[];
}

/**
 * Puts tasks that are on no visit on visits that stand: the task whose window closes first on the first visit inside
 * its window that has room. So a calendar planned anew fills visits instead of moving them.
 * @param minutesPerVisit Most work in one visit, set-up not counted; null for no limit. [min]
 * @see First fit; derived.
 */
export function joinStandingVisits(input: {
  readonly tasks: readonly BundleTask[];
  readonly visits: readonly StandingVisit[];
  readonly minutesPerVisit: number | null;
}): Joining {
  const most = input.minutesPerVisit ?? Number.POSITIVE_INFINITY;
  const visits = [...input.visits].sort((a, b) => a.day - b.day || (a.id < b.id ? -1 : 1));
  const order = [...input.tasks].sort((a, b) => a.latest - b.latest || (a.id < b.id ? -1 : 1));
  const work = new Map(visits.map(({ id, workMinutes, taskIds }) => [id, { minutes: workMinutes, taskIds }]));
  const byId = new Map(input.tasks.map((task) => [task.id, task]));
  const joins: { taskId: string; visitId: string }[] = [];
  for (const task of order) {
    const { earliest, latest } = withParts(task);
    const visit = visits.find(({ id, day, people }) => {
      const { minutes, taskIds } = work.get(id) as { minutes: number; taskIds: readonly string[] };
      if (day < earliest || day > latest || people !== task.people) return false;
      const isApart = taskIds.some(
        (other) => task.notWith?.includes(other) || byId.get(other)?.notWith?.includes(task.id),
      );
      return !isApart && fitsVisit(minutes + task.minutes, most);
    });
    if (!visit) continue;
    const { minutes, taskIds } = work.get(visit.id) as { minutes: number; taskIds: readonly string[] };
    work.set(visit.id, { minutes: minutes + task.minutes, taskIds: [...taskIds, task.id] });
    joins.push({ taskId: task.id, visitId: visit.id });
  }
  const joined = new Set(joins.map(({ taskId }) => taskId));
  return { joins, left: input.tasks.filter(({ id }) => !joined.has(id)) };
}
