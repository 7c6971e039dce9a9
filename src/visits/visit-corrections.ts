import { Injectable } from '@nestjs/common';
import { IsNull } from 'typeorm';
import type { Actor } from '../accounts/index.js';
import { InvalidValueError } from '../core/errors.js';
import { Database } from '../database/index.js';
import { Clock, instantFrom } from '../platform/clock.js';
import { newId, type VisitId } from '../platform/ids.js';
import type { ClosingAnswer } from './closing-answer.js';
import { requireUsableClosing } from './closing-checks.js';
import { mergedClosings } from './closing-merge.js';
import type { CloseVisit } from './closing-record.js';
import type { VisitEntity } from './visit.entity.js';
import { VisitCareTasks } from './visit-care-tasks.js';
import { VisitClosingEntity } from './visit-closing.entity.js';
import { VisitClosings } from './visit-closings.js';
import { VisitLeavings } from './visit-leavings.js';
import { VisitNews } from './visit-news.js';
import { VisitRecords } from './visit-records.js';
import { requireStep } from './visit-states.js';
import { VisitTaskEntity } from './visit-task.entity.js';
import { VisitTrail } from './visit-trail.js';

const LONGEST_REASON = 500;

/** A visit's record as the office corrects it: what it should say, and why. */
export interface CorrectedRecord extends Pick<CloseVisit, 'note' | 'homeownerPresent' | 'tasks' | 'readings'> {
  readonly because: string;
}

/** What the office does to a closed visit. Each is one unit of work; every version of a closing is kept. */
@Injectable()
export class VisitCorrections {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
    private readonly records: VisitRecords,
    private readonly careTasks: VisitCareTasks,
    private readonly closings: VisitClosings,
    private readonly leavings: VisitLeavings,
    private readonly trail: VisitTrail,
    private readonly news: VisitNews,
  ) {}

  /**
   * Opens a closed visit again. Its closings stay, marked with who reopened them and why; the tasks they finished
   * are due again; readings stay; parts go back on the shelf.
   */
  async reopen(actor: Actor, visitId: VisitId, why: string): Promise<VisitEntity> {
    const because = requireReason(why);
    const { companyId } = actor;
    return this.database.unitOfWork('reopen a visit', async () => {
      const visit = await this.records.hold(companyId, visitId);
      requireStep('be reopened', visit);
      const changed = await this.setAside(actor, visit, because);
      await this.careTasks.replan(companyId, visit.pondId);
      await this.trail.noteChange(visit, changed, 'reopened', actor.personId, because);
      await this.news.tell('visit-reopened', { companyId, pondId: visit.pondId, visitId, why: because });
      return changed;
    });
  }

  /**
   * Puts a corrected record in the place of what the closings say; they are all kept beside it. Work stays the
   * technician's and the time of closing stays as it was; a corrected reading names the one it replaces.
   * @throws VisitChangedMeanwhileError, IllegalVisitStepError, InvalidValueError, OutOfRangeError
   */
  async edit(
    actor: Actor,
    visitId: VisitId,
    corrected: CorrectedRecord,
    expectedVersion?: number,
  ): Promise<ClosingAnswer> {
    const because = requireReason(corrected.because);
    const { companyId } = actor;
    return this.database.unitOfWork('correct a visit', async () => {
      const visit = await this.records.hold(companyId, visitId, expectedVersion);
      requireStep('be corrected', visit);
      const standing = await this.standingOf(visit);
      const merged = mergedClosings(standing);
      const { readings, replaces } = this.correctedReadings(corrected.readings, merged.readings);
      const closing: CloseVisit = {
        closingId: newId(this.clock.now().toMillis()),
        closedAt: visit.closedAt ?? this.clock.instant(),
        note: corrected.note,
        homeownerPresent: corrected.homeownerPresent,
        tasks: corrected.tasks,
        readings,
        parts: merged.parts,
        followUps: merged.followUps,
        arrivedAt: merged.arrivedAt,
        leftAt: merged.leftAt,
      };
      requireUsableClosing(closing);
      const reopened = await this.setAside(actor, visit, because);
      const workBy = standing[0]?.closedBy ?? visit.technicianId ?? actor.personId;
      return this.closings.keep(actor, reopened, closing, { because, workBy, replaces });
    });
  }

  /** The office has looked at what the closings of a visit are flagged for. */
  async settleFlags(actor: Actor, visitId: VisitId): Promise<void> {
    await this.database.unitOfWork('look at the flags of a visit', async () => {
      const visit = await this.records.hold(actor.companyId, visitId);
      const mark = { settledAt: this.clock.instant(), settledBy: actor.personId };
      const where = { visitId, reopenedAt: IsNull(), settledAt: IsNull() };
      const changed = await this.database.company(actor.companyId).update(VisitClosingEntity, where, mark);
      if (changed > 0) await this.trail.note(visit, 'flags-settled', actor.personId);
    });
  }

  private standingOf(visit: VisitEntity): Promise<VisitClosingEntity[]> {
    return this.database.company(visit.companyId).find(VisitClosingEntity, {
      where: { visitId: visit.id, reopenedAt: IsNull() },
      order: { closingVersion: 'ASC' },
    });
  }

  /** Marks the closings that stand, and frees what they had finished. The visit is then under way. */
  private async setAside(actor: Actor, visit: VisitEntity, because: string): Promise<VisitEntity> {
    const { companyId, id: visitId } = visit;
    const store = this.database.company(companyId);
    const mark = { reopenedAt: this.clock.instant(), reopenedBy: actor.personId, reopenedBecause: because };
    await store.update(VisitClosingEntity, { visitId, reopenedAt: IsNull() }, mark);
    const tasks = await this.records.tasksOf(companyId, visitId);
    await store.update(VisitTaskEntity, { visitId }, { outcome: null, doneShare: null, remark: '' });
    await this.leavings.putBack(companyId, visitId);
    const changed = await this.records.change(visit, { state: 'IN-PROCESS', closedAt: null });
    await this.reopenTasks(actor, changed, tasks);
    return changed;
  }

  /** Tasks this visit had finished are due again, and on it as before; those planned on another visit since stay there. */
  private async reopenTasks(actor: Actor, visit: VisitEntity, tasks: readonly VisitTaskEntity[]): Promise<void> {
    const { companyId, plannedOn: promisedOn } = visit;
    const ids = tasks.map((task) => task.careTaskId);
    const finished = tasks.filter((task) => task.outcome === 'done').map((task) => task.careTaskId);
    for (const { task } of await this.careTasks.byIds(companyId, finished)) {
      if (task.state === 'COMPLETED') await this.careTasks.reopen(companyId, task.id, actor.personId);
    }
    const elsewhere = (await this.careTasks.byIds(companyId, ids))
      .map(({ task }) => task)
      .filter((task) => task.visitId !== null && task.visitId !== visit.id)
      .map((task) => task.id);
    for (const careTaskId of elsewhere) {
      await this.database.company(companyId).remove(VisitTaskEntity, { visitId: visit.id, careTaskId });
    }
    const own = ids.filter((id) => !elsewhere.includes(id));
    await this.careTasks.putOn(companyId, own, { id: visit.id, promisedOn });
  }

  /** A reading whose figure was changed becomes a new one that replaces it; the others stay as they are. */
  private correctedReadings(typed: CloseVisit['readings'], kept: CloseVisit['readings']) {
    const replaces = new Map<string, string>();
    const readings = typed.map((reading) => {
      const before = kept.find(({ id }) => id === reading.id);
      if (!before || before.value === reading.value) return before ?? reading;
      const id = newId(instantFrom(before.takenAt).toMillis());
      replaces.set(id, before.id);
      return { ...before, id, value: reading.value };
    });
    return { readings, replaces };
  }
}

function requireReason(why: string): string {
  const because = why.trim();
  if (because !== '' && because.length <= LONGEST_REASON) return because;
  throw new InvalidValueError('reason', why.slice(0, 40), `Say why, in at most ${LONGEST_REASON} characters.`);
}
