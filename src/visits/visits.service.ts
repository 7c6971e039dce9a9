import { Injectable } from '@nestjs/common';
import type { Actor } from '../accounts/index.js';
import type { CompanyId, PersonId, PondId, TaskId, VisitId } from '../platform/ids.js';
import type { ClosingAnswer } from './closing-answer.js';
import type { CloseVisit } from './closing-record.js';
import type { VisitEntity, VisitState } from './visit.entity.js';
import { VisitAttendance } from './visit-attendance.js';
import { VisitClosings } from './visit-closings.js';
import { type CorrectedRecord, VisitCorrections } from './visit-corrections.js';
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
    private readonly attendance: VisitAttendance,
    private readonly closings: VisitClosings,
    private readonly corrections: VisitCorrections,
    private readonly reports: VisitReports,
  ) {}

  /** @see VisitProposals.proposalsFor */
  proposalsFor(companyId: CompanyId, pondId: PondId | null = null): Promise<PondProposal[]> {
    return this.proposals.proposalsFor(companyId, pondId);
  }

  create(companyId: CompanyId, visit: NewVisit, by?: PersonId | null): Promise<PlannedVisit> {
    return this.planning.create(companyId, visit, by);
  }

  assign(
    companyId: CompanyId,
    visitId: VisitId,
    technicianId: PersonId | null,
    expectedVersion?: number,
    by?: PersonId | null,
  ) {
    return this.planning.assign(companyId, visitId, technicianId, expectedVersion, by);
  }

  move(
    companyId: CompanyId,
    visitId: VisitId,
    to: VisitTimes,
    expectedVersion?: number,
    by?: PersonId | null,
  ): Promise<PlannedVisit> {
    return this.planning.move(companyId, visitId, to, expectedVersion, by);
  }

  addTask(
    companyId: CompanyId,
    visitId: VisitId,
    taskId: TaskId,
    expectedVersion?: number,
    by?: PersonId | null,
  ): Promise<PlannedVisit> {
    return this.planning.addTask(companyId, visitId, taskId, expectedVersion, by);
  }

  removeTask(
    companyId: CompanyId,
    visitId: VisitId,
    taskId: TaskId,
    expectedVersion?: number,
    by?: PersonId | null,
  ): Promise<PlannedVisit> {
    return this.planning.removeTask(companyId, visitId, taskId, expectedVersion, by);
  }

  publish(
    companyId: CompanyId,
    visitId: VisitId,
    expectedVersion?: number,
    by?: PersonId | null,
  ): Promise<PlannedVisit> {
    return this.planning.publish(companyId, visitId, expectedVersion, by);
  }

  cancel(
    companyId: CompanyId,
    visitId: VisitId,
    because: string,
    expectedVersion?: number,
    by?: PersonId | null,
  ): Promise<VisitEntity> {
    return this.planning.cancel(companyId, visitId, because, expectedVersion, by);
  }

  markOnTheWay(companyId: CompanyId, visitId: VisitId, by?: PersonId | null): Promise<VisitEntity> {
    return this.attendance.markOnTheWay(companyId, visitId, by);
  }

  start(companyId: CompanyId, visitId: VisitId, by?: PersonId | null): Promise<VisitEntity> {
    return this.attendance.start(companyId, visitId, by);
  }

  /** @see VisitClosings.close */
  close(actor: Actor, visitId: VisitId, closing: CloseVisit): Promise<ClosingAnswer> {
    return this.closings.close(actor, visitId, closing);
  }

  /** @see VisitCorrections.reopen */
  reopen(actor: Actor, visitId: VisitId, why: string): Promise<VisitEntity> {
    return this.corrections.reopen(actor, visitId, why);
  }

  /** @see VisitCorrections.edit */
  edit(actor: Actor, visitId: VisitId, corrected: CorrectedRecord, expectedVersion?: number): Promise<ClosingAnswer> {
    return this.corrections.edit(actor, visitId, corrected, expectedVersion);
  }

  /** @see VisitCorrections.settleFlags */
  settleFlags(actor: Actor, visitId: VisitId): Promise<void> {
    return this.corrections.settleFlags(actor, visitId);
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
