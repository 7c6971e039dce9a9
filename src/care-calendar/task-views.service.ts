import { Injectable } from '@nestjs/common';
import { In } from 'typeorm';
import { addDays, civilDay, isoDateOf } from '../core/units/civil-day.js';
import { Database } from '../database/index.js';
import { Clock } from '../platform/clock.js';
import type { CompanyId, PondId, TaskId } from '../platform/ids.js';
import { PondEntity } from '../ponds/index.js';
import { CareTaskNotFoundError } from './care-calendar.errors.js';
import { CareTaskEntity } from './care-task.entity.js';
import { type CareTaskView, effectiveDueOn, effectiveLatestOn, lostRule } from './care-task-view.js';
import { PondPlannerService } from './pond-planner.service.js';

export interface DueQuery {
  /** ISO dates, inclusive. */
  readonly from: string;
  readonly to: string;
  /** Also unfinished tasks whose day lies before `from`; true unless said otherwise. */
  readonly withEarlier?: boolean;
}

export interface ThisWeek {
  /** Past their last day, homeowner's and technician's. */
  readonly late: CareTaskView[];
  /** Technician's tasks whose last day lies within the week and that are on no visit. */
  readonly atRisk: CareTaskView[];
  /** Urgent and open. */
  readonly urgent: CareTaskView[];
}

/** The day a task is to be done, in SQL: the same as `effectiveDueOn`. */
const DUE_ON =
  'COALESCE(task.heldDueOn, CASE WHEN task.putOffUntil > task.dueOn THEN task.putOffUntil ELSE task.dueOn END)';
const WEEK_DAYS = 7;
/** Zones lie up to a day apart: lists are cut by date in SQL with this much slack, then by each pond's own day. [days] */
const ZONE_SLACK_DAYS = 1;
const KEYS_PER_QUERY = 500;

/** Reads tasks of the calendar, with their rules and ponds. */
@Injectable()
export class TaskViewsService {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
    private readonly planner: PondPlannerService,
  ) {}

  /** Tasks of a pond: open ones by day, or finished ones, latest first. Those the planner took away are left out. */
  async ofPond(companyId: CompanyId, pondId: PondId, query: { finished?: boolean } = {}): Promise<CareTaskView[]> {
    const select = this.database
      .company(companyId)
      .select(CareTaskEntity, 'task')
      .and('task.pondId = :pondId', { pondId });
    if (query.finished) {
      select.and("task.state <> 'NEEDS-ACTION'").and("task.state = 'COMPLETED' OR task.finishedBy IS NOT NULL");
      return this.views(companyId, await select.orderBy('finishedOn', 'DESC').orderBy('id', 'DESC').rows());
    }
    const views = await this.views(companyId, await select.and("task.state = 'NEEDS-ACTION'").rows());
    return views.sort(byDueDay);
  }

  /** @throws CareTaskNotFoundError */
  async one(companyId: CompanyId, taskId: TaskId): Promise<CareTaskView> {
    const task = await this.database.company(companyId).findOne(CareTaskEntity, { id: taskId });
    if (!task) throw new CareTaskNotFoundError(taskId);
    return (await this.views(companyId, [task]))[0] as CareTaskView;
  }

  /** In the order of the ids; unknown ones are left out. */
  async byIds(companyId: CompanyId, taskIds: readonly TaskId[]): Promise<CareTaskView[]> {
    const tasks = await this.database.company(companyId).find(CareTaskEntity, { where: { id: In([...taskIds]) } });
    const byId = new Map((await this.views(companyId, tasks)).map((view) => [view.task.id, view]));
    return taskIds.flatMap((id) => byId.get(id) ?? []);
  }

  async dueFor(
    companyId: CompanyId,
    doneBy: CareTaskEntity['doneBy'],
    query: DueQuery,
    pondIds?: readonly PondId[],
  ): Promise<CareTaskView[]> {
    if (pondIds && pondIds.length === 0) return [];
    const select = this.openTasks(companyId).and('task.doneBy = :doneBy', { doneBy });
    select.and(`${DUE_ON} <= :to`, { to: query.to });
    if (query.withEarlier === false) select.and(`${DUE_ON} >= :from`, { from: query.from });
    if (pondIds) select.and('task.pondId IN (:...pondIds)', { pondIds: [...pondIds] });
    return (await this.views(companyId, await select.rows())).sort(byDueDay);
  }

  /**
   * Tasks whose day lies between two days, both included: open ones, late ones among them, and those a person has
   * finished or cancelled. In the order of the day.
   */
  async inSpan(
    companyId: CompanyId,
    doneBy: CareTaskEntity['doneBy'],
    span: { readonly from: string; readonly to: string },
    pondIds: readonly PondId[],
  ): Promise<CareTaskView[]> {
    const tasks: CareTaskEntity[] = [];
    for (let first = 0; first < pondIds.length; first += KEYS_PER_QUERY) {
      const some = await this.database
        .company(companyId)
        .select(CareTaskEntity, 'task')
        .and('task.doneBy = :doneBy', { doneBy })
        .and('task.pondId IN (:...pondIds)', { pondIds: pondIds.slice(first, first + KEYS_PER_QUERY) })
        .and(`${DUE_ON} <= :to`, { to: span.to })
        .and(`task.state = 'NEEDS-ACTION' OR ${DUE_ON} >= :from`, { from: span.from })
        .and("task.state = 'NEEDS-ACTION' OR task.state = 'COMPLETED' OR task.finishedBy IS NOT NULL")
        .rows();
      tasks.push(...some);
    }
    return (await this.views(companyId, tasks)).sort(byDueDay);
  }

  async thisWeek(companyId: CompanyId): Promise<ThisWeek> {
    const todayUtc = this.clock.today('UTC');
    const horizon = isoDateOf(addDays(todayUtc, WEEK_DAYS + ZONE_SLACK_DAYS));
    const rows = await this.openTasks(companyId)
      .and("task.latestOn <= :horizon OR task.consequence = 'urgent'", { horizon })
      .rows();
    const views = (await this.views(companyId, rows)).sort(byDueDay);
    return {
      late: views.filter((view) => view.isLate && !view.task.routineLine),
      atRisk: views.filter((view) => !view.isLate && closesUnplanned(view)),
      urgent: views.filter((view) => view.task.consequence === 'urgent'),
    };
  }

  /** Views in the order of the tasks. */
  async views(companyId: CompanyId, tasks: readonly CareTaskEntity[]): Promise<CareTaskView[]> {
    const ponds = await this.pondsOf(companyId, tasks);
    const todayIn = new Map<string, string>();
    return tasks.map((task) => {
      const pond = ponds.get(task.pondId) as Pick<PondEntity, 'name' | 'timeZone'>;
      let today = todayIn.get(pond.timeZone);
      if (today === undefined) {
        today = isoDateOf(this.clock.today(pond.timeZone));
        todayIn.set(pond.timeZone, today);
      }
      return {
        task,
        rule: this.planner.rule(task.ruleId) ?? lostRule(task.ruleId),
        pondName: pond.name,
        timeZone: pond.timeZone,
        dueOn: effectiveDueOn(task),
        today,
        isLate: task.state === 'NEEDS-ACTION' && effectiveLatestOn(task) < today,
      };
    });
  }

  private openTasks(companyId: CompanyId) {
    return this.database
      .company(companyId)
      .select(CareTaskEntity, 'task')
      .join(PondEntity, 'pond', 'pond.id = task.pondId')
      .and("pond.state = 'active'")
      .and("task.state = 'NEEDS-ACTION'");
  }

  private async pondsOf(companyId: CompanyId, tasks: readonly CareTaskEntity[]) {
    const ids = [...new Set(tasks.map(({ pondId }) => pondId))];
    const ponds = new Map<PondId, Pick<PondEntity, 'name' | 'timeZone'>>();
    for (let from = 0; from < ids.length; from += KEYS_PER_QUERY) {
      const rows = await this.database.company(companyId).find(PondEntity, {
        where: { id: In(ids.slice(from, from + KEYS_PER_QUERY)) },
        select: { id: true, name: true, timeZone: true },
      });
      for (const pond of rows) ponds.set(pond.id, pond);
    }
    return ponds;
  }
}

function closesUnplanned({ task, today }: CareTaskView): boolean {
  if (task.doneBy !== 'technician' || task.visitId !== null || task.routineLine) return false;
  const closesOn = effectiveLatestOn(task);
  return closesOn >= today && daysBetween(today, closesOn) <= WEEK_DAYS;
}

function daysBetween(from: string, to: string): number {
  return civilDay(to) - civilDay(from);
}

function byDueDay(a: CareTaskView, b: CareTaskView): number {
  return compare(a.dueOn, b.dueOn) || compare(a.task.ruleId, b.task.ruleId) || compare(a.task.pondId, b.task.pondId);
}

const compare = (a: string, b: string) => (a < b ? -1 : a > b ? 1 : 0);
