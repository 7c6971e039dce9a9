import { Injectable, type OnModuleInit } from '@nestjs/common';
import type { PlanChange } from '../core/care/standing-task.js';
import type { CivilDay } from '../core/units/civil-day.js';
import { Database } from '../database/index.js';
import type { CompanyId, PersonId, PondId, TaskId, VisitId } from '../platform/ids.js';
import { AppLogger } from '../platform/logger.js';
import { type PondInput, PondNews } from '../ponds/index.js';
import type { CareTaskView } from './care-task-view.js';
import { PlanLogEntity } from './plan-log.entity.js';
import { PlanOutcomeEntity } from './plan-outcome.entity.js';
import type { PlannedPond } from './pond-planner.service.js';
import { type CarePreview, type ReplanAllReport, ReplanningService, type ReplanOptions } from './replanning.service.js';
import { type ActOptions, TaskActsService, type TaskDone } from './task-acts.service.js';
import { type DueQuery, TaskViewsService, type ThisWeek } from './task-views.service.js';

type Progress = (progress: { done: number; total: number }) => void;

/** The care calendars of a company: the one door to planning, tasks and what is due. Dates are civil dates, ISO. */
@Injectable()
export class CareCalendarService implements OnModuleInit {
  constructor(
    private readonly database: Database,
    private readonly news: PondNews,
    private readonly replanning: ReplanningService,
    private readonly acts: TaskActsService,
    private readonly views: TaskViewsService,
    private readonly logger: AppLogger,
  ) {}

  /** A pond that changed or was measured is planned anew inside the same unit of work; imported ones afterwards. */
  onModuleInit(): void {
    this.news.on('pond-changed', async ({ companyId, pondId }) => {
      await this.replan(companyId, pondId, { isRecordChanged: true });
    });
    this.news.on('reading-taken', async ({ companyId, pondId }) => {
      await this.replan(companyId, pondId);
    });
    this.news.on('ponds-imported', async ({ companyId, pondIds, step }) => {
      const { failed } = await this.replanning.replanThese(companyId, pondIds, {}, step);
      for (const { pondId, reason } of failed) this.logger.warn(`pond ${pondId}: ${reason}`, 'calendars of an import');
    });
  }

  replan(companyId: CompanyId, pondId: PondId, options?: ReplanOptions): Promise<readonly PlanChange[]> {
    return this.replanning.replan(companyId, pondId, options);
  }

  replanAll(
    companyId: CompanyId,
    options?: ReplanOptions & { readonly onProgress?: Progress },
  ): Promise<ReplanAllReport> {
    return this.replanning.replanAll(companyId, options);
  }

  /** What would be planned on a day, with what was known then; stores nothing. */
  planAsOf(companyId: CompanyId, pondId: PondId, asOf?: CivilDay): Promise<PlannedPond> {
    return this.replanning.planAsOf(companyId, pondId, asOf);
  }

  preview(companyId: CompanyId, input: PondInput, given?: { readonly pondId?: PondId }): Promise<CarePreview> {
    return this.replanning.preview(companyId, input, given);
  }

  tasksOf(companyId: CompanyId, pondId: PondId, query?: { finished?: boolean }): Promise<CareTaskView[]> {
    return this.views.ofPond(companyId, pondId, query);
  }

  task(companyId: CompanyId, taskId: TaskId): Promise<CareTaskView> {
    return this.views.one(companyId, taskId);
  }

  /** In the order of the ids; unknown ones are left out. */
  tasks(companyId: CompanyId, taskIds: readonly TaskId[]): Promise<CareTaskView[]> {
    return this.views.byIds(companyId, taskIds);
  }

  /** What the last planning found besides tasks: why rules give none, conflicts, findings, the outlook. */
  outcomeOf(companyId: CompanyId, pondId: PondId): Promise<PlanOutcomeEntity | null> {
    return this.database.company(companyId).findOne(PlanOutcomeEntity, { pondId });
  }

  /** The plan log of a pond, latest first. */
  log(companyId: CompanyId, pondId: PondId, atMost = 100): Promise<PlanLogEntity[]> {
    return this.database
      .company(companyId)
      .find(PlanLogEntity, { where: { pondId }, order: { loggedAt: 'DESC', id: 'DESC' }, take: atMost });
  }

  complete(companyId: CompanyId, taskId: TaskId, done: TaskDone, options?: ActOptions): Promise<void> {
    return this.acts.complete(companyId, taskId, done, options);
  }

  reopen(
    companyId: CompanyId,
    taskId: TaskId,
    given: { readonly by: PersonId; readonly anyDay?: boolean },
    options?: ActOptions,
  ): Promise<void> {
    return this.acts.reopen(companyId, taskId, given, options);
  }

  cancel(
    companyId: CompanyId,
    taskId: TaskId,
    given: { readonly by: PersonId; readonly because: 'done-by-other-means' | 'not-applicable' | 'superseded' },
    options?: ActOptions,
  ): Promise<void> {
    return this.acts.cancel(companyId, taskId, given, options);
  }

  putOff(companyId: CompanyId, taskId: TaskId, until: string): Promise<void> {
    return this.acts.putOff(companyId, taskId, until);
  }

  hold(companyId: CompanyId, taskId: TaskId, on: string): Promise<void> {
    return this.acts.hold(companyId, taskId, on);
  }

  release(companyId: CompanyId, taskId: TaskId): Promise<void> {
    return this.acts.release(companyId, taskId);
  }

  promise(
    companyId: CompanyId,
    taskIds: readonly TaskId[],
    on: string,
    given?: { readonly byMail?: boolean },
  ): Promise<void> {
    return this.acts.promise(companyId, taskIds, on, given);
  }

  releasePromise(companyId: CompanyId, taskIds: readonly TaskId[]): Promise<void> {
    return this.acts.releasePromise(companyId, taskIds);
  }

  putOnVisit(companyId: CompanyId, taskIds: readonly TaskId[], visitId: VisitId | null): Promise<void> {
    return this.acts.putOnVisit(companyId, taskIds, visitId);
  }

  /** Open technician's tasks of active ponds by the day they are to be done, those of earlier days included. */
  dueForTechnicians(companyId: CompanyId, query: DueQuery): Promise<CareTaskView[]> {
    return this.views.dueFor(companyId, 'technician', query);
  }

  /** The same for the homeowner's tasks of some ponds. */
  dueForHomeowner(companyId: CompanyId, pondIds: readonly PondId[], query: DueQuery): Promise<CareTaskView[]> {
    return this.views.dueFor(companyId, 'homeowner', query, pondIds);
  }

  /** @see TaskViewsService.inSpan */
  homeownerTasksInSpan(
    companyId: CompanyId,
    pondIds: readonly PondId[],
    span: { readonly from: string; readonly to: string },
  ): Promise<CareTaskView[]> {
    return this.views.inSpan(companyId, 'homeowner', span, pondIds);
  }

  thisWeek(companyId: CompanyId): Promise<ThisWeek> {
    return this.views.thisWeek(companyId);
  }
}
