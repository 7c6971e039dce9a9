import type { CareHistory, FinishedTask, TaskWindow } from '../core/care/care-plan.js';
import type { StandingTask } from '../core/care/standing-task.js';
import { type CivilDay, civilDay, isoDateOf } from '../core/units/civil-day.js';
import { civilDayIn, instantFrom } from '../platform/clock.js';
import type { PondEventEntity, ReadingEntity } from '../ponds/index.js';
import type { CareTaskEntity } from './care-task.entity.js';

/**
 * Taken away by the planner, not by a person. Such a task does not count as finished: when the record changes back, it
 * returns under its own name.
 */
export function isWithdrawn(task: CareTaskEntity): boolean {
  return task.state === 'CANCELLED' && task.finishedBy === null;
}

/** The calendar as the planner compares it with a new plan. */
export function standingTasks(tasks: readonly CareTaskEntity[]): StandingTask[] {
  return tasks
    .filter((task) => !isWithdrawn(task))
    .map((task) => ({
      ruleId: task.ruleId,
      cycle: task.cycle,
      state: task.state,
      window: windowOf(task),
      planned: task.planned,
      heldDue: dayOrNull(task.heldDueOn),
      promisedOn: dayOrNull(task.promisedOn),
    }));
}

/** What has happened on a pond, up to and with a day. */
export function careHistory(
  rows: {
    readonly tasks: readonly CareTaskEntity[];
    readonly readings: readonly ReadingEntity[];
    readonly events: readonly PondEventEntity[];
  },
  pond: { readonly timeZone: string },
  until: CivilDay,
): CareHistory {
  return {
    finished: rows.tasks.flatMap(finishedTask).filter((task) => task.on <= until),
    readings: rows.readings
      .map(({ id, quantity, value, takenAt }) => {
        const at = instantFrom(takenAt);
        return { id, quantity, value, on: civilDayIn(at, pond.timeZone), atMs: at.toMillis() };
      })
      .filter((reading) => reading.on <= until),
    events: rows.events
      .map(({ id, kind, happenedOn }) => ({ id, kind, on: civilDay(happenedOn) }))
      .filter((event) => event.on <= until),
  };
}

export function windowOf(task: Pick<CareTaskEntity, 'earliestOn' | 'dueOn' | 'latestOn'>): TaskWindow {
  return { earliest: civilDay(task.earliestOn), due: civilDay(task.dueOn), latest: civilDay(task.latestOn) };
}

export function windowColumns(window: TaskWindow): Pick<CareTaskEntity, 'earliestOn' | 'dueOn' | 'latestOn'> {
  return {
    earliestOn: isoDateOf(window.earliest),
    dueOn: isoDateOf(window.due),
    latestOn: isoDateOf(window.latest),
  };
}

function finishedTask(task: CareTaskEntity): FinishedTask[] {
  if (task.state === 'NEEDS-ACTION' || isWithdrawn(task) || task.finishedOn === null) return [];
  const { ruleId, cycle, state, actuals } = task;
  return [{ ruleId, cycle, state, on: civilDay(task.finishedOn), actuals }];
}

function dayOrNull(isoDate: string | null): CivilDay | null {
  return isoDate === null ? null : civilDay(isoDate);
}
