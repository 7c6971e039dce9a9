import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { Global, Module, type ModuleMetadata } from '@nestjs/common';
import { Test } from '@nestjs/testing';
import { type Actor, PeopleService } from '../../src/accounts/index.js';
import { CareCalendarService, type CareTaskView } from '../../src/care-calendar/index.js';
import {
  CARE_RULES,
  CAUTIONS,
  DECHLORINATORS,
  JOB_SCHEDULES,
  loadCareRules,
  loadCautions,
  loadDechlorinators,
  loadStations,
  SETTINGS,
  STATIONS,
} from '../../src/config/index.js';
import { Database } from '../../src/database/index.js';
import { Clock, FixedClock } from '../../src/platform/clock.js';
import { newId } from '../../src/platform/ids.js';
import { AppLogger } from '../../src/platform/logger.js';
import { PondsService, ReadingsService } from '../../src/ponds/index.js';
import { type CloseVisit, VisitNews, VisitsModule, VisitsService } from '../../src/visits/index.js';
import { storeCompany } from '../support/company-rows.js';
import { temporaryDatabase } from '../support/temporary-database.js';
import { aPond } from '../support/typed-pond.js';

const STATION_TABLE = loadStations('config/stations');
const PRODUCTS = loadDechlorinators('config');
const CAUTION_LIST = loadCautions('config');
/** Work that a technician does through the year; the others would only make the tests slower. */
const RULES = loadCareRules('config').filter(({ id }) =>
  [
    'biological-media-rinse',
    'filter-media-rinse',
    'part-water-change',
    'pump-clean',
    'residual-current-test',
    'uv-lamp-replacement',
    'uv-sleeve-clean',
    'winter-pump-shutdown',
  ].includes(id),
);

export interface StackOptions {
  readonly at?: string;
  readonly imports?: ModuleMetadata['imports'];
  /** Instead of an SQLite file of its own; closed with the stack. */
  readonly database?: Database;
}

/** Everything up to visits with real care rules, on a database file of its own; more modules where asked. Close it. */
export async function visitStack(given: StackOptions = {}) {
  const temporary = given.database
    ? { database: given.database, close: () => given.database?.close() }
    : await temporaryDatabase();
  const { database } = temporary;
  const dataDirectory = await mkdtemp(path.join(tmpdir(), 'tarnkeep-photos-'));
  const clock = FixedClock.at(given.at ?? '2026-05-15T15:00:00Z');
  const values = [
    { provide: Database, useValue: database },
    { provide: Clock, useValue: clock },
    { provide: STATIONS, useValue: STATION_TABLE },
    { provide: CARE_RULES, useValue: RULES },
    { provide: CAUTIONS, useValue: CAUTION_LIST },
    { provide: DECHLORINATORS, useValue: PRODUCTS },
    { provide: AppLogger, useValue: new AppLogger('silent') },
    { provide: JOB_SCHEDULES, useValue: [] },
    {
      provide: SETTINGS,
      useValue: {
        jobs: false,
        dataDirectory,
        sessions: { officeHours: 12, officeIdleMinutes: 120, technicianDays: 30 },
      },
    },
  ];
  @Global()
  @Module({ providers: values, exports: values.map(({ provide }) => provide) })
  class GivenModule {}

  const imports = [GivenModule, VisitsModule, ...(given.imports ?? [])];
  const app = await Test.createTestingModule({ imports }).compile();
  if (!given.imports) await app.init();
  const { company, owner } = await storeCompany(database);
  const people = app.get(PeopleService, { strict: false });
  const technician = await people.addMember({
    companyId: company.id,
    role: 'technician',
    name: 'Dana Ruiz',
    email: `dana-${company.id}@example.com`,
  });
  const calendar = app.get(CareCalendarService, { strict: false });
  const ponds = app.get(PondsService, { strict: false });
  return {
    app,
    database,
    clock,
    dataDirectory,
    companyId: company.id,
    office: actorOf(company.id, { personId: owner.id, role: 'office', name: owner.name }),
    technician: actorOf(company.id, { personId: technician.personId, role: 'technician', name: technician.name }),
    people,
    calendar,
    ponds,
    readings: app.get(ReadingsService, { strict: false }),
    visits: app.get(VisitsService, { strict: false }),
    news: app.get(VisitNews, { strict: false }),
    /** A pond whose record is planned, with its open technician tasks by day. */
    async pondWithTasks(own: Parameters<typeof aPond>[0] = {}) {
      const pondId = await ponds.create(company.id, aPond(own));
      const all = await calendar.tasksOf(company.id, pondId);
      return { pondId, tasks: all.filter(({ task }) => task.doneBy === 'technician' && !task.routineLine) };
    },
    async close() {
      await app.close();
      await temporary.close();
      await rm(dataDirectory, { recursive: true, force: true });
    },
  };
}
export type VisitStack = Awaited<ReturnType<typeof visitStack>>;

export function actorOf(companyId: string, own: Partial<Actor> = {}): Actor {
  return {
    personId: newId(),
    name: 'Somebody',
    email: 'somebody@example.com',
    companyId,
    companyName: 'Lakeside Pond Care',
    role: 'technician',
    units: 'us',
    timeZone: 'America/Chicago',
    isDemo: false,
    sessionId: newId(),
    formToken: 'form-token',
    ...own,
  };
}

/** What a technician sends when all went as planned; name what matters to the test. */
export function aClosing(tasks: readonly CareTaskView[], own: Partial<CloseVisit> = {}): CloseVisit {
  return {
    closingId: newId(),
    closedAt: '2026-05-15T14:55:00Z',
    note: '',
    homeownerPresent: null,
    tasks: tasks.map(({ task }) => ({
      careTaskId: task.id,
      outcome: 'done',
      doneShare: null,
      remark: '',
      actuals: {},
    })),
    readings: [],
    ...own,
  };
}
