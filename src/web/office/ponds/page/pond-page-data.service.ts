import { Injectable } from '@nestjs/common';
import { CompaniesService, type CompanyEntity, PeopleService } from '../../../../accounts/index.js';
import {
  CareCalendarService,
  type CareTaskView,
  type PlanLogEntity,
  type PlanOutcomeEntity,
  type YearAhead,
  YearAheadService,
} from '../../../../care-calendar/index.js';
import { DomainError } from '../../../../core/errors.js';
import { type CivilDay } from '../../../../core/units/civil-day.js';
import { Clock } from '../../../../platform/clock.js';
import type { CompanyId, PersonId, PondId } from '../../../../platform/ids.js';
import {
  type JudgedLeakTest,
  LeakTestsService,
  type PondEventEntity,
  PondEventsService,
  type PondRecord,
  PondsService,
  type ReadingEntity,
  ReadingsService,
} from '../../../../ponds/index.js';
import { type VisitReport, VisitsService } from '../../../../visits/index.js';

/** Everything a pond's page shows, as it is stored. */
export interface PondPageData {
  readonly record: PondRecord;
  readonly company: CompanyEntity;
  /** Civil date now in the pond's zone. */
  readonly today: CivilDay;
  /** Now, as the field of a form wants it: local date and time of the pond. */
  readonly localNow: string;
  readonly tasks: readonly CareTaskView[];
  readonly finished: readonly CareTaskView[];
  readonly outcome: PlanOutcomeEntity | null;
  /** What comes after the tasks; null for a pond that is not planned. */
  readonly ahead: YearAhead | null;
  readonly readings: readonly ReadingEntity[];
  readonly events: readonly PondEventEntity[];
  /** Oldest first. */
  readonly leakTests: readonly JudgedLeakTest[];
  readonly visits: readonly VisitReport[];
  readonly log: readonly PlanLogEntity[];
  /** Names of the people behind readings and finished tasks. */
  readonly names: ReadonlyMap<PersonId, string>;
}

const VISITS_SHOWN = 8;
const LOG_SHOWN = 40;

/** Gathers what a pond's page shows. Reads only. */
@Injectable()
export class PondPageDataService {
  constructor(
    private readonly ponds: PondsService,
    private readonly readings: ReadingsService,
    private readonly events: PondEventsService,
    private readonly leakTests: LeakTestsService,
    private readonly calendar: CareCalendarService,
    private readonly years: YearAheadService,
    private readonly visits: VisitsService,
    private readonly companies: CompaniesService,
    private readonly people: PeopleService,
    private readonly clock: Clock,
  ) {}

  async of(companyId: CompanyId, pondId: PondId): Promise<PondPageData> {
    const record = await this.ponds.get(companyId, pondId);
    const { timeZone } = record.pond;
    const [company, tasks, finished, outcome, readings, events, visits, log] = await Promise.all([
      this.companies.get(companyId),
      this.calendar.tasksOf(companyId, pondId),
      this.calendar.tasksOf(companyId, pondId, { finished: true }),
      this.calendar.outcomeOf(companyId, pondId),
      this.readings.list(companyId, pondId),
      this.events.list(companyId, pondId),
      this.visits.ofPond(companyId, pondId, { take: VISITS_SHOWN }),
      this.calendar.log(companyId, pondId, LOG_SHOWN),
    ]);
    const ahead = record.pond.state === 'archived' || outcome === null ? null : await this.ahead(companyId, pondId);
    const people = await this.people.byIds(
      [...new Set([...readings.map(({ takenBy }) => takenBy), ...finished.map(({ task }) => task.finishedBy)])].filter(
        (id) => id !== null,
      ),
    );
    return {
      record,
      company,
      today: this.clock.today(timeZone),
      localNow: this.clock.now().setZone(timeZone).toFormat("yyyy-MM-dd'T'HH:mm"),
      tasks,
      finished,
      outcome,
      ahead,
      readings,
      events,
      leakTests: this.leakTests.kept(record, events),
      visits,
      log,
      names: new Map([...people].map(([id, { name }]) => [id, name])),
    };
  }

  /** A record the science refuses has no plan, and its page is needed all the more. */
  private async ahead(companyId: CompanyId, pondId: PondId): Promise<YearAhead | null> {
    try {
      return await this.years.of(companyId, pondId);
    } catch (error) {
      if (error instanceof DomainError) return null;
      throw error;
    }
  }
}
