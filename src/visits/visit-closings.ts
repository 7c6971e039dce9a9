import { Injectable } from '@nestjs/common';
import type { Actor } from '../accounts/index.js';
import type { CareTaskView } from '../care-calendar/index.js';
import { InvalidValueError } from '../core/errors.js';
import { isoDateOf } from '../core/units/civil-day.js';
import { actualsOf } from '../core/visits/task-actuals.js';
import { Database } from '../database/index.js';
import { Clock, civilDayIn, instantFrom } from '../platform/clock.js';
import { newId, type TaskId, type VisitId } from '../platform/ids.js';
import { PondsService, ReadingsService } from '../ponds/index.js';
import {
  answerOf,
  type ClosingAnswer,
  type ClosingEdit,
  flagsOf,
  type IncomingClosing,
  recordOf,
} from './closing-answer.js';
import { believableInstant, requireUsableClosing } from './closing-checks.js';
import { closingText, idOfChangedClosing } from './closing-identity.js';
import { mergedClosings } from './closing-merge.js';
import type { CloseVisit, ClosingFlag } from './closing-record.js';
import type { VisitEntity } from './visit.entity.js';
import { VisitCareTasks } from './visit-care-tasks.js';
import { VisitClosingEntity } from './visit-closing.entity.js';
import { VisitLeavings } from './visit-leavings.js';
import { VisitNews } from './visit-news.js';
import { VisitRecords } from './visit-records.js';
import { VisitTaskEntity } from './visit-task.entity.js';
import { VisitTrail } from './visit-trail.js';
import { ClosingIdTakenError } from './visits.errors.js';

/** Closing is one unit of work. A closing that can be read is never turned away for good. */
@Injectable()
export class VisitClosings {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
    private readonly ponds: PondsService,
    private readonly readings: ReadingsService,
    private readonly records: VisitRecords,
    private readonly careTasks: VisitCareTasks,
    private readonly leavings: VisitLeavings,
    private readonly trail: VisitTrail,
    private readonly news: VisitNews,
  ) {}

  /**
   * Keeps a closing and what it teaches: outcomes, readings, finished tasks, the calendar planned anew. Accepted from
   * every state: on a cancelled visit it is flagged, on a closed one kept as an amendment.
   * @throws VisitNotFoundError, ClosingIdTakenError, InvalidValueError, OutOfRangeError
   */
  async close(actor: Actor, visitId: VisitId, closing: CloseVisit): Promise<ClosingAnswer> {
    requireUsableClosing(closing);
    return this.database.unitOfWork('close a visit', async () => {
      const visit = await this.records.hold(actor.companyId, visitId);
      const kept = await this.keptBefore(visit, closing);
      if (kept) return answerOf(kept);
      return this.keep(actor, visit, closing);
    });
  }

  /** This very closing, when it came in before, perhaps changed since under the same id. */
  private async keptBefore(visit: VisitEntity, closing: CloseVisit): Promise<VisitClosingEntity | null> {
    const store = this.database.company(visit.companyId);
    const first = await store.findOne(VisitClosingEntity, { id: closing.closingId });
    if (!first) return null;
    if (first.visitId !== visit.id) throw new ClosingIdTakenError(closing.closingId);
    if (closingText(first.record) === closingText(closing)) return first;
    return store.findOne(VisitClosingEntity, { id: idOfChangedClosing(closing) });
  }

  /** Keeps a closing that is new, or the office's corrected record with `edit`. Inside the unit of work of a held visit. */
  async keep(actor: Actor, visit: VisitEntity, closing: CloseVisit, edit?: ClosingEdit): Promise<ClosingAnswer> {
    const { companyId } = actor;
    const receivedAt = this.clock.instant();
    const notBefore = visit.createdAt;
    const { at: closedAt, isBelieved } = believableInstant(closing.closedAt, { notBefore, receivedAt });
    const pond = await this.ponds.pond(companyId, visit.pondId);
    const on = isoDateOf(civilDayIn(instantFrom(closedAt), pond.timeZone));
    const incoming: IncomingClosing = { actor, visit, closing, on, closedAt, receivedAt, ...(edit && { edit }) };

    const tasks = await this.tasksSpokenOf(incoming);
    const flags = flagsOf(incoming, isBelieved);
    if (tasks.hasTakenOff && !edit) flags.push('task-taken-off');
    const row = await this.insertClosing(incoming, flags);
    await this.leavings.keep(incoming);
    const isFinished = await this.keepOutcomes(incoming, tasks.byId);
    const isMeasured = await this.keepReadings(incoming);
    // New readings have the pond planned anew by themselves.
    if ((isFinished || edit) && !isMeasured) await this.careTasks.replan(companyId, visit.pondId);
    if (visit.state === 'COMPLETED') await this.amend(incoming, row);
    else await this.complete(incoming, row);
    const step = edit ? 'edited' : row.record.flags?.includes('amendment') ? 'amended' : 'closed';
    const after = { closingId: row.id, closingVersion: row.closingVersion };
    await this.trail.note(visit, step, actor.personId, { after, because: edit?.because ?? '' });
    return answerOf(row);
  }

  private async complete({ visit, actor, closedAt }: IncomingClosing, row: VisitClosingEntity): Promise<void> {
    const { companyId, pondId, id: visitId } = visit;
    await this.records.change(visit, { state: 'COMPLETED', closedAt });
    await this.news.tell('visit-closed', {
      companyId,
      pondId,
      visitId,
      closingId: row.id,
      closingVersion: row.closingVersion,
      closedBy: actor.personId,
      isAgain: row.closingVersion > 1,
    });
  }

  private async amend({ visit }: IncomingClosing, row: VisitClosingEntity): Promise<void> {
    await this.records.change(visit, {});
    const { companyId, pondId, id: visitId } = visit;
    const { id: closingId, closingVersion } = row;
    await this.news.tell('visit-amended', { companyId, pondId, visitId, closingId, closingVersion });
  }

  private async tasksSpokenOf({ visit, closing }: IncomingClosing) {
    const ids = closing.tasks.map((task) => task.careTaskId);
    const tasks = await this.careTasks.byIds(visit.companyId, ids);
    const ofPond = tasks.filter(({ task }) => task.pondId === visit.pondId);
    const byId = new Map(ofPond.map((care) => [care.task.id, care]));
    const stranger = ids.find((id) => !byId.has(id));
    if (stranger !== undefined) {
      throw new InvalidValueError(
        'tasks',
        stranger,
        'This pond has no such task. Take it out and send the rest again.',
      );
    }
    const onVisit = new Set((await this.records.tasksOf(visit.companyId, visit.id)).map((task) => task.careTaskId));
    return { byId, hasTakenOff: ids.some((id) => !onVisit.has(id)) };
  }

  private async insertClosing(incoming: IncomingClosing, flags: readonly ClosingFlag[]): Promise<VisitClosingEntity> {
    const { actor, visit, closing, closedAt, receivedAt } = incoming;
    const store = this.database.company(visit.companyId);
    const earlier = await store.find(VisitClosingEntity, {
      where: { visitId: visit.id },
      order: { closingVersion: 'ASC' },
    });
    const isIdUsed = earlier.some((row) => row.id === closing.closingId);
    const row: VisitClosingEntity = {
      id: isIdUsed ? idOfChangedClosing(closing) : closing.closingId,
      companyId: visit.companyId,
      visitId: visit.id,
      closingVersion: earlier.length + 1,
      closedAt,
      closedBy: actor.personId,
      receivedAt,
      reopenedAt: null,
      reopenedBy: null,
      reopenedBecause: null,
      record: recordOf(incoming, flags),
    };
    const standing = earlier.filter((one) => one.reopenedAt === null);
    if (hasNewConflict(standing, row)) row.record = recordOf(incoming, [...flags, 'differs']);
    await this.refuseTakenIds(closing.closingId, () => store.insert(VisitClosingEntity, row));
    return row;
  }

  /** Answers whether any of them was new. */
  private async keepReadings({ actor, visit, closing, receivedAt, edit }: IncomingClosing): Promise<boolean> {
    const between = { notBefore: visit.createdAt, receivedAt };
    const readings = closing.readings.map(({ id, quantity, value, takenAt }) => {
      const { at } = believableInstant(takenAt, between);
      const replacesId = edit?.replaces.get(id) ?? null;
      return { id, quantity, value, takenAt: at, takenBy: actor.personId, visitId: visit.id, replacesId };
    });
    const add = () => this.readings.add(visit.companyId, visit.pondId, readings);
    return readings.length > 0 && (await this.refuseTakenIds(closing.closingId, add)).length > 0;
  }

  /**
   * What was done is finished in the calendar, the rest is free again. The first word counts: nothing done is undone.
   * Answers whether a task was finished.
   */
  private async keepOutcomes(incoming: IncomingClosing, byId: ReadonlyMap<TaskId, CareTaskView>): Promise<boolean> {
    const { visit, closing, on, actor, edit } = incoming;
    const { companyId } = visit;
    const standing = await this.records.tasksOf(companyId, visit.id);
    let isFinished = false;
    for (const said of closing.tasks) {
      const before = standing.find((task) => task.careTaskId === said.careTaskId);
      if (before?.outcome === 'done' || (before?.outcome === 'partly' && said.outcome !== 'done')) {
        await this.appendRemark(visit, before, said.remark);
        continue;
      }
      await this.keepOutcome(visit, said, before);
      const { task } = byId.get(said.careTaskId) as CareTaskView;
      if (said.outcome !== 'done' || task.state !== 'NEEDS-ACTION') continue;
      const actuals = actualsOf(task.planned, said.actuals);
      await this.careTasks.complete(companyId, task.id, { on, by: edit?.workBy ?? actor.personId, actuals });
      isFinished = true;
    }
    const after = await this.records.tasksOf(companyId, visit.id);
    const left = after.filter((task) => task.outcome !== 'done').map((task) => task.careTaskId);
    // A task the office has put on another visit meanwhile stays there.
    const free = (await this.careTasks.byIds(companyId, left)).filter(({ task }) => task.visitId === visit.id);
    await this.careTasks.putOn(
      companyId,
      free.map(({ task }) => task.id),
      null,
    );
    return isFinished;
  }

  private async keepOutcome(
    visit: VisitEntity,
    said: CloseVisit['tasks'][number],
    before: VisitTaskEntity | undefined,
  ): Promise<void> {
    const store = this.database.company(visit.companyId);
    const { outcome } = said;
    const remark = joinedRemarks(before?.remark ?? '', said.remark);
    const outcomes = { outcome, remark, doneShare: outcome === 'partly' ? said.doneShare : null };
    if (before) await store.update(VisitTaskEntity, { id: before.id }, outcomes);
    else {
      const row = { id: newId(this.clock.now().toMillis()), visitId: visit.id, careTaskId: said.careTaskId };
      await store.insert(VisitTaskEntity, { ...row, ...outcomes });
    }
  }

  private async appendRemark(visit: VisitEntity, before: VisitTaskEntity, remark: string): Promise<void> {
    const joined = joinedRemarks(before.remark, remark);
    if (joined === before.remark) return;
    await this.database.company(visit.companyId).update(VisitTaskEntity, { id: before.id }, { remark: joined });
  }

  private async refuseTakenIds<T>(closingId: string, write: () => Promise<T>): Promise<T> {
    try {
      return await write();
    } catch (error) {
      if (Database.isUniqueViolation(error)) throw new ClosingIdTakenError(closingId);
      throw error;
    }
  }
}

/** Whether a closing contradicts those that stand where they did not contradict each other. */
function hasNewConflict(standing: readonly VisitClosingEntity[], row: VisitClosingEntity): boolean {
  const before = mergedClosings(standing).conflicts.length;
  return standing.length > 0 && mergedClosings([...standing, row]).conflicts.length > before;
}

/** Remarks of several closings, each once. */
function joinedRemarks(before: string, said: string): string {
  return [...new Set([...before.split('\n'), said.trim()])].filter((line) => line !== '').join('\n');
}
