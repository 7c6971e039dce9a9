import { Injectable } from '@nestjs/common';
import type { Actor } from '../accounts/index.js';
import type { CompanyId, PersonId, PondId, TaskId, VisitId } from '../platform/ids.js';
import type { ClosingAnswer } from './closing-answer.js';
import type { CloseVisit } from './closing-record.js';
import type { VisitEntity, VisitState } from './visit.entity.js';
import { VisitClosings } from './visit-closings.js';
import type { VisitTimes } from './visit-days.js';
import type { VisitListQuery } from './visit-list.js';
import { type NewVisit, type PlannedVisit, VisitPlanning } from './visit-planning.js';
import { type PondProposal, VisitProposals } from './visit-proposals.js';
import { type VisitHistory, type VisitListRow, type VisitReport, VisitReports } from './visit-reports.js';

/** The one door to visits: what may be asked of them, and which part answers. */
@Injectable()
export class VisitsService {
  constructor(
    private readonly proposals: VisitProposals,
    private readonly planning: VisitPlanning,
    private readonly closings: VisitClosings,
    private readonly reports: VisitReports,
  ) {}

  /** @see VisitProposals.proposalsFor */
  proposalsFor(companyId: CompanyId, pondId: PondId | null = null): Promise<PondProposal[]> {
    return this.proposals.proposalsFor(companyId, pondId);
  }

  create(companyId: CompanyId, visit: NewVisit): Promise<PlannedVisit> {
    return this.planning.create(companyId, visit);
  }

  assign(companyId: CompanyId, visitId: VisitId, technicianId: PersonId | null, expectedVersion?: number) {
    return this.planning.assign(companyId, visitId, technicianId, expectedVersion);
  }

  move(companyId: CompanyId, visitId: VisitId, to: VisitTimes, expectedVersion?: number): Promise<PlannedVisit> {
    return this.planning.move(companyId, visitId, to, expectedVersion);
  }

  addTask(companyId: CompanyId, visitId: VisitId, taskId: TaskId, expectedVersion?: number): Promise<PlannedVisit> {
    return this.planning.addTask(companyId, visitId, taskId, expectedVersion);
  }

  removeTask(companyId: CompanyId, visitId: VisitId, taskId: TaskId, expectedVersion?: number): Promise<PlannedVisit> {
    return this.planning.removeTask(companyId, visitId, taskId, expectedVersion);
  }

  publish(companyId: CompanyId, visitId: VisitId, expectedVersion?: number): Promise<PlannedVisit> {
    return this.planning.publish(companyId, visitId, expectedVersion);
  }

  cancel(companyId: CompanyId, visitId: VisitId, because: string, expectedVersion?: number): Promise<VisitEntity> {
    return this.planning.cancel(companyId, visitId, because, expectedVersion);
  }

  markOnTheWay(companyId: CompanyId, visitId: VisitId): Promise<VisitEntity> {
    return this.planning.markOnTheWay(companyId, visitId);
  }

  start(companyId: CompanyId, visitId: VisitId): Promise<VisitEntity> {
    return this.planning.start(companyId, visitId);
  }

  /** @see VisitClosings.close */
  close(actor: Actor, visitId: VisitId, closing: CloseVisit): Promise<ClosingAnswer> {
    return this.closings.close(actor, visitId, closing);
  }

  /** @see VisitClosings.reopen */
  reopen(actor: Actor, visitId: VisitId, why: string): Promise<VisitEntity> {
    return this.closings.reopen(actor, visitId, why);
  }

  get(companyId: CompanyId, visitId: VisitId): Promise<VisitReport> {
    return this.reports.get(companyId, visitId);
  }

  history(companyId: CompanyId, visitId: VisitId): Promise<VisitHistory> {
    return this.reports.history(companyId, visitId);
  }

  /** One day, or days from and to, both included. */
  roundFor(
    companyId: CompanyId,
    technicianId: PersonId,
    day: string | { readonly from: string; readonly to: string },
  ): Promise<VisitReport[]> {
    return this.reports.roundFor(companyId, technicianId, typeof day === 'string' ? { from: day, to: day } : day);
  }

  leftOpen(companyId: CompanyId, technicianId: PersonId, beforeDay: string): Promise<VisitReport[]> {
    return this.reports.leftOpen(companyId, technicianId, beforeDay);
  }

  ofPond(
    companyId: CompanyId,
    pondId: PondId,
    options?: { readonly states?: readonly VisitState[]; readonly take?: number },
  ): Promise<VisitReport[]> {
    return this.reports.ofPond(companyId, pondId, options);
  }

  list(companyId: CompanyId, query: VisitListQuery): Promise<{ rows: VisitListRow[]; total: number }> {
    return this.reports.list(companyId, query);
  }
}
