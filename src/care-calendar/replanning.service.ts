import { setImmediate as nextTurn } from 'node:timers/promises';
import { Injectable } from '@nestjs/common';
import { CompaniesService } from '../accounts/index.js';
import type { CarePlan, PlannedTask } from '../core/care/care-plan.js';
import type { CareRule } from '../core/care/care-rule.js';
import { reconcile } from '../core/care/reconcile.js';
import type { PlanChange } from '../core/care/standing-task.js';
import { type CivilDay, isoDateOf } from '../core/units/civil-day.js';
import { Database } from '../database/index.js';
import { Clock } from '../platform/clock.js';
import { type CompanyId, newId, type PondId } from '../platform/ids.js';
import {
  PondEventsService,
  type PondInput,
  type PondRecord,
  PondsService,
  ReadingsService,
  timeZoneOf,
  unsavedRecord,
} from '../ponds/index.js';
import { CalendarStoreService } from './calendar-store.service.js';
import type { CareTaskEntity } from './care-task.entity.js';
import { lostRule } from './care-task-view.js';
import type { OutlookSummary } from './outlook-summary.js';
import { type PlannedPond, PondPlannerService } from './pond-planner.service.js';
import { careHistory, standingTasks } from './standing-tasks.js';

export interface ReplanOptions {
  /** Plan as on this day instead of today in the pond's zone. */
  readonly asOf?: CivilDay;
}

export interface ReplanAllReport {
  readonly ponds: number;
  /** Ponds whose calendar changed. */
  readonly pondsChanged: number;
  readonly changes: number;
  /** Ponds that could not be planned, with the reason; the others are planned all the same. */
  readonly failed: readonly { readonly pondId: PondId; readonly reason: string }[];
}

/** The calendar a pond would get; nothing is stored. */
export interface CarePreview {
  readonly plan: CarePlan;
  readonly outlook: OutlookSummary;
  readonly tasks: readonly { readonly task: PlannedTask; readonly rule: CareRule }[];
}

/** Brings stored calendars up to date: load, forecast, plan, reconcile, save, in one unit of work a pond. */
@Injectable()
export class ReplanningService {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
    private readonly companies: CompaniesService,
    private readonly ponds: PondsService,
    private readonly readings: ReadingsService,
    private readonly events: PondEventsService,
    private readonly planner: PondPlannerService,
    private readonly store: CalendarStoreService,
  ) {}

  /** With nothing new it writes nothing. An archived pond keeps its calendar as it stands. */
  async replan(companyId: CompanyId, pondId: PondId, options: ReplanOptions = {}): Promise<readonly PlanChange[]> {
    return this.database.unitOfWork('replan pond', async () => {
      const record = await this.ponds.get(companyId, pondId);
      if (record.pond.state === 'archived') return [];
      const today = options.asOf ?? this.clock.today(record.pond.timeZone);
      const tasks = await this.store.tasks(companyId, pondId);
      const planned = await this.planRecord(companyId, record, tasks, today);

      const changes = reconcile({ standing: standingTasks(tasks), plan: planned.plan, today });
      if (changes.length > 0) await this.store.save(companyId, pondId, changes, { tasks, today });
      await this.store.saveOutcome(companyId, pondId, planned);
      if (record.pond.winterKey !== planned.winter.winterKey) {
        await this.ponds.noteWinter(companyId, pondId, planned.winter);
      }
      return changes;
    });
  }

  /** Every active pond of a company, each in its own unit of work, so that other work gets its turn in between. */
  async replanAll(
    companyId: CompanyId,
    options: ReplanOptions & { readonly onProgress?: (progress: { done: number; total: number }) => void } = {},
  ): Promise<ReplanAllReport> {
    const pondIds = await this.ponds.activeIds(companyId);
    const step = (done: number) => options.onProgress?.({ done, total: pondIds.length });
    return this.replanThese(companyId, pondIds, options, step);
  }

  async replanThese(
    companyId: CompanyId,
    pondIds: readonly PondId[],
    options: ReplanOptions,
    step: (done: number) => void,
  ): Promise<ReplanAllReport> {
    let pondsChanged = 0;
    let changes = 0;
    const failed: { pondId: PondId; reason: string }[] = [];
    for (const [i, pondId] of pondIds.entries()) {
      try {
        const made = await this.replan(companyId, pondId, options);
        changes += made.length;
        if (made.length > 0) pondsChanged += 1;
      } catch (error) {
        failed.push({ pondId, reason: (error as Error).message });
      }
      step(i + 1);
      await nextTurn();
    }
    return { ponds: pondIds.length, pondsChanged, changes, failed };
  }

  /** What would be planned on a day with what was known then. Stores nothing. */
  async planAsOf(companyId: CompanyId, pondId: PondId, asOf?: CivilDay): Promise<PlannedPond> {
    const record = await this.ponds.get(companyId, pondId);
    const tasks = await this.store.tasks(companyId, pondId);
    return this.planRecord(companyId, record, tasks, asOf ?? this.clock.today(record.pond.timeZone));
  }

  /** The first year of a pond as typed, before it is saved. With the id it will be saved under, the very same calendar. */
  async preview(
    companyId: CompanyId,
    input: PondInput,
    given: { readonly pondId?: PondId } = {},
  ): Promise<CarePreview> {
    const today = this.clock.today(timeZoneOf(input));
    const record = unsavedRecord(companyId, input, {
      pondId: given.pondId ?? newId(),
      today: isoDateOf(today),
      instant: this.clock.instant(),
    });
    const company = await this.companies.get(companyId);
    const { plan, outlook } = this.planner.plan(record, { finished: [], readings: [], events: [] }, company, today);
    const tasks = plan.tasks.map((task) => ({ task, rule: this.planner.rule(task.ruleId) ?? lostRule(task.ruleId) }));
    return { plan, outlook, tasks };
  }

  private async planRecord(
    companyId: CompanyId,
    record: PondRecord,
    tasks: readonly CareTaskEntity[],
    today: CivilDay,
  ): Promise<PlannedPond> {
    const pondId = record.pond.id;
    const readings = await this.readings.list(companyId, pondId);
    const events = await this.events.list(companyId, pondId);
    const company = await this.companies.get(companyId);
    const history = careHistory({ tasks, readings, events }, record.pond, today);
    return this.planner.plan(record, history, company, today);
  }
}
