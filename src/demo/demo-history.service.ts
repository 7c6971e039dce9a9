import { Inject, Injectable } from '@nestjs/common';
import { DateTime } from 'luxon';
import type { CompanyEntity } from '../accounts/index.js';
import { CareTaskEntity } from '../care-calendar/index.js';
import { ClimateService } from '../climate/index.js';
import { CARE_RULES, DECHLORINATORS, type Dechlorinators } from '../config/index.js';
import type { PlannedTask } from '../core/care/care-plan.js';
import type { CareRule } from '../core/care/care-rule.js';
import type { WinterClass } from '../core/care/pond-facts.js';
import { winterClassFor } from '../core/climate/winter-class.js';
import { ensembleSeed } from '../core/thermal/seed.js';
import { addDays, type CivilDay, civilDay, isoDateOf } from '../core/units/civil-day.js';
import { Database } from '../database/index.js';
import { instantFrom, instantText } from '../platform/clock.js';
import { newId, type PersonId } from '../platform/ids.js';
import { type PondRecord, pondFacts, pondHeat, ReadingEntity } from '../ponds/index.js';
import { plannedActuals, VisitClosingEntity, VisitEntity, VisitTaskEntity } from '../visits/index.js';
import { DemoPast } from './demo-past.js';
import type { DemoPlace, DemoPond } from './demo-ponds.js';
import type { DemoDay } from './demo-year.js';

export interface DemoRecord {
  readonly record: PondRecord;
  readonly pond: DemoPond;
  /** Number of the pond in the demo. */
  readonly place: number;
  readonly today: CivilDay;
}

const NOTES = [
  'Water clear, all fish seen. Flow as last time.',
  'Skimmer door rattles, holds for now. Fish lively.',
  'Some string algae on the falls, pulled by hand.',
  'Level 2 in low on arrival, topped up.',
  'New planting on the east edge, liner edge still high.',
] as const;

type Rows = Omit<CareTaskEntity, 'companyId'>;
type Crew = ReadonlyMap<DemoPlace, PersonId>;

/** The past of all ponds, to be stored at one go. */
interface PastRows {
  readonly tasks: Rows[];
  readonly visits: Omit<VisitEntity, 'companyId'>[];
  readonly readings: Omit<ReadingEntity, 'companyId'>[];
  readonly visitTasks: Omit<VisitTaskEntity, 'companyId'>[];
  readonly closings: Omit<VisitClosingEntity, 'companyId'>[];
}

/** Stores the past year of the demo ponds: finished tasks, readings, closed visits. */
@Injectable()
export class DemoHistory {
  private readonly winterOfTown = new Map<string, WinterClass>();

  constructor(
    private readonly database: Database,
    private readonly climate: ClimateService,
    @Inject(CARE_RULES) private readonly rules: readonly CareRule[],
    @Inject(DECHLORINATORS) private readonly dechlorinators: Dechlorinators,
  ) {}

  /** Begins to load what works the years out, while the ponds are still being stored. */
  begin(): DemoPast {
    const { products, preset } = this.dechlorinators;
    return new DemoPast({ rules: this.rules, dechlorinator: products[0] ?? preset });
  }

  /** @param crew who goes to the ponds of each place */
  async store(company: CompanyEntity, demo: readonly DemoRecord[], crew: Crew, past: DemoPast): Promise<void> {
    const rows: PastRows = { tasks: [], visits: [], readings: [], visitTasks: [], closings: [] };
    const years = await past.years(demo.map((one) => this.yearOf(one)));
    for (const [number, one] of demo.entries()) {
      this.tellPast(one, years[number] ?? [], crew.get(one.pond.place) ?? null, rows);
    }
    const store = this.database.company(company.id);
    await store.insert(CareTaskEntity, rows.tasks);
    await store.insert(VisitEntity, rows.visits);
    await store.insert(ReadingEntity, rows.readings);
    await store.insert(VisitTaskEntity, rows.visitTasks);
    await store.insert(VisitClosingEntity, rows.closings);
  }

  private tellPast(demo: DemoRecord, days: readonly DemoDay[], technicianId: PersonId | null, rows: PastRows): void {
    const homeownerId = demo.record.contacts[0]?.personId ?? null;
    for (const [number, day] of days.entries()) {
      const at = instantAt(day.on, 9 + (number % 6), demo.record.pond.timeZone);
      const isVisit = day.by === 'technician' && technicianId !== null;
      const visit = isVisit ? visitRow(demo, day, technicianId, at) : null;
      const done = day.tasks.map((task) =>
        taskRow(demo, day, task, at, visit ? technicianId : homeownerId, visit?.id ?? null),
      );
      rows.tasks.push(...done);
      const taken = day.readings.map(({ quantity, value }) => ({
        id: newId(Date.parse(at)),
        pondId: demo.record.pond.id,
        quantity,
        value,
        takenAt: at,
        takenBy: technicianId,
        visitId: visit?.id ?? null,
        replacesId: null,
        createdAt: at,
      }));
      rows.readings.push(...taken);
      if (!visit) continue;
      rows.visits.push(visit);
      rows.visitTasks.push(
        ...done.map(({ id }) => ({
          id: newId(Date.parse(at)),
          visitId: visit.id,
          careTaskId: id,
          outcome: 'done' as const,
          doneShare: null,
          remark: '',
        })),
      );
      rows.closings.push(
        closingRow(visit, done, taken, NOTES[(number + demo.place) % NOTES.length] ?? '', technicianId as PersonId),
      );
    }
  }

  private yearOf({ record, place, today }: DemoRecord) {
    const { pond } = record;
    const climate = this.climate.siteFor(pond);
    const heat = pondHeat(record);
    const seed = ensembleSeed(pond.id, climate.stations[0]?.id ?? '');
    // Ponds of one town have one kind of winter; the calendar itself is planned with each pond's own.
    const winterClass =
      this.winterOfTown.get(pond.town) ??
      winterClassFor({ climate, pond: heat, seed, maxDepthM: pond.maxDepthM }).winterClass;
    this.winterOfTown.set(pond.town, winterClass);
    return {
      facts: pondFacts(record, { winterClass }),
      heat,
      climate,
      seed,
      careSince: civilDay(pond.careSince),
      today,
      place,
    };
  }
}

function instantAt(on: CivilDay, hour: number, timeZone: string): string {
  const [year, month, day] = isoDateOf(on).split('-').map(Number);
  return instantText(DateTime.fromObject({ year, month, day, hour, minute: 20 }, { zone: timeZone }) as DateTime<true>);
}

function taskRow(
  { record }: DemoRecord,
  day: DemoDay,
  planned: PlannedTask,
  at: string,
  by: PersonId | null,
  visitId: string | null,
): Rows {
  const { earliest, due, latest } = planned.window;
  return {
    id: newId(Date.parse(at)),
    pondId: record.pond.id,
    ruleId: planned.ruleId,
    cycle: planned.cycle,
    state: 'COMPLETED',
    doneBy: planned.doneBy,
    consequence: planned.consequence,
    routineLine: planned.routineLine,
    earliestOn: isoDateOf(earliest),
    dueOn: isoDateOf(due),
    latestOn: isoDateOf(latest),
    heldDueOn: null,
    promisedOn: null,
    putOffUntil: null,
    planned,
    finishedOn: isoDateOf(day.on),
    finishedBy: by,
    finishedBecause: 'done',
    actuals: plannedActuals(planned),
    mailedTimes: planned.doneBy === 'homeowner' ? 1 : 0,
    visitId,
    createdAt: at,
    updatedAt: at,
  };
}

function visitRow(
  { record }: DemoRecord,
  day: DemoDay,
  technicianId: PersonId,
  at: string,
): Omit<VisitEntity, 'companyId'> {
  const on = isoDateOf(day.on);
  const closedAt = instantText(instantFrom(at).plus({ minutes: day.minutes }));
  return {
    id: newId(Date.parse(at)),
    pondId: record.pond.id,
    state: 'COMPLETED',
    plannedOn: on,
    fromTime: null,
    toTime: null,
    technicianId,
    dueEarliestOn: isoDateOf(addDays(day.on, -3)),
    dueLatestOn: isoDateOf(addDays(day.on, 3)),
    minutes: day.minutes,
    officeNote: '',
    publishedAt: at,
    onTheWayAt: null,
    arrivedAt: at,
    closedAt,
    cancelledBecause: null,
    createdAt: at,
    updatedAt: closedAt,
    version: 1,
  };
}

function closingRow(
  visit: Omit<VisitEntity, 'companyId'>,
  tasks: readonly Rows[],
  readings: readonly Omit<ReadingEntity, 'companyId'>[],
  note: string,
  closedBy: PersonId,
): Omit<VisitClosingEntity, 'companyId'> {
  const closedAt = visit.closedAt ?? visit.createdAt;
  return {
    id: newId(Date.parse(closedAt)),
    visitId: visit.id,
    closingVersion: 1,
    closedAt,
    closedBy,
    receivedAt: closedAt,
    reopenedAt: null,
    reopenedBy: null,
    reopenedBecause: null,
    record: {
      note,
      homeownerPresent: null,
      tasks: tasks.map(({ id, actuals }) => ({
        careTaskId: id,
        outcome: 'done',
        doneShare: null,
        remark: '',
        actuals,
      })),
      readings: readings.map(({ id, quantity, value, takenAt }) => ({ id, quantity, value, takenAt })),
    },
  };
}
