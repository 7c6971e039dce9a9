import { setImmediate as nextTurn } from 'node:timers/promises';
import { Injectable } from '@nestjs/common';
import { CompaniesService, type CompanyEntity } from '../accounts/index.js';
import { NO_WEATHER, type PlaceWeather, placeKey, WeatherService } from '../climate/index.js';
import type { CareHistory, CarePlan, PlannedTask } from '../core/care/care-plan.js';
import type { CareRule } from '../core/care/care-rule.js';
import { reconcile } from '../core/care/reconcile.js';
import type { PlanChange } from '../core/care/standing-task.js';
import { type CivilDay, isoDateOf } from '../core/units/civil-day.js';
import { Database } from '../database/index.js';
import { Clock } from '../platform/clock.js';
import { type CompanyId, newId, type PondId } from '../platform/ids.js';
import {
  type PondEventEntity,
  PondEventsService,
  type PondInput,
  type PondRecord,
  PondsService,
  PondThingNotFoundError,
  type ReadingEntity,
  ReadingsService,
  timeZoneOf,
  unsavedRecord,
} from '../ponds/index.js';
import { CalendarStoreService, taskName } from './calendar-store.service.js';
import type { CareTaskEntity } from './care-task.entity.js';
import { lostRule } from './care-task-view.js';
import type { OutlookSummary } from './outlook-summary.js';
import type { PlanOutcomeEntity } from './plan-outcome.entity.js';
import type { PlanningOrder, PlanningThreads, PlanResult } from './planning-threads.js';
import { PlanningThreadsService } from './planning-threads.service.js';
import { type PlannedPond, PondPlannerService } from './pond-planner.service.js';
import { careHistory, standingTasks } from './standing-tasks.js';

export interface ReplanOptions {
  /** Plan as on this day instead of today in the pond's zone. */
  readonly asOf?: CivilDay;
  /** A person changed the record: tasks move as it asks, however often the forecast has moved them. */
  readonly isRecordChanged?: boolean;
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

/** A pond with all that its planning stands on. */
interface KnownPond {
  readonly record: PondRecord;
  readonly company: CompanyEntity;
  readonly tasks: readonly CareTaskEntity[];
  readonly outcome: PlanOutcomeEntity | null;
  readonly readings: readonly ReadingEntity[];
  readonly events: readonly PondEventEntity[];
  readonly weather: PlaceWeather;
}

/** The same, ready to be planned as it stands or otherwise. */
export interface StandingPond extends Pick<KnownPond, 'record' | 'company' | 'weather'> {
  readonly today: CivilDay;
  readonly history: CareHistory;
}

type Replanned = { readonly changes: number } | { readonly pondId: PondId; readonly reason: string };

/** Few enough that nobody waits long for the write turn: about a tenth of a second. */
const PONDS_PER_UNIT = 10;

/** Brings stored calendars up to date: load, forecast, plan, reconcile, save, in one unit of work. */
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
    private readonly threads: PlanningThreadsService,
    private readonly store: CalendarStoreService,
    private readonly weather: WeatherService,
  ) {}

  /** With nothing new it writes nothing. An archived pond keeps its calendar as it stands. */
  async replan(companyId: CompanyId, pondId: PondId, options: ReplanOptions = {}): Promise<readonly PlanChange[]> {
    return this.database.unitOfWork('replan pond', async () => {
      const [known] = await this.known(companyId, [pondId]);
      if (!known) throw new PondThingNotFoundError('pond', pondId);
      const order = this.order(known, options);
      return isArchived(known) ? [] : this.saved(companyId, known, this.planned(order), order.today, options);
    });
  }

  /** Every active pond of a company, a few in a unit of work, so that other work gets its turn in between. */
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
    const threads = this.threads.forPonds(pondIds.length);
    const atOnce = PONDS_PER_UNIT * (threads?.count ?? 1);
    let pondsChanged = 0;
    let changes = 0;
    const failed: { pondId: PondId; reason: string }[] = [];
    try {
      for (let from = 0; from < pondIds.length; from += atOnce) {
        const some = pondIds.slice(from, from + atOnce);
        for (const [i, outcome] of (await this.replanSome(companyId, some, options, threads)).entries()) {
          if ('reason' in outcome) failed.push(outcome);
          else if (outcome.changes > 0) pondsChanged += 1;
          changes += 'changes' in outcome ? outcome.changes : 0;
          step(from + i + 1);
        }
        await nextTurn();
      }
    } finally {
      await threads?.close();
    }
    return { ponds: pondIds.length, pondsChanged, changes, failed };
  }

  /** A pond that cannot be planned is named; when the unit itself fails, each pond gets one of its own. */
  private async replanSome(
    companyId: CompanyId,
    pondIds: readonly PondId[],
    options: ReplanOptions,
    threads: PlanningThreads | null,
  ) {
    try {
      return await this.database.unitOfWork('replan ponds', async () => {
        const outcomes: Replanned[] = [];
        const ponds = (await this.known(companyId, pondIds)).map((known) => {
          const order = this.order(known, options);
          return { known, order, ahead: isArchived(known) ? undefined : threads?.plan(order) };
        });
        for (const { known, order, ahead } of ponds) {
          if (isArchived(known)) {
            outcomes.push({ changes: 0 });
            continue;
          }
          const planned = (await ahead) ?? attempt(() => this.planned(order));
          if ('reason' in planned) outcomes.push({ pondId: known.record.pond.id, reason: planned.reason });
          else
            outcomes.push({
              changes: (await this.saved(companyId, known, planned.value, order.today, options)).length,
            });
          await nextTurn();
        }
        return outcomes;
      });
    } catch {
      return this.replanEach(companyId, pondIds, options);
    }
  }

  private async replanEach(
    companyId: CompanyId,
    pondIds: readonly PondId[],
    options: ReplanOptions,
  ): Promise<Replanned[]> {
    const outcomes: Replanned[] = [];
    for (const pondId of pondIds) {
      try {
        outcomes.push({ changes: (await this.replan(companyId, pondId, options)).length });
      } catch (error) {
        outcomes.push({ pondId, reason: (error as Error).message });
      }
    }
    return outcomes;
  }

  /** What would be planned on a day with what was known then. Stores nothing. */
  async planAsOf(companyId: CompanyId, pondId: PondId, asOf?: CivilDay): Promise<PlannedPond> {
    const [known] = await this.known(companyId, [pondId]);
    if (!known) throw new PondThingNotFoundError('pond', pondId);
    return this.planned(this.order(known, asOf === undefined ? {} : { asOf }));
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
    const weather = (await this.weather.of([record.pond])).get(placeKey(record.pond));
    const nothingYet = { finished: [], readings: [], events: [] };
    const { plan, outlook } = this.planner.plan(record, nothingYet, company, today, weather);
    const tasks = plan.tasks.map((task) => ({ task, rule: this.planner.rule(task.ruleId) ?? lostRule(task.ruleId) }));
    return { plan, outlook, tasks };
  }

  /** All that planning some ponds stands on, read with a few queries for all of them. */
  private async known(companyId: CompanyId, pondIds: readonly PondId[]): Promise<KnownPond[]> {
    const records = await this.ponds.several(companyId, pondIds);
    const company = await this.companies.get(companyId);
    const tasks = await this.store.tasksOf(companyId, pondIds);
    const outcomes = await this.store.outcomesOf(companyId, pondIds);
    const readings = await this.readings.listOf(companyId, pondIds);
    const events = await this.events.listOf(companyId, pondIds);
    const weather = await this.weather.of(records.map(({ pond }) => pond));
    return records.map((record) => {
      const { id } = record.pond;
      return {
        record,
        company,
        tasks: tasks.get(id) ?? [],
        outcome: outcomes.get(id) ?? null,
        readings: readings.get(id) ?? [],
        events: events.get(id) ?? [],
        weather: weather.get(placeKey(record.pond)) ?? NO_WEATHER,
      };
    });
  }

  /** A pond with all that its planning stands on, and its day; stores nothing. */
  async standing(companyId: CompanyId, pondId: PondId): Promise<StandingPond> {
    const [known] = await this.known(companyId, [pondId]);
    if (!known) throw new PondThingNotFoundError('pond', pondId);
    const { record, company, weather } = known;
    const today = this.clock.today(record.pond.timeZone);
    return { record, company, weather, today, history: careHistory(known, record.pond, today) };
  }

  private order(known: KnownPond, { asOf }: ReplanOptions): PlanningOrder {
    const { record, company, weather } = known;
    const today = asOf ?? this.clock.today(record.pond.timeZone);
    const { dechlorinatorId, defaultDoneBy } = company;
    const history = careHistory(known, record.pond, today);
    return { record, history, company: { dechlorinatorId, defaultDoneBy }, today, weather };
  }

  private planned({ record, history, company, today, weather }: PlanningOrder): PlannedPond {
    return this.planner.plan(record, history, company, today, weather);
  }

  private async saved(
    companyId: CompanyId,
    { record: { pond }, tasks, outcome }: KnownPond,
    planned: PlanResult,
    today: CivilDay,
    { isRecordChanged }: ReplanOptions,
  ): Promise<readonly PlanChange[]> {
    const { plan } = planned;
    const standing = standingTasks(tasks);
    let changes = reconcile({ standing, plan, today });
    // Few nights move anything: only then is it asked how often a task has moved before.
    if (!isRecordChanged && changes.some(({ kind }) => kind === 'moved')) {
      const moves = await this.store.nearMovesOf(companyId, pond);
      const counted = standing.map((task) => ({ ...task, nearMoves: moves.get(taskName(task)) ?? 0 }));
      changes = reconcile({ standing: counted, plan, today });
    }
    if (changes.length > 0) await this.store.save(companyId, pond.id, changes, { tasks, today });
    await this.store.saveOutcome(companyId, pond.id, planned, outcome);
    if (pond.winterKey !== planned.winter.winterKey) await this.ponds.noteWinter(companyId, pond.id, planned.winter);
    return changes;
  }
}

function isArchived({ record }: KnownPond): boolean {
  return record.pond.state === 'archived';
}

function attempt<T>(work: () => T): { readonly value: T } | { readonly reason: string } {
  try {
    return { value: work() };
  } catch (error) {
    return { reason: (error as Error).message };
  }
}
