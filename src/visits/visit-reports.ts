import { Injectable } from '@nestjs/common';
import { In } from 'typeorm';
import { PeopleService } from '../accounts/index.js';
import type { CareTaskView } from '../care-calendar/index.js';
import { taskTitle } from '../core/care/explain.js';
import { Database } from '../database/index.js';
import type { CompanyId, PersonId, PondId, VisitId } from '../platform/ids.js';
import { PondEntity, type PondRecord, PondsService, ReadingEntity } from '../ponds/index.js';
import { type MergedRecord, mergedClosings } from './closing-merge.js';
import type { VisitPartEntity } from './parts/visit-part.entity.js';
import type { VisitPhotoEntity } from './photos/visit-photo.entity.js';
import { VisitPhotos } from './photos/visit-photos.service.js';
import { VisitEntity, type VisitState } from './visit.entity.js';
import { VisitCareTasks } from './visit-care-tasks.js';
import type { VisitChangeEntity } from './visit-change.entity.js';
import { VisitClosingEntity } from './visit-closing.entity.js';
import type { VisitFollowUpEntity } from './visit-follow-up.entity.js';
import { VisitLeavings } from './visit-leavings.js';
import { narrowed, pageOf, type VisitListQuery } from './visit-list.js';
import { VisitRecords } from './visit-records.js';
import { VisitTaskEntity } from './visit-task.entity.js';
import { VisitTrail } from './visit-trail.js';

/** A task on a visit: what is planned with its rule, and what became of it. */
export interface TaskOnVisit {
  readonly onVisit: VisitTaskEntity;
  readonly care: CareTaskView;
}

/** A visit with all a person needs to see of it. */
export interface VisitReport {
  readonly visit: VisitEntity;
  readonly pond: PondRecord;
  readonly tasks: readonly TaskOnVisit[];
  readonly technicianName: string | null;
}

/** Every version of a visit's closing, oldest first, with who sent it. */
export interface VisitHistory extends VisitReport {
  readonly closings: readonly (VisitClosingEntity & {
    readonly closedByName: string;
    readonly reopenedByName: string | null;
  })[];
  /** Readings taken on the visit, oldest first. */
  readonly readings: readonly ReadingEntity[];
  /** What the closings that stand say together, with names for who said it. */
  readonly merged: MergedRecord;
  readonly parts: readonly VisitPartEntity[];
  readonly followUps: readonly VisitFollowUpEntity[];
  /** Without those that were removed, oldest first. */
  readonly photos: readonly VisitPhotoEntity[];
  readonly trail: readonly TrailLine[];
}

/** One line of the trail with the name of who did it; null where the program did. */
export interface TrailLine extends VisitChangeEntity {
  readonly changedByName: string | null;
}

export interface VisitListRow {
  readonly visit: VisitEntity;
  readonly pond: Pick<PondEntity, 'id' | 'name' | 'town' | 'timeZone'>;
  readonly technicianName: string | null;
  readonly taskTitles: readonly string[];
  /** Closed with something the office should look at. */
  readonly isFlagged: boolean;
}

const ON_A_ROUND: readonly VisitState[] = ['CONFIRMED', 'IN-PROCESS', 'COMPLETED', 'CANCELLED'];
const MOST_STOPS = 200;

/** Visits as people look at them. Changes nothing. */
@Injectable()
export class VisitReports {
  constructor(
    private readonly database: Database,
    private readonly ponds: PondsService,
    private readonly people: PeopleService,
    private readonly records: VisitRecords,
    private readonly careTasks: VisitCareTasks,
    private readonly leavings: VisitLeavings,
    private readonly photos: VisitPhotos,
    private readonly trail: VisitTrail,
  ) {}

  /** @throws VisitNotFoundError */
  async get(companyId: CompanyId, visitId: VisitId): Promise<VisitReport> {
    const [report] = await this.reportsOf(companyId, [await this.records.get(companyId, visitId)]);
    return report as VisitReport;
  }

  /** @throws VisitNotFoundError */
  async history(companyId: CompanyId, visitId: VisitId): Promise<VisitHistory> {
    const report = await this.get(companyId, visitId);
    const store = this.database.company(companyId);
    const closings = await store.find(VisitClosingEntity, { where: { visitId }, order: { closingVersion: 'ASC' } });
    const taken = await store.find(ReadingEntity, { where: { visitId }, order: { takenAt: 'ASC', id: 'ASC' } });
    const replaced = new Set(taken.map(({ replacesId }) => replacesId));
    const trail = await this.trail.of(companyId, visitId);
    const names = await this.namesOf([
      ...closings.flatMap(({ closedBy, reopenedBy }) => [closedBy, reopenedBy]),
      ...trail.map(({ changedBy }) => changedBy),
    ]);
    const nameOf = (id: PersonId | null) => (id && names.get(id)) || null;
    const standing = closings.filter(({ reopenedAt }) => reopenedAt === null);
    return {
      ...report,
      readings: taken.filter(({ id }) => !replaced.has(id)),
      merged: mergedClosings(standing.map((one) => ({ ...one, closedBy: nameOf(one.closedBy) ?? '' }))),
      parts: await this.leavings.partsOf(companyId, [visitId]),
      followUps: await this.leavings.followUpsOf(companyId, visitId),
      photos: await this.photos.ofVisit(companyId, visitId),
      trail: trail.map((line) => ({ ...line, changedByName: nameOf(line.changedBy) })),
      closings: closings.map((closing) => ({
        ...closing,
        closedByName: nameOf(closing.closedBy) ?? '',
        reopenedByName: nameOf(closing.reopenedBy),
      })),
    };
  }

  /** The published visits of one technician on days from and to, both included, in the order of day and told time. */
  async roundFor(
    companyId: CompanyId,
    technicianId: PersonId,
    days: { readonly from: string; readonly to: string },
  ): Promise<VisitReport[]> {
    const visits = await this.database
      .company(companyId)
      .select(VisitEntity, 'visit')
      .and('visit.technicianId = :technicianId', { technicianId })
      .and('visit.plannedOn BETWEEN :from AND :to', days)
      .and('visit.publishedAt IS NOT NULL OR visit.state = :closed', { closed: 'COMPLETED' })
      .page(0, MOST_STOPS)
      .orderBy('plannedOn')
      .orderBy('id')
      .rows();
    const stops = visits.filter((visit) => ON_A_ROUND.includes(visit.state)).sort(inOrderOfRound);
    return this.reportsOf(companyId, stops);
  }

  /** Published visits of earlier days that were never closed. */
  async leftOpen(companyId: CompanyId, technicianId: PersonId, beforeDay: string): Promise<VisitReport[]> {
    const visits = await this.database.company(companyId).find(VisitEntity, {
      where: { technicianId, state: In(['CONFIRMED', 'IN-PROCESS']) },
      order: { plannedOn: 'ASC', id: 'ASC' },
      take: MOST_STOPS,
    });
    return this.reportsOf(
      companyId,
      visits.filter((visit) => visit.plannedOn < beforeDay),
    );
  }

  /** Visits of one pond, newest first; only those of these states where given. */
  async ofPond(
    companyId: CompanyId,
    pondId: PondId,
    options: { readonly states?: readonly VisitState[]; readonly take?: number } = {},
  ): Promise<VisitReport[]> {
    const states = options.states ? { state: In([...options.states]) } : {};
    const visits = await this.database.company(companyId).find(VisitEntity, {
      where: { pondId, ...states },
      order: { plannedOn: 'DESC', id: 'DESC' },
      take: options.take ?? 50,
    });
    return this.reportsOf(companyId, visits);
  }

  /** One page of visits and how many match in all. */
  async list(companyId: CompanyId, query: VisitListQuery): Promise<{ rows: VisitListRow[]; total: number }> {
    const { skip, take } = pageOf(query);
    const select = () => narrowed(this.database.company(companyId).select(VisitEntity, 'visit'), query);
    const total = await select().count();
    const visits = await select().orderBy('plannedOn').orderBy('fromTime').orderBy('id').page(skip, take).rows();
    return { rows: await this.listRows(companyId, visits), total };
  }

  private async listRows(companyId: CompanyId, visits: readonly VisitEntity[]): Promise<VisitListRow[]> {
    if (visits.length === 0) return [];
    const store = this.database.company(companyId);
    const ids = visits.map((visit) => visit.id);
    const ponds = await store.find(PondEntity, { where: { id: In(visits.map((visit) => visit.pondId)) } });
    const onVisits = await store.find(VisitTaskEntity, { where: { visitId: In(ids) }, order: { id: 'ASC' } });
    const closings = await store.find(VisitClosingEntity, { where: { visitId: In(ids) } });
    const tasks = await this.careTasks.byIds(
      companyId,
      onVisits.map((one) => one.careTaskId),
    );
    const names = await this.namesOf(visits.map((visit) => visit.technicianId));
    const titleOf = new Map(tasks.map(({ task, rule }) => [task.id, taskTitle(task.planned, rule)]));
    return visits.map((visit) => ({
      visit,
      pond: ponds.find((pond) => pond.id === visit.pondId) as PondEntity,
      technicianName: (visit.technicianId && names.get(visit.technicianId)) || null,
      taskTitles: onVisits.filter((one) => one.visitId === visit.id).map((one) => titleOf.get(one.careTaskId) ?? ''),
      isFlagged: closings.some((closing) => closing.visitId === visit.id && isOpenlyFlagged(closing)),
    }));
  }

  private async reportsOf(companyId: CompanyId, visits: readonly VisitEntity[]): Promise<VisitReport[]> {
    const names = await this.namesOf(visits.map((visit) => visit.technicianId));
    const reports: VisitReport[] = [];
    for (const visit of visits) {
      const onVisit = await this.records.tasksOf(companyId, visit.id);
      const tasks = await this.careTasks.byIds(
        companyId,
        onVisit.map((one) => one.careTaskId),
      );
      const byId = new Map(tasks.map((care) => [care.task.id, care]));
      reports.push({
        visit,
        pond: await this.ponds.get(companyId, visit.pondId),
        tasks: onVisit.map((one) => ({ onVisit: one, care: byId.get(one.careTaskId) as CareTaskView })),
        technicianName: (visit.technicianId && names.get(visit.technicianId)) || null,
      });
    }
    return reports;
  }

  private async namesOf(ids: readonly (PersonId | null)[]): Promise<ReadonlyMap<PersonId, string>> {
    const people = await this.people.byIds([...new Set(ids.filter((id) => id !== null))]);
    return new Map([...people].map(([id, person]) => [id, person.name]));
  }
}

/** Something the office should look at and has not yet. */
export function isOpenlyFlagged(closing: Pick<VisitClosingEntity, 'reopenedAt' | 'settledAt' | 'record'>): boolean {
  return closing.reopenedAt === null && !closing.settledAt && (closing.record.flags?.length ?? 0) > 0;
}

/** By day and told time; visits without one after those with one. */
function inOrderOfRound(a: VisitEntity, b: VisitEntity): number {
  const [first, second] = [a, b].map(({ plannedOn, fromTime, id }) => `${plannedOn} ${fromTime ?? '99:99'} ${id}`);
  return (first as string) < (second as string) ? -1 : 1;
}
