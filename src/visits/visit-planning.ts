import { Injectable } from '@nestjs/common';
import { PeopleService } from '../accounts/index.js';
import type { CareTaskView } from '../care-calendar/index.js';
import { InvalidValueError } from '../core/errors.js';
import type { CivilDay } from '../core/units/civil-day.js';
import { Database } from '../database/index.js';
import { Clock } from '../platform/clock.js';
import { type CompanyId, newId, type PersonId, type PondId, type TaskId, type VisitId } from '../platform/ids.js';
import { PondsService } from '../ponds/index.js';
import { VisitEntity } from './visit.entity.js';
import { VisitCareTasks } from './visit-care-tasks.js';
import type { VisitChangeStep } from './visit-change.entity.js';
import { type BrokenWindow, brokenWindows, dueWindowOf, usableTimes, type VisitTimes } from './visit-days.js';
import { VisitNews } from './visit-news.js';
import { SET_UP_MINUTES } from './visit-proposals.js';
import { restMinutes, VisitRecords } from './visit-records.js';
import { requireStep } from './visit-states.js';
import { VisitTaskEntity } from './visit-task.entity.js';
import { VisitTrail } from './visit-trail.js';
import { TaskNotPlannableError } from './visits.errors.js';

export interface NewVisit extends VisitTimes {
  readonly pondId: PondId;
  /** May be none: somebody is asked to come and look. */
  readonly taskIds: readonly TaskId[];
  readonly technicianId?: PersonId | null;
  /** What the technician should know. */
  readonly officeNote?: string;
}

/** A visit after a step of planning, and the tasks whose windows do not hold its day. */
export interface PlannedVisit {
  readonly visit: VisitEntity;
  readonly brokenWindows: readonly BrokenWindow[];
}

const LONGEST_NOTE = 4000;
const LONGEST_REASON = 500;

/**
 * The office's steps: each is one unit of work on one visit. `by` is who took it, for the visit's trail; nobody where the
 * program did.
 */
@Injectable()
export class VisitPlanning {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
    private readonly ponds: PondsService,
    private readonly people: PeopleService,
    private readonly records: VisitRecords,
    private readonly careTasks: VisitCareTasks,
    private readonly trail: VisitTrail,
    private readonly news: VisitNews,
  ) {}

  create(companyId: CompanyId, input: NewVisit, by: PersonId | null = null): Promise<PlannedVisit> {
    return this.database.unitOfWork('plan a visit', async () => {
      const times = usableTimes(input, await this.todayAt(companyId, input.pondId));
      const technicianId = await this.memberOrNone(companyId, input.technicianId ?? null);
      const tasks = await this.plannableTasks(companyId, input.pondId, input.taskIds);
      const now = this.clock.instant();
      const visit: VisitEntity = {
        id: newId(this.clock.now().toMillis()),
        companyId,
        pondId: input.pondId,
        state: 'TENTATIVE',
        ...times,
        technicianId,
        ...dueWindowOf(tasks, times.plannedOn),
        minutes: minutesOf(tasks, await this.records.doneShares(companyId, input.taskIds)),
        officeNote: shortText('note', input.officeNote ?? '', LONGEST_NOTE),
        publishedAt: null,
        onTheWayAt: null,
        arrivedAt: null,
        closedAt: null,
        cancelledBecause: null,
        createdAt: now,
        updatedAt: now,
        version: 1,
      };
      const store = this.database.company(companyId);
      await store.insert(VisitEntity, visit);
      if (tasks.length > 0) {
        await store.insert(
          VisitTaskEntity,
          tasks.map(({ task }) => this.visitTask(visit.id, task.id)),
        );
        await this.careTasks.putOn(companyId, await this.taskIdsOf(visit), { id: visit.id, promisedOn: null });
      }
      const { plannedOn, technicianId: given } = visit;
      await this.trail.note(visit, 'planned', by, { after: { plannedOn, technicianId: given } });
      return { visit, brokenWindows: brokenWindows(tasks, visit.plannedOn) };
    });
  }

  /** Gives the visit to a member of the company, or takes it back with null. */
  assign(
    companyId: CompanyId,
    visitId: VisitId,
    technicianId: PersonId | null,
    expectedVersion?: number,
    by: PersonId | null = null,
  ) {
    return this.step('assigned', { companyId, visitId, expectedVersion, by }, async (visit) => {
      requireStep('be given to somebody', visit);
      const member = await this.memberOrNone(companyId, technicianId);
      if (visit.state === 'CONFIRMED' && member === null) {
        throw new InvalidValueError('technician', null, 'A published visit needs one: choose who goes instead.');
      }
      const changed = await this.records.change(visit, { technicianId: member });
      if (visit.state === 'CONFIRMED') await this.tellMoved(visit, changed);
      return changed;
    });
  }

  /** Another day or time. Outside the due window it is done all the same, and the answer says which windows break. */
  move(
    companyId: CompanyId,
    visitId: VisitId,
    to: VisitTimes,
    expectedVersion?: number,
    by: PersonId | null = null,
  ): Promise<PlannedVisit> {
    return this.step('moved', { companyId, visitId, expectedVersion, by }, async (visit) => {
      requireStep('be moved', visit);
      const times = usableTimes(to, await this.todayAt(companyId, visit.pondId));
      const changed = await this.records.change(visit, times);
      if (visit.state === 'CONFIRMED') {
        await this.holdTasks(changed);
        await this.tellMoved(visit, changed);
      }
      return changed;
    });
  }

  addTask(
    companyId: CompanyId,
    visitId: VisitId,
    taskId: TaskId,
    expectedVersion?: number,
    by: PersonId | null = null,
  ): Promise<PlannedVisit> {
    return this.step('task-added', { companyId, visitId, expectedVersion, by }, async (visit) => {
      requireStep('take on a task', visit);
      if ((await this.taskIdsOf(visit)).includes(taskId)) return visit;
      await this.plannableTasks(companyId, visit.pondId, [taskId]);
      await this.database.company(companyId).insert(VisitTaskEntity, this.visitTask(visit.id, taskId));
      await this.holdTasks(visit);
      await this.trail.note(visit, 'task-added', by, { after: { careTaskId: taskId } });
      return this.records.change(visit, {});
    });
  }

  removeTask(
    companyId: CompanyId,
    visitId: VisitId,
    taskId: TaskId,
    expectedVersion?: number,
    by: PersonId | null = null,
  ): Promise<PlannedVisit> {
    return this.step('task-taken-off', { companyId, visitId, expectedVersion, by }, async (visit) => {
      requireStep('let go of a task', visit);
      const removed = await this.database
        .company(companyId)
        .remove(VisitTaskEntity, { visitId: visit.id, careTaskId: taskId });
      if (removed === 0) return visit;
      await this.careTasks.putOn(companyId, [taskId], null);
      await this.trail.note(visit, 'task-taken-off', by, { before: { careTaskId: taskId } });
      return this.records.change(visit, {});
    });
  }

  /** Confirms the visit: the homeowner may be told, and the dates of its tasks are promised. */
  publish(
    companyId: CompanyId,
    visitId: VisitId,
    expectedVersion?: number,
    by: PersonId | null = null,
  ): Promise<PlannedVisit> {
    return this.step('published', { companyId, visitId, expectedVersion, by }, async (visit) => {
      requireStep('be published', visit);
      if (visit.technicianId === null) {
        throw new InvalidValueError('technician', null, 'Choose who goes before the visit is published.');
      }
      usableTimes(visit, await this.todayAt(companyId, visit.pondId));
      const changed = await this.records.change(visit, { state: 'CONFIRMED', publishedAt: this.clock.instant() });
      await this.holdTasks(changed);
      await this.news.tell('visit-published', { companyId, pondId: visit.pondId, visitId: visit.id });
      return changed;
    });
  }

  /** Takes the visit out of the plan; its tasks are free again. */
  async cancel(
    companyId: CompanyId,
    visitId: VisitId,
    why: string,
    expectedVersion?: number,
    by: PersonId | null = null,
  ): Promise<VisitEntity> {
    const because = shortText('reason', why, LONGEST_REASON);
    if (because === '') throw new InvalidValueError('reason', why, 'Say why: it is kept, and the technician reads it.');
    return this.database.unitOfWork('cancel a visit', async () => {
      const visit = await this.records.hold(companyId, visitId, expectedVersion);
      requireStep('be cancelled', visit);
      await this.careTasks.putOn(companyId, await this.taskIdsOf(visit), null);
      const changed = await this.records.change(visit, { state: 'CANCELLED', cancelledBecause: because });
      await this.trail.noteChange(visit, changed, 'cancelled', by, because);
      const wasPublished = visit.publishedAt !== null;
      await this.news.tell('visit-cancelled', { companyId, pondId: visit.pondId, visitId, because, wasPublished });
      return changed;
    });
  }

  private step(
    step: VisitChangeStep,
    of: { companyId: CompanyId; visitId: VisitId; expectedVersion: number | undefined; by: PersonId | null },
    act: (visit: VisitEntity) => Promise<VisitEntity>,
  ): Promise<PlannedVisit> {
    const { companyId, visitId } = of;
    return this.database.unitOfWork(`visit ${step}`, async () => {
      const before = await this.records.hold(companyId, visitId, of.expectedVersion);
      const visit = await act(before);
      await this.trail.noteChange(before, visit, step, of.by);
      const taskIds = await this.taskIdsOf(visit);
      const tasks = await this.careTasks.byIds(companyId, taskIds);
      const minutes = minutesOf(tasks, await this.records.doneShares(companyId, taskIds));
      const due = { ...dueWindowOf(tasks, visit.plannedOn), minutes };
      await this.database.company(companyId).update(VisitEntity, { id: visitId }, due);
      return { visit: { ...visit, ...due }, brokenWindows: brokenWindows(tasks, visit.plannedOn) };
    });
  }

  /** The calendar knows the visit of each task, and the day once it was told. */
  private async holdTasks(visit: VisitEntity): Promise<void> {
    const promisedOn = visit.state === 'TENTATIVE' ? null : visit.plannedOn;
    await this.careTasks.putOn(visit.companyId, await this.taskIdsOf(visit), { id: visit.id, promisedOn });
  }

  private async todayAt(companyId: CompanyId, pondId: PondId): Promise<CivilDay> {
    const pond = await this.ponds.pond(companyId, pondId);
    if (pond.state === 'archived') {
      throw new InvalidValueError(
        'pond',
        pond.name,
        'It is archived. Take it back into care before a visit is planned.',
      );
    }
    return this.clock.today(pond.timeZone);
  }

  private async plannableTasks(
    companyId: CompanyId,
    pondId: PondId,
    taskIds: readonly TaskId[],
  ): Promise<CareTaskView[]> {
    const wanted = [...new Set(taskIds)];
    const tasks = await this.careTasks.byIds(companyId, wanted);
    const onVisits = await this.records.openVisitsOfTasks(companyId, wanted);
    for (const taskId of wanted) {
      const task = tasks.find((one) => one.task.id === taskId)?.task;
      if (!task) throw new TaskNotPlannableError(taskId, 'unknown');
      if (task.pondId !== pondId) throw new TaskNotPlannableError(taskId, 'other-pond');
      if (task.doneBy !== 'technician') throw new TaskNotPlannableError(taskId, 'homeowner');
      if (task.state !== 'NEEDS-ACTION') throw new TaskNotPlannableError(taskId, 'finished');
      if (onVisits.has(taskId)) throw new TaskNotPlannableError(taskId, 'on-another-visit');
    }
    return tasks;
  }

  private async memberOrNone(companyId: CompanyId, personId: PersonId | null): Promise<PersonId | null> {
    if (personId === null) return null;
    const members = await this.people.membersOf(companyId);
    if (members.some((member) => member.personId === personId)) return personId;
    throw new InvalidValueError('technician', personId, 'Choose a person of this company.');
  }

  private async taskIdsOf(visit: VisitEntity): Promise<TaskId[]> {
    return (await this.records.tasksOf(visit.companyId, visit.id)).map((task) => task.careTaskId);
  }

  private tellMoved(from: VisitEntity, to: VisitEntity): Promise<void> {
    const { companyId, pondId, id: visitId } = from;
    const isOtherTime = from.plannedOn !== to.plannedOn || from.fromTime !== to.fromTime || from.toTime !== to.toTime;
    const days = { fromDay: from.plannedOn, toDay: to.plannedOn };
    return this.news.tell('visit-moved', { companyId, pondId, visitId, ...days, isOtherTime });
  }

  private visitTask(visitId: VisitId, careTaskId: TaskId): Omit<VisitTaskEntity, 'companyId'> {
    const id = newId(this.clock.now().toMillis());
    return { id, visitId, careTaskId, outcome: null, doneShare: null, remark: '' };
  }
}

function minutesOf(tasks: readonly CareTaskView[], doneShares: ReadonlyMap<TaskId, number>): number {
  const work = tasks.map(({ task }) => restMinutes(task.planned.minutes, doneShares.get(task.id) ?? 0));
  return Math.round(SET_UP_MINUTES + work.reduce((sum, minutes) => sum + minutes, 0));
}

function shortText(field: string, text: string, longest: number): string {
  const trimmed = text.trim();
  if (trimmed.length <= longest) return trimmed;
  throw new InvalidValueError(field, `${trimmed.slice(0, 40)}…`, `Write at most ${longest} characters.`);
}
