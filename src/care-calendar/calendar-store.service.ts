import { Injectable } from '@nestjs/common';
import { In, MoreThanOrEqual } from 'typeorm';
import type { PlannedTask, TaskWindow } from '../core/care/care-plan.js';
import { isNear } from '../core/care/reconcile.js';
import type { PlanChange, StandingTask } from '../core/care/standing-task.js';
import { type CivilDay, isoDateOf } from '../core/units/civil-day.js';
import { Database } from '../database/index.js';
import { Clock, civilDayIn, instantFrom, instantText } from '../platform/clock.js';
import { type CompanyId, newId, type PondId } from '../platform/ids.js';
import { byPond } from '../ponds/index.js';
import { CareTaskEntity } from './care-task.entity.js';
import { PlanLogEntity } from './plan-log.entity.js';
import { PlanOutcomeEntity } from './plan-outcome.entity.js';
import type { PlannedPond } from './pond-planner.service.js';
import { windowColumns } from './standing-tasks.js';

type LogRow = Omit<PlanLogEntity, 'id' | 'companyId' | 'pondId' | 'loggedAt'>;

/** Writes the calendar of a pond: tasks, the log of changes, and what planning found besides. Joins a unit of work. */
@Injectable()
export class CalendarStoreService {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
  ) {}

  /** All tasks of a pond, finished ones too. */
  tasks(companyId: CompanyId, pondId: PondId): Promise<CareTaskEntity[]> {
    return this.database.company(companyId).find(CareTaskEntity, { where: { pondId } });
  }

  /** The same for several ponds at once. */
  async tasksOf(companyId: CompanyId, pondIds: readonly PondId[]): Promise<ReadonlyMap<PondId, CareTaskEntity[]>> {
    const rows = await this.database.company(companyId).find(CareTaskEntity, { where: { pondId: In([...pondIds]) } });
    return byPond(rows);
  }

  /** What the last planning of each of these ponds found besides its tasks. */
  async outcomesOf(companyId: CompanyId, pondIds: readonly PondId[]): Promise<ReadonlyMap<PondId, PlanOutcomeEntity>> {
    const rows = await this.database
      .company(companyId)
      .find(PlanOutcomeEntity, { where: { pondId: In([...pondIds]) } });
    return new Map(rows.map((row) => [row.pondId, row]));
  }

  /** How often each task of a pond has moved in the last year while it was near, by `taskName`. From the log. */
  async nearMovesOf(
    companyId: CompanyId,
    pond: { readonly id: PondId; readonly timeZone: string },
  ): Promise<ReadonlyMap<string, number>> {
    const since = instantText(this.clock.now().minus({ years: 1 }));
    const rows = await this.database.company(companyId).find(PlanLogEntity, {
      where: { pondId: pond.id, loggedAt: MoreThanOrEqual(since), kind: In(['moved', 'moved-off-promise']) },
    });
    const moves = new Map<string, number>();
    for (const row of rows) {
      const on = civilDayIn(instantFrom(row.loggedAt), pond.timeZone);
      if (row.fromWindow && isNear(row.fromWindow, on)) moves.set(taskName(row), (moves.get(taskName(row)) ?? 0) + 1);
    }
    return moves;
  }

  async save(
    companyId: CompanyId,
    pondId: PondId,
    changes: readonly PlanChange[],
    given: { readonly tasks: readonly CareTaskEntity[]; readonly today: CivilDay },
  ): Promise<void> {
    const byName = new Map(given.tasks.map((task) => [taskName(task), task]));
    const added: CareTaskEntity[] = [];
    const log: LogRow[] = [];
    for (const change of changes) {
      const standing = byName.get(taskName(change.kind === 'added' ? change.task : change));
      if (change.kind !== 'added') await this.apply(companyId, standing as CareTaskEntity, change, given.today);
      else if (standing) await this.revive(companyId, standing, change.task);
      else added.push(this.newTask(companyId, pondId, change.task));
      log.push(logRow(change, standing));
    }
    const store = this.database.company(companyId);
    await store.insert(CareTaskEntity, added);
    await this.log(companyId, pondId, log);
  }

  /** Rows of the plan log. */
  async log(companyId: CompanyId, pondId: PondId, rows: readonly LogRow[]): Promise<void> {
    const loggedAt = this.clock.instant();
    const entities = rows.map((row) => ({ id: newId(), companyId, pondId, loggedAt, ...row }));
    await this.database.company(companyId).insert(PlanLogEntity, entities);
  }

  /** Keeps what planning found besides its tasks; what is already there is not written again. */
  async saveOutcome(
    companyId: CompanyId,
    pondId: PondId,
    { plan, outlook }: Pick<PlannedPond, 'plan' | 'outlook'>,
    standing: PlanOutcomeEntity | null,
  ): Promise<boolean> {
    const store = this.database.company(companyId);
    const found = {
      notDue: [...plan.notDue],
      conflicts: [...plan.conflicts],
      findings: [...plan.findings],
      outlook,
    };
    if (standing && isSame(standing, found)) return false;
    const row = { ...found, plannedOn: isoDateOf(plan.today) };
    if (standing) await store.update(PlanOutcomeEntity, { pondId }, row as never);
    else await store.insert(PlanOutcomeEntity, { pondId, ...row });
    return true;
  }

  private newTask(companyId: CompanyId, pondId: PondId, task: PlannedTask): CareTaskEntity {
    const instant = this.clock.instant();
    return {
      id: newId(),
      companyId,
      pondId,
      ruleId: task.ruleId,
      cycle: task.cycle,
      state: 'NEEDS-ACTION',
      ...plannedColumns(task),
      heldDueOn: null,
      promisedOn: null,
      putOffUntil: null,
      ...NOT_FINISHED,
      mailedTimes: 0,
      visitId: null,
      createdAt: instant,
      updatedAt: instant,
    };
  }

  /** A task the planner had taken away comes back under its own name, free of old promises. */
  private async revive(companyId: CompanyId, standing: CareTaskEntity, task: PlannedTask): Promise<void> {
    await this.update(companyId, standing, {
      state: 'NEEDS-ACTION',
      ...plannedColumns(task),
      ...NOT_FINISHED,
      promisedOn: null,
      putOffUntil: null,
      visitId: null,
    });
  }

  private async apply(
    companyId: CompanyId,
    standing: CareTaskEntity,
    change: Exclude<PlanChange, { kind: 'added' }>,
    today: CivilDay,
  ): Promise<void> {
    switch (change.kind) {
      case 'moved':
        return this.update(companyId, standing, {
          ...plannedColumns(change.task),
          putOffUntil: null,
          ...(change.breaksPromise && { promisedOn: null }),
        });
      case 'revised':
        return this.update(companyId, standing, plannedColumns(change.task));
      case 'cancelled':
        return this.update(companyId, standing, {
          state: 'CANCELLED',
          finishedOn: isoDateOf(today),
          finishedBy: null,
          finishedBecause: change.because,
        });
    }
  }

  private async update(companyId: CompanyId, task: CareTaskEntity, change: Partial<CareTaskEntity>): Promise<void> {
    const row = { ...change, updatedAt: this.clock.instant() };
    await this.database.company(companyId).update(CareTaskEntity, { id: task.id }, row as never);
  }
}

export const NOT_FINISHED: Pick<CareTaskEntity, 'finishedOn' | 'finishedBy' | 'finishedBecause' | 'actuals'> = {
  finishedOn: null,
  finishedBy: null,
  finishedBecause: null,
  actuals: {},
};

function plannedColumns(task: PlannedTask) {
  const { doneBy, consequence, routineLine, window } = task;
  return { planned: task, doneBy, consequence, routineLine, ...windowColumns(window) };
}

/** The name of a task on its pond. */
export function taskName(task: Pick<StandingTask, 'ruleId' | 'cycle'>): string {
  return `${task.ruleId}\n${task.cycle}`;
}

function logRow(change: PlanChange, standing: CareTaskEntity | undefined): LogRow {
  if (change.kind === 'added') {
    const { ruleId, cycle, window, reason } = change.task;
    const kind = standing ? 'returned' : 'added';
    return { ruleId, cycle, kind, fromWindow: null, toWindow: window, because: reason.trigger };
  }
  const { ruleId, cycle } = change;
  const windows = (from: TaskWindow | null, to: TaskWindow | null) => ({
    ruleId,
    cycle,
    fromWindow: from,
    toWindow: to,
  });
  switch (change.kind) {
    case 'moved': {
      const promise = change.breaksPromise ? `promised for ${standing?.promisedOn}; ` : '';
      const kind = change.breaksPromise ? 'moved-off-promise' : 'moved';
      return { ...windows(change.from, change.to), kind, because: promise + change.because };
    }
    case 'revised':
      return { ...windows(change.task.window, change.task.window), kind: 'revised', because: change.because };
    case 'cancelled':
      return { ...windows(null, null), kind: 'cancelled', because: `${change.because}: ${change.detail}` };
  }
}

function isSame(
  standing: PlanOutcomeEntity,
  found: Pick<PlanOutcomeEntity, 'notDue' | 'conflicts' | 'findings' | 'outlook'>,
): boolean {
  const text = ({ notDue, conflicts, findings, outlook }: typeof found) =>
    JSON.stringify([notDue, conflicts, findings, outlook]);
  return text(standing) === text(found);
}
