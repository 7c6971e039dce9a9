import { Injectable } from '@nestjs/common';
import { In } from 'typeorm';
import { Database } from '../database/index.js';
import { Clock } from '../platform/clock.js';
import type { CompanyId, PondId, TaskId, VisitId } from '../platform/ids.js';
import { VisitEntity } from './visit.entity.js';
import { OPEN_STATES } from './visit-states.js';
import { VisitTaskEntity } from './visit-task.entity.js';
import { VisitChangedMeanwhileError, VisitNotFoundError } from './visits.errors.js';

type VisitChange = Partial<Omit<VisitEntity, 'id' | 'companyId' | 'pondId' | 'version' | 'createdAt' | 'updatedAt'>>;

/** Going back for a rest takes at least this. [min] */
const LEAST_REST_MINUTES = 5;

/** Work left of a task of which a share is done. [min] */
export function restMinutes(wholeMinutes: number, doneShare: number): number {
  if (doneShare <= 0) return wholeMinutes;
  return Math.min(wholeMinutes, Math.max(LEAST_REST_MINUTES, wholeMinutes * (1 - doneShare)));
}

/** Reading and writing visits; decides nothing. */
@Injectable()
export class VisitRecords {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
  ) {}

  /** @throws VisitNotFoundError */
  async get(companyId: CompanyId, visitId: VisitId): Promise<VisitEntity> {
    const visit = await this.database.company(companyId).findOne(VisitEntity, { id: visitId });
    if (!visit) throw new VisitNotFoundError(visitId);
    return visit;
  }

  /**
   * The visit as it stands now, held until the unit of work ends. Writing before reading makes a second unit wait
   * here on PostgreSQL too, where two would otherwise read the same state.
   * @throws VisitNotFoundError, VisitChangedMeanwhileError
   */
  async hold(companyId: CompanyId, visitId: VisitId, expectedVersion?: number): Promise<VisitEntity> {
    await this.database.company(companyId).update(VisitEntity, { id: visitId }, { version: () => 'version' });
    const visit = await this.get(companyId, visitId);
    if (expectedVersion !== undefined && expectedVersion !== visit.version) {
      throw new VisitChangedMeanwhileError(visitId, expectedVersion, visit.version);
    }
    return visit;
  }

  /** Changes a held visit and answers it as it is then. */
  async change(visit: VisitEntity, change: VisitChange): Promise<VisitEntity> {
    const changed = { ...change, updatedAt: this.clock.instant(), version: visit.version + 1 };
    await this.database.company(visit.companyId).update(VisitEntity, { id: visit.id }, changed);
    return { ...visit, ...changed };
  }

  tasksOf(companyId: CompanyId, visitId: VisitId): Promise<VisitTaskEntity[]> {
    return this.database.company(companyId).find(VisitTaskEntity, { where: { visitId }, order: { id: 'ASC' } });
  }

  /**
   * Which share of each of these tasks earlier visits have done, for those that are done in part; the rest is still due.
   * A task that is due a whole round later is another task and starts at nothing.
   */
  async doneShares(companyId: CompanyId, taskIds: readonly TaskId[]): Promise<ReadonlyMap<TaskId, number>> {
    if (taskIds.length === 0) return new Map();
    const partly = await this.database.company(companyId).find(VisitTaskEntity, {
      where: { careTaskId: In([...taskIds]), outcome: 'partly' },
    });
    const shares = new Map<TaskId, number>();
    for (const { careTaskId, doneShare } of partly) {
      shares.set(careTaskId, Math.min(1, (shares.get(careTaskId) ?? 0) + (doneShare ?? 0)));
    }
    return shares;
  }

  /** Visits of one pond, or of all, that are planned or confirmed. */
  openVisitsOf(companyId: CompanyId, pondId: PondId | null): Promise<VisitEntity[]> {
    return this.database.company(companyId).find(VisitEntity, {
      where: { state: In(['TENTATIVE', 'CONFIRMED']), ...(pondId !== null && { pondId }) },
      order: { plannedOn: 'ASC', id: 'ASC' },
    });
  }

  /** The open visit of each of these tasks that is on one. */
  async openVisitsOfTasks(companyId: CompanyId, taskIds: readonly TaskId[]): Promise<ReadonlyMap<TaskId, VisitEntity>> {
    if (taskIds.length === 0) return new Map();
    const store = this.database.company(companyId);
    const onVisits = await store.find(VisitTaskEntity, { where: { careTaskId: In([...taskIds]) } });
    const visits = await store.find(VisitEntity, {
      where: { id: In(onVisits.map((one) => one.visitId)), state: In([...OPEN_STATES]) },
    });
    const byId = new Map(visits.map((visit) => [visit.id, visit]));
    return new Map(
      onVisits.flatMap(({ careTaskId, visitId }) => {
        const visit = byId.get(visitId);
        return visit ? [[careTaskId, visit] as const] : [];
      }),
    );
  }
}
