import path from 'node:path';
import { Global, Module } from '@nestjs/common';
import { APP_FILTER, APP_GUARD } from '@nestjs/core';
import type { NestExpressApplication } from '@nestjs/platform-express';
import { Test } from '@nestjs/testing';
import { AccountsModule, LinksService, PeopleService } from '../../src/accounts/index.js';
import {
  CareCalendarModule,
  CareCalendarService,
  CareTaskEntity,
  type CareTaskView,
} from '../../src/care-calendar/index.js';
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
  type SmtpSettings,
  STATIONS,
  WORDINGS,
} from '../../src/config/index.js';
import { Database } from '../../src/database/index.js';
import { Clock, FixedClock } from '../../src/platform/clock.js';
import { AppLogger } from '../../src/platform/logger.js';
import {
  type ContactInputTyped,
  PondContactsService,
  type PondInputTyped,
  PondsModule,
  PondsService,
  ReadingsService,
} from '../../src/ponds/index.js';
import {
  HomeownersService,
  MailDelivery,
  MailOutboxEntity,
  MailTransport,
  OutboxService,
  ReminderEntity,
  ReminderSweep,
  RemindersModule,
  SmtpTransport,
} from '../../src/reminders/index.js';
import { VisitsModule, VisitsService } from '../../src/visits/index.js';
import { HOMEOWNER_CONTROLLERS, HOMEOWNER_PROVIDERS } from '../../src/web/homeowner/index.js';
import { MESSAGES_CONTROLLERS } from '../../src/web/office/messages/index.js';
import { PAPER_PROVIDERS } from '../../src/web/papers/index.js';
import { AccessGuard } from '../../src/web/shell/access.guard.js';
import { configureWeb } from '../../src/web/shell/configure-web.js';
import { DomainErrorFilter } from '../../src/web/shell/domain-error.filter.js';
import { FormTokenGuard } from '../../src/web/shell/form-token.guard.js';
import { storeCompany } from '../support/company-rows.js';
import { temporaryDatabase } from '../support/temporary-database.js';
import { aPond } from '../support/typed-pond.js';
import { FROM_ADDRESS } from './outbox-bench.js';

const CONFIG = path.resolve('config');
const STATION_TABLE = loadStations(path.join(CONFIG, 'stations'));
const PRODUCTS = loadDechlorinators(CONFIG);
const ALL_CAUTIONS = loadCautions(CONFIG);
/** Rules that give the pond of the tests something to do in early October; all of them would only be slower. */
const RULES = loadCareRules(CONFIG).filter(({ id }) =>
  [
    'ammonia-high',
    'evaporation-top-up',
    'feed-by-water-temperature',
    'feed-stop',
    'filter-media-rinse',
    'leaf-net-on',
    'part-water-change',
    'residual-current-test',
    'uv-lamp-replacement',
    'winter-pump-shutdown',
  ].includes(id),
);

/** 26 September 2026, eight in the morning in Chicago. */
export const SATURDAY_MORNING = '2026-09-26T13:00:00.000Z';
/** The water of a pond depends on its id; with this one the dates of the tests are always the same. */
export const POND_ID = '0199b3c4-0000-7000-8000-000000000001';
export const PUBLIC_URL = 'https://care.example.com';

export interface ReminderStackOptions {
  readonly at?: string;
  readonly smtp?: SmtpSettings | null;
  readonly isDemo?: boolean;
  readonly database?: Awaited<ReturnType<typeof temporaryDatabase>>;
}

/** Everything up to reminders with real care rules, and the pages behind links over HTTP. Close it. */
export async function reminderStack(given: ReminderStackOptions = {}) {
  const temporary = given.database ?? (await temporaryDatabase());
  const { database } = temporary;
  const clock = FixedClock.at(given.at ?? SATURDAY_MORNING);
  const values = [
    { provide: Database, useValue: database },
    { provide: Clock, useValue: clock },
    { provide: STATIONS, useValue: STATION_TABLE },
    { provide: CARE_RULES, useValue: RULES },
    { provide: CAUTIONS, useValue: ALL_CAUTIONS },
    { provide: WORDINGS, useValue: new Map() },
    { provide: DECHLORINATORS, useValue: PRODUCTS },
    { provide: AppLogger, useValue: new AppLogger('silent') },
    { provide: JOB_SCHEDULES, useValue: [] },
    {
      provide: SETTINGS,
      useValue: {
        jobs: false,
        publicUrl: PUBLIC_URL,
        smtp: given.smtp ?? null,
        mailFrom: { name: 'Tarnkeep', address: FROM_ADDRESS },
        sessions: { officeHours: 12, officeIdleMinutes: 120, technicianDays: 30 },
      },
    },
  ];
  @Global()
  @Module({ providers: values, exports: values.map(({ provide }) => provide) })
  class GivenModule {}

  let testing = Test.createTestingModule({
    imports: [GivenModule, AccountsModule, PondsModule, CareCalendarModule, VisitsModule, RemindersModule],
    controllers: [...HOMEOWNER_CONTROLLERS, ...MESSAGES_CONTROLLERS],
    providers: [
      ...HOMEOWNER_PROVIDERS,
      ...PAPER_PROVIDERS,
      { provide: APP_GUARD, useClass: AccessGuard },
      { provide: APP_GUARD, useClass: FormTokenGuard },
      { provide: APP_FILTER, useClass: DomainErrorFilter },
    ],
  });
  if (given.smtp) {
    const patient = { beforeTextMs: 2_000, afterTextMs: 700, idleMs: 200 };
    testing = testing
      .overrideProvider(MailTransport)
      .useValue(new SmtpTransport(given.smtp, FROM_ADDRESS, { patience: patient }));
  }
  const module = await testing.compile();
  const app = module.createNestApplication<NestExpressApplication>({ bodyParser: false, logger: false });
  configureWeb(app, { publicUrl: PUBLIC_URL });
  await app.init();

  const { company, owner } = await storeCompany(database, {
    isDemo: given.isDemo ?? false,
    name: 'Sedge & Kettle <b>',
  });
  const get = <T>(type: abstract new (...parts: never[]) => T) => app.get(type, { strict: false }) as T;
  const ponds = get(PondsService);
  const calendar = get(CareCalendarService);
  return {
    app,
    database,
    clock,
    temporary,
    company,
    companyId: company.id,
    owner,
    ponds,
    calendar,
    contacts: get(PondContactsService),
    readings: get(ReadingsService),
    people: get(PeopleService),
    links: get(LinksService),
    visits: get(VisitsService),
    homeowners: get(HomeownersService),
    sweep: get(ReminderSweep),
    outbox: get(OutboxService),
    delivery: get(MailDelivery),
    mails: () => database.company(company.id).find(MailOutboxEntity, { order: { createdAt: 'ASC', id: 'ASC' } }),
    reminders: () => database.company(company.id).find(ReminderEntity),
    tasks: () => database.company(company.id).find(CareTaskEntity),
    /** A pond that its homeowner cares for. */
    async homeownersPond(
      contact: Partial<ContactInputTyped> = {},
      own: Partial<PondInputTyped> & { id?: string } = {},
    ) {
      const { id = POND_ID, ...input } = own;
      const pondId = await ponds.create(
        company.id,
        aPond({
          name: 'Haugen pond',
          town: 'Verona',
          careSince: '2026-09-05',
          agreement: RULES.filter(({ audience }) => audience === 'either').map(({ id }) => ({
            ruleId: id,
            doneBy: 'homeowner' as const,
          })),
          contacts: [{ ...SOLVEIG, ...contact }],
          ...input,
        }),
        { id },
      );
      return pondId;
    },
    async close() {
      await app.close();
      if (!given.database) await temporary.close();
    },
  };
}
export type ReminderStack = Awaited<ReturnType<typeof reminderStack>>;

/** A homeowner who wants the mail on Saturdays at eight. */
export const SOLVEIG: ContactInputTyped = {
  name: 'Solveig Haugen',
  email: 'solveig@example.com',
  phone: '+1 608 555 0142',
  digestWeekday: 6,
  digestHour: 8,
  startedOn: '2026-03-01',
};

/** Open tasks that the homeowner is asked to do. */
export function asked(views: readonly CareTaskView[]): CareTaskView[] {
  return views.filter(({ task }) => task.doneBy === 'homeowner' && !task.routineLine);
}

/** Links of one purpose in a text, as paths. */
export function linksIn(text: string, purpose: string): string[] {
  return [
    ...new Set([...text.matchAll(new RegExp(`${PUBLIC_URL}(/l/${purpose}/[A-Za-z0-9_-]{43})`, 'g'))].map((m) => m[1]!)),
  ];
}
