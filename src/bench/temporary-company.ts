import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { type INestApplicationContext, Module, type Type } from '@nestjs/common';
import { NestFactory } from '@nestjs/core';
import { CompaniesService } from '../accounts/index.js';
import { loadSettings } from '../config/index.js';
import { createFoundation, foundationModule } from '../foundation.js';
import type { CompanyId } from '../platform/ids.js';

export interface TemporaryCompany {
  readonly app: INestApplicationContext;
  readonly companyId: CompanyId;
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

  class BenchModule {}
  Module({ imports: [foundationModule(foundation), feature] })(BenchModule);
  const app = await NestFactory.createApplicationContext(BenchModule, { logger: false });
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
    async close() {
      await app.close();
      await foundation.database.close();
      await rm(directory, { recursive: true, force: true });
    },
  };
}
