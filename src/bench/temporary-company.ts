import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { type INestApplicationContext, Module, type Type } from '@nestjs/common';
import { NestFactory } from '@nestjs/core';
import { CompaniesService } from '../accounts/index.js';
import { loadSettings } from '../config/index.js';
import { createFoundation, type Foundation, foundationModule } from '../foundation.js';
import type { CompanyId } from '../platform/ids.js';

export interface TemporaryCompany {
  readonly app: INestApplicationContext;
  readonly companyId: CompanyId;
  readonly foundation: Foundation;
  /** The database, where nothing else was asked for: a SQLite file. */
  readonly databaseFile: string;
  /** The services of another feature on the same database. */
  another(feature: Type<unknown>): Promise<INestApplicationContext>;
  close(): Promise<void>;
}

/** The services of a feature on a database of their own in a fresh folder, with one empty company. Close it. */
export async function temporaryCompany(feature: Type<unknown>): Promise<TemporaryCompany> {
  const directory = await mkdtemp(path.join(tmpdir(), 'tarnkeep-bench-'));
  const configDirectory = path.join(import.meta.dirname, '../../config');
  const settings = loadSettings({
    environment: {},
    configDirectory,
    flags: { dataDirectory: directory, jobs: 'false' },
  });
  const foundation = await createFoundation(settings);

  const apps: INestApplicationContext[] = [];
  const another = async (wanted: Type<unknown>) => {
    class BenchModule {}
    Module({ imports: [foundationModule(foundation), wanted] })(BenchModule);
    const context = await NestFactory.createApplicationContext(BenchModule, { logger: false });
    apps.push(context);
    return context;
  };
  const app = await another(feature);
  const companies = app.get(CompaniesService, { strict: false });
  const company = await companies.create({
    name: 'Bench',
    postalAddress: '12 Mill Lane, Madison',
    timeZone: 'America/Chicago',
    units: 'us',
  });
  return {
    app,
    companyId: company.id,
    foundation,
    databaseFile: settings.database.kind === 'sqlite' ? settings.database.file : '',
    another,
    async close() {
      for (const context of apps) await context.close();
      await foundation.database.close();
      await rm(directory, { recursive: true, force: true });
    },
  };
}
