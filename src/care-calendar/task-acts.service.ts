import { Injectable } from '@nestjs/common';
import { In } from 'typeorm';
import { isLaterCount } from '../core/care/cycle.js';
import { InvalidValueError } from '../core/errors.js';
import { addDays, type CivilDay, civilDay, isoDateOf } from '../core/units/civil-day.js';
import { Database } from '../database/index.js';
import { Clock, civilDayIn, instantFrom } from '../platform/clock.js';
import type { CompanyId, PersonId, TaskId, VisitId } from '../platform/ids.js';
import { type PondEntity, PondsService } from '../ponds/index.js';
import { CalendarStoreService, NOT_FINISHED } from './calendar-store.service.js';
import { CareTaskDateError, CareTaskNotFoundError, CareTaskStateError } from './care-calendar.errors.js';
import { CareTaskEntity } from './care-task.entity.js';
import { effectiveLatestOn } from './care-task-view.js';
import { PondPlannerService } from './pond-planner.service.js';
import { ReplanningService } from './replanning.service.js';
import { isWithdrawn, windowOf } from './standing-tasks.js';

export interface TaskDone {
  /** The day it was really done, in the pond's zone; today unless given. ISO date. */
  readonly on?: string;
  readonly by: PersonId;
  /** `done-by-other-means` closes it as CANCELLED with that reason, as the rain may top up a pond. */
  readonly because?: 'done' | 'done-by-other-means';
  /** Actual state, e.g. `{ changedL: 900 }`, `{ lampHours: 0 }`, `{ mediaShareRinsed: 0.33 }`. */
  readonly actuals?: Readonly<Record<string, number>>;
}

/** A caller that finishes several tasks in one unit of work replans once at the end. */
export interface ActOptions {
  readonly replan?: boolean;
}

/** An act may be entered this long after its day. [days] */
const ENTERED_AT_MOST_DAYS_LATER = 400;
const MOST_ACTUALS = 20;

/** What people do with care tasks. Each act is one unit of work; acts that change what is due next replan at once. */
@Injectable()
export class TaskActsService {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
    private readonly ponds: PondsService,
    private readonly planner: PondPlannerService,
    private readonly store: CalendarStoreService,
    private readonly replanning: ReplanningService,
  ) {}

  /**
   * Finishes a task as of the day it was really done; the next one is counted from there. A task already completed
   * stays as it is, so that a button pressed twice does no harm.
   * @throws CareTaskNotFoundError, CareTaskStateError, CareTaskDateError, InvalidValueError
   */
  async complete(companyId: CompanyId, taskId: TaskId, done: TaskDone, options: ActOptions = {}): Promise<void> {
    await this.act('complete task', companyId, taskId, async (task, pond) => {
      const { because = 'done', actuals = {} } = done;
      if (task.state === 'COMPLETED') return;
      requireOpen(task);
      requireActuals(actuals);
      const on = this.dayDone(pond, done.on);
      await this.update(companyId, task, {
        state: because === 'done' ? 'COMPLETED' : 'CANCELLED',
        finishedOn: isoDateOf(on),
        finishedBy: done.by,
        finishedBecause: because,
        actuals: { ...actuals },
      });
      await this.log(companyId, task, because === 'done' ? 'completed' : 'cancelled', `${because} on ${isoDateOf(on)}`);
      if (because === 'done' && this.releasesLivestock(task)) {
        await this.ponds.markStocked(companyId, pond.id, isoDateOf(on));
      }
      if (options.replan !== false) await this.replanning.replan(companyId, task.pondId);
    });
  }

  /**
   * Takes a completion or a person's cancellation back, on the day it was entered; with `anyDay` also later, as when a
   * visit is reopened.
   */
  async reopen(
    companyId: CompanyId,
    taskId: TaskId,
    given: { readonly by: PersonId; readonly anyDay?: boolean },
    options: ActOptions = {},
  ): Promise<void> {
    await this.act('reopen task', companyId, taskId, async (task, pond) => {
      if (task.state === 'NEEDS-ACTION') return;
      if (isWithdrawn(task)) {
        throw new CareTaskStateError(
          'The calendar took this task away by itself; it returns when the pond record asks for it.',
        );
      }
      const enteredOn = civilDayIn(instantFrom(task.updatedAt), pond.timeZone);
      if (!given.anyDay && enteredOn !== this.clock.today(pond.timeZone)) {
        throw new CareTaskStateError(
          `This was entered on ${isoDateOf(enteredOn)} and can be taken back on that day only. What comes next already counts from it.`,
        );
      }
      await this.update(companyId, task, { state: 'NEEDS-ACTION', ...NOT_FINISHED });
      await this.log(companyId, task, 'reopened', `finished on ${task.finishedOn} before`);
      if (this.releasesLivestock(task) && pond.stockedOn === task.finishedOn) {
        await this.ponds.markStocked(companyId, task.pondId, null);
      }
      await this.withdrawLater(companyId, task, isoDateOf(this.clock.today(pond.timeZone)));
      if (options.replan !== false) await this.replanning.replan(companyId, task.pondId);
    });
  }

  /** Closes a task that will not be done. */
  async cancel(
    companyId: CompanyId,
    taskId: TaskId,
    given: { readonly by: PersonId; readonly because: 'done-by-other-means' | 'not-applicable' | 'superseded' },
    options: ActOptions = {},
  ): Promise<void> {
    await this.act('cancel task', companyId, taskId, async (task, pond) => {
      requireOpen(task);
      const finishedOn = isoDateOf(this.clock.today(pond.timeZone));
      const { by: finishedBy, because: finishedBecause } = given;
      await this.update(companyId, task, { state: 'CANCELLED', finishedOn, finishedBy, finishedBecause });
      await this.log(companyId, task, 'cancelled', finishedBecause);
      if (options.replan !== false) await this.replanning.replan(companyId, task.pondId);
    });
  }

  /** "Not now": the task waits until a day inside its window. */
  async putOff(companyId: CompanyId, taskId: TaskId, until: string): Promise<void> {
    await this.act('put off task', companyId, taskId, async (task, pond) => {
      requireOpen(task);
      const day = civilDay(until);
      const latestOn = effectiveLatestOn(task);
      if (task.consequence === 'urgent') {
        throw new CareTaskDateError('This is urgent and cannot wait. Ask us if it cannot be done.');
      }
      if (day <= this.clock.today(pond.timeZone)) {
        throw new CareTaskDateError(`A task is put off to a day that is still to come; ${until} is not.`);
      }
      if (day > civilDay(latestOn)) {
        throw new CareTaskDateError(
          `This can wait until ${latestOn} at most, not until ${until}. After that it is late.`,
        );
      }
      await this.update(companyId, task, { putOffUntil: until });
      await this.log(companyId, task, 'put-off', `until ${until}`);
    });
  }

  /** A person sets the day; it stays until released, whatever the forecast says. */
  async hold(companyId: CompanyId, taskId: TaskId, on: string): Promise<void> {
    await this.act('hold task', companyId, taskId, async (task, pond) => {
      requireOpen(task);
      const day = civilDay(on);
      const today = this.clock.today(pond.timeZone);
      if (day < today || day > addDays(today, ENTERED_AT_MOST_DAYS_LATER)) {
        throw new CareTaskDateError(
          `The day must lie between today and ${isoDateOf(addDays(today, ENTERED_AT_MOST_DAYS_LATER))}; ${on} does not.`,
        );
      }
      if (task.heldDueOn === on) return;
      await this.update(companyId, task, { heldDueOn: on, putOffUntil: null });
      await this.log(companyId, task, 'held', `day set to ${on}`);
    });
  }

  async release(companyId: CompanyId, taskId: TaskId): Promise<void> {
    await this.act('release task', companyId, taskId, async (task) => {
      if (task.heldDueOn === null) return;
      await this.update(companyId, task, { heldDueOn: null });
      await this.log(companyId, task, 'released', `day was set to ${task.heldDueOn}`);
      await this.replanning.replan(companyId, task.pondId);
    });
  }

  /**
   * Somebody was told of a day: by mail, or by a published visit. The planner then moves the task only when it must, and
   * says so. `byMail` also counts the mails about it.
   */
  async promise(
    companyId: CompanyId,
    taskIds: readonly TaskId[],
    on: string,
    given: { readonly byMail?: boolean } = {},
  ): Promise<void> {
    civilDay(on);
    await this.all('promise tasks', companyId, taskIds, async (tasks) => {
      const byTimes = new Map<number, CareTaskEntity[]>();
      for (const task of tasks) {
        const mailedTimes = task.mailedTimes + (given.byMail ? 1 : 0);
        if (task.promisedOn === on && mailedTimes === task.mailedTimes) continue;
        byTimes.set(mailedTimes, [...(byTimes.get(mailedTimes) ?? []), task]);
      }
      for (const [mailedTimes, some] of byTimes) await this.update(companyId, some, { promisedOn: on, mailedTimes });
    });
  }

  async releasePromise(companyId: CompanyId, taskIds: readonly TaskId[]): Promise<void> {
    await this.all('release promises', companyId, taskIds, (tasks) => {
      const promised = tasks.filter((task) => task.promisedOn !== null);
      return this.update(companyId, promised, { promisedOn: null });
    });
  }

  /** Puts tasks on a visit, or takes them off with null. */
  async putOnVisit(companyId: CompanyId, taskIds: readonly TaskId[], visitId: VisitId | null): Promise<void> {
    await this.all('put tasks on visit', companyId, taskIds, (tasks) => {
      const elsewhere = tasks.filter((task) => task.visitId !== visitId);
      return this.update(companyId, elsewhere, { visitId });
    });
  }

  private async act(
    name: string,
    companyId: CompanyId,
    taskId: TaskId,
    work: (task: CareTaskEntity, pond: PondEntity) => Promise<void>,
  ): Promise<void> {
    await this.database.unitOfWork(name, async () => {
      const task = await this.database.company(companyId).findOne(CareTaskEntity, { id: taskId });
      if (!task) throw new CareTaskNotFoundError(taskId);
      await work(task, await this.ponds.pond(companyId, task.pondId));
    });
  }

  private async all(
    name: string,
    companyId: CompanyId,
    taskIds: readonly TaskId[],
    work: (tasks: readonly CareTaskEntity[]) => Promise<void>,
  ): Promise<void> {
    await this.database.unitOfWork(name, async () => {
      const tasks = await this.database.company(companyId).find(CareTaskEntity, { where: { id: In([...taskIds]) } });
      const missing = taskIds.find((id) => !tasks.some((task) => task.id === id));
      if (missing !== undefined) throw new CareTaskNotFoundError(missing);
      await work(tasks);
    });
  }

  private dayDone(pond: PondEntity, typed: string | undefined): CivilDay {
    const today = this.clock.today(pond.timeZone);
    const on = typed === undefined ? today : civilDay(typed);
    if (on > today) throw new CareTaskDateError(`Done on ${typed}: that day is still to come.`);
    if (on < addDays(today, -ENTERED_AT_MOST_DAYS_LATER)) {
      throw new CareTaskDateError(`Done on ${typed}: that is more than a year ago. Check the year.`);
    }
    return on;
  }

  /** Occurrences that were counted from a completion go with it; their numbers are given again. */
  private async withdrawLater(companyId: CompanyId, task: CareTaskEntity, today: string): Promise<void> {
    const { pondId, ruleId } = task;
    const open = await this.database
      .company(companyId)
      .find(CareTaskEntity, { where: { pondId, ruleId, state: 'NEEDS-ACTION' } });
    for (const later of open.filter(({ cycle }) => isLaterCount(cycle, task.cycle))) {
      const gone = { finishedOn: today, finishedBy: null, finishedBecause: 'superseded' as const };
      await this.update(companyId, later, { state: 'CANCELLED', ...gone });
      await this.log(companyId, later, 'cancelled', `superseded: occurrence ${task.cycle} was reopened`);
    }
  }

  /** Putting the first livestock in ends the run-in of a pond. */
  private releasesLivestock(task: CareTaskEntity): boolean {
    return this.planner.rule(task.ruleId)?.quantities.includes('staged-stocking') ?? false;
  }

  private async update(
    companyId: CompanyId,
    tasks: CareTaskEntity | readonly CareTaskEntity[],
    change: Partial<CareTaskEntity>,
  ): Promise<void> {
    const ids = [tasks].flat().map(({ id }) => id);
    if (ids.length === 0) return;
    const row = { ...change, updatedAt: this.clock.instant() };
    await this.database.company(companyId).update(CareTaskEntity, { id: In(ids) }, row as never);
  }

  private async log(companyId: CompanyId, task: CareTaskEntity, kind: string, because: string): Promise<void> {
    const { ruleId, cycle } = task;
    const row = { ruleId, cycle, kind, fromWindow: windowOf(task), toWindow: null, because };
    await this.store.log(companyId, task.pondId, [row]);
  }
}

function requireOpen(task: CareTaskEntity): void {
  if (task.state === 'NEEDS-ACTION') return;
  const how = task.state === 'COMPLETED' ? 'done' : 'cancelled';
  throw new CareTaskStateError(`This task was ${how} on ${task.finishedOn}. Reopen it first.`);
}

function requireActuals(actuals: Readonly<Record<string, number>>): void {
  const entries = Object.entries(actuals);
  if (entries.length > MOST_ACTUALS) {
    throw new InvalidValueError('actuals', entries.length, `At most ${MOST_ACTUALS} figures are kept with a task.`);
  }
  for (const [name, value] of entries) {
    if (!/^[a-zA-Z][a-zA-Z0-9]{0,39}$/.test(name) || !Number.isFinite(value) || Math.abs(value) > 1e9) {
      throw new InvalidValueError(
        `actual ${name}`,
        value,
        'Give a finite number under a name with its unit, e.g. changedL.',
      );
    }
  }
}
