import { Injectable } from '@nestjs/common';
import { CareCalendarService, type CareTaskView, effectiveLatestOn } from '../care-calendar/index.js';
import { addDays, isoDateOf } from '../core/units/civil-day.js';
import { Clock } from '../platform/clock.js';
import type { CompanyId, PersonId, PondId, TaskId, VisitId } from '../platform/ids.js';

/** The days on which a task may be done, civil dates in its pond's zone, both included. */
export interface TaskDays {
  readonly earliestOn: string;
  readonly latestOn: string;
}

/** A day a person has set is the only one; a task put off does not come before the day it was put off to. */
export function daysOf({ task }: Pick<CareTaskView, 'task'>): TaskDays {
  if (task.heldDueOn !== null) return { earliestOn: task.heldDueOn, latestOn: task.heldDueOn };
  const { earliestOn, putOffUntil } = task;
  const latestOn = effectiveLatestOn(task);
  if (putOffUntil === null || putOffUntil <= earliestOn) return { earliestOn, latestOn };
  return { earliestOn: [putOffUntil, latestOn].sort()[0] as string, latestOn };
}

/** What visits ask of the care calendar, in one place. */
@Injectable()
export class VisitCareTasks {
  constructor(
    private readonly clock: Clock,
    private readonly calendar: CareCalendarService,
  ) {}

  /** In any state, in the order of the ids. Ids of another company are left out. */
  async byIds(companyId: CompanyId, taskIds: readonly TaskId[]): Promise<CareTaskView[]> {
    return taskIds.length === 0 ? [] : this.calendar.tasks(companyId, [...new Set(taskIds)]);
  }

  /** Open technician tasks of a pond, or of all, that come due within so many days; late ones too. */
  async dueWithin(companyId: CompanyId, pondId: PondId | null, days: number): Promise<CareTaskView[]> {
    const today = this.clock.today('UTC');
    const query = { from: isoDateOf(today), to: isoDateOf(addDays(today, days)) };
    const due = await this.calendar.dueForTechnicians(companyId, query);
    return due.filter(({ task }) => !task.routineLine && (pondId === null || task.pondId === pondId));
  }

  /** Takes tasks on a visit, or off any with null. A day that was told to somebody is held by the calendar. */
  async putOn(
    companyId: CompanyId,
    taskIds: readonly TaskId[],
    visit: { readonly id: VisitId; readonly promisedOn: string | null } | null,
  ): Promise<void> {
    if (taskIds.length === 0) return;
    await this.calendar.putOnVisit(companyId, taskIds, visit?.id ?? null);
    if (visit?.promisedOn) await this.calendar.promise(companyId, taskIds, visit.promisedOn);
    else await this.calendar.releasePromise(companyId, taskIds);
  }

  /** Finishes tasks as of a day; the calendar is planned anew by `replan`, once for all of them. */
  async complete(
    companyId: CompanyId,
    taskId: TaskId,
    done: { readonly on: string; readonly by: PersonId; readonly actuals: Readonly<Record<string, number>> },
  ): Promise<void> {
    await this.calendar.complete(companyId, taskId, { ...done, because: 'done' }, { replan: false });
  }

  /** Also long after the day it was entered: a visit may be reopened late. */
  async reopen(companyId: CompanyId, taskId: TaskId, by: PersonId): Promise<void> {
    await this.calendar.reopen(companyId, taskId, { by, anyDay: true }, { replan: false });
  }

  async replan(companyId: CompanyId, pondId: PondId): Promise<void> {
    await this.calendar.replan(companyId, pondId);
  }
}
