import path from 'node:path';
import { type DynamicModule, Global, Module } from '@nestjs/common';
import {
  CARE_RULES,
  CAUTIONS,
  DECHLORINATORS,
  type Dechlorinators,
  JOB_SCHEDULES,
  type JobSchedule,
  loadCareRules,
  loadCautions,
  loadDechlorinators,
  loadJobSchedules,
  loadStations,
  loadWordings,
  prepareDataDirectory,
  SETTINGS,
  type Settings,
  STATIONS,
  WORDINGS,
} from './config/index.js';
import type { CareRule } from './core/care/care-rule.js';
import type { Caution } from './core/care/caution.js';
import type { Wording } from './core/care/wording/wording.js';
import type { Station } from './core/climate/station.js';
import { Database, openDatabase } from './database/index.js';
import { ENTITIES } from './entities.js';
import { Clock, SystemClock } from './platform/clock.js';
import { AppLogger } from './platform/logger.js';

/** What every feature stands on: opened and checked before the framework starts, so that a fault is one sentence. */
export interface Foundation {
  readonly settings: Settings;
  readonly logger: AppLogger;
  readonly clock: Clock;
  readonly database: Database;
  readonly stations: readonly Station[];
  readonly careRules: readonly CareRule[];
  readonly cautions: readonly Caution[];
  /** By language; English is always there. */
  readonly wordings: ReadonlyMap<string, Wording>;
  readonly dechlorinators: Dechlorinators;
  readonly jobSchedules: readonly JobSchedule[];
}

/** Parts that tests and `--as-of` bring themselves. */
export type FoundationParts = Partial<Pick<Foundation, 'clock' | 'logger'>>;

/**
 * Reads `config/`, makes the data folder and opens the database, which brings its tables up to date. Whoever calls it
 * closes `database` at the end.
 * @throws SettingsError with a sentence for each fault
 */
export async function createFoundation(settings: Settings, parts: FoundationParts = {}): Promise<Foundation> {
  const { configDirectory } = settings;
  const careRules = loadCareRules(configDirectory);
  const cautions = loadCautions(configDirectory);
  const read = {
    stations: loadStations(path.join(configDirectory, 'stations')),
    careRules,
    cautions,
    wordings: loadWordings(configDirectory, { rules: careRules, cautions }),
    dechlorinators: loadDechlorinators(configDirectory),
    jobSchedules: loadJobSchedules(configDirectory),
  };
  if (settings.database.kind === 'sqlite') prepareDataDirectory(settings);
  const database = await openDatabase(settings.database, ENTITIES);
  return {
    settings,
    logger: parts.logger ?? new AppLogger(settings.logLevel),
    clock: parts.clock ?? new SystemClock(),
    database,
    ...read,
  };
}

/** Found by every feature without being imported: see `foundationModule`. */
@Global()
@Module({})
export class FoundationModule {}

/**
 * Hands the foundation to every feature. Tokens: the classes `Database`, `Clock`, `AppLogger`; the symbols `SETTINGS`,
 * `STATIONS`, `CARE_RULES`, `CAUTIONS`, `WORDINGS`, `DECHLORINATORS`, `JOB_SCHEDULES` of `config/`.
 */
export function foundationModule(foundation: Foundation): DynamicModule {
  const providers = [
    { provide: Database, useValue: foundation.database },
    { provide: Clock, useValue: foundation.clock },
    { provide: AppLogger, useValue: foundation.logger },
    { provide: SETTINGS, useValue: foundation.settings },
    { provide: STATIONS, useValue: foundation.stations },
    { provide: CARE_RULES, useValue: foundation.careRules },
    { provide: CAUTIONS, useValue: foundation.cautions },
    { provide: WORDINGS, useValue: foundation.wordings },
    { provide: DECHLORINATORS, useValue: foundation.dechlorinators },
    { provide: JOB_SCHEDULES, useValue: foundation.jobSchedules },
  ];
  return { module: FoundationModule, providers, exports: providers };
}
