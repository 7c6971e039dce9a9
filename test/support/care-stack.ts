import { Global, Module } from '@nestjs/common';
import { Test } from '@nestjs/testing';
import { LinksService, PeopleService } from '../../src/accounts/index.js';
import { CareCalendarModule, CareCalendarService, YearAheadService } from '../../src/care-calendar/index.js';
import { PlanningThreadsService } from '../../src/care-calendar/planning-threads.service.js';
import { ReplanJob } from '../../src/care-calendar/replan-job.js';
import { ClimateService } from '../../src/climate/index.js';
import { JOB_SCHEDULES, loadJobSchedules } from '../../src/config/job-schedules.js';
import { loadDechlorinators } from '../../src/config/products.js';
import { SETTINGS, type WeatherSettings } from '../../src/config/settings.js';
import { loadStations } from '../../src/config/stations.js';
import { CARE_RULES, DECHLORINATORS, STATIONS } from '../../src/config/tokens.js';
import type { CareRule } from '../../src/core/care/care-rule.js';
import { Database } from '../../src/database/index.js';
import { Clock, FixedClock } from '../../src/platform/clock.js';
import { AppLogger } from '../../src/platform/logger.js';
import {
  PondContactsService,
  PondEventsService,
  PondExportService,
  PondImportService,
  PondNews,
  PondsService,
  ReadingsService,
} from '../../src/ponds/index.js';
import { storeCompany } from './company-rows.js';
import { temporaryDatabase } from './temporary-database.js';
import { THREE_RULES } from './three-rules.js';

const STATION_TABLE = loadStations('config/stations');
const PRODUCTS = loadDechlorinators('config');

export interface StackOptions {
  readonly at?: string;
  readonly rules?: readonly CareRule[];
  /** False: ponds without anybody who plans them. */
  readonly isPlanned?: boolean;
  /** Where weather is asked for; nowhere unless given. */
  readonly weather?: WeatherSettings;
  /** Another database than a file of its own; whoever brings it closes it. */
  readonly database?: Database;
}

/** Everything up to the care calendar, on a database file of its own, with a clock that stands still. Close it. */
export async function careStack(given: StackOptions = {}) {
  const temporary = given.database ? null : await temporaryDatabase();
  const database = (given.database ?? temporary?.database) as Database;
  const clock = FixedClock.at(given.at ?? '2026-05-15T15:00:00Z');
  const values = [
    { provide: Database, useValue: database },
    { provide: Clock, useValue: clock },
    { provide: STATIONS, useValue: STATION_TABLE },
    { provide: CARE_RULES, useValue: given.rules ?? THREE_RULES },
    { provide: DECHLORINATORS, useValue: PRODUCTS },
    { provide: AppLogger, useValue: new AppLogger('silent') },
    { provide: JOB_SCHEDULES, useValue: loadJobSchedules('config') },
    {
      provide: SETTINGS,
      useValue: {
        jobs: false,
        weather: given.weather ?? null,
        sessions: { officeHours: 12, officeIdleMinutes: 120, technicianDays: 30 },
      },
    },
  ];
  @Global()
  @Module({ providers: values, exports: values.map(({ provide }) => provide) })
  class GivenModule {}

  const app = await Test.createTestingModule({ imports: [GivenModule, CareCalendarModule] }).compile();
  if (given.isPlanned !== false) await app.init();
  const { company, owner } = await storeCompany(database);
  return {
    database,
    clock,
    companyId: company.id,
    personId: owner.id,
    people: app.get(PeopleService, { strict: false }),
    links: app.get(LinksService, { strict: false }),
    climate: app.get(ClimateService, { strict: false }),
    news: app.get(PondNews, { strict: false }),
    ponds: app.get(PondsService, { strict: false }),
    contacts: app.get(PondContactsService, { strict: false }),
    readings: app.get(ReadingsService, { strict: false }),
    events: app.get(PondEventsService, { strict: false }),
    imports: app.get(PondImportService, { strict: false }),
    exports: app.get(PondExportService, { strict: false }),
    calendar: app.get(CareCalendarService, { strict: false }),
    yearAhead: app.get(YearAheadService, { strict: false }),
    nightly: app.get(ReplanJob, { strict: false }),
    threads: app.get(PlanningThreadsService, { strict: false }),
    async close() {
      await app.close();
      await temporary?.close();
    },
  };
}

export type CareStack = Awaited<ReturnType<typeof careStack>>;
