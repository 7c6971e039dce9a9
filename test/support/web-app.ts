import { mkdtemp, rm } from 'node:fs/promises';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { NestFactory } from '@nestjs/core';
import type { NestExpressApplication } from '@nestjs/platform-express';
import { static as serveStatic } from 'express';
import { CompaniesService, type CompanyEntity, PeopleService, SessionsService } from '../../src/accounts/index.js';
import { appModule } from '../../src/app.module.js';
import { loadSettings } from '../../src/config/index.js';
import { createFoundation } from '../../src/foundation.js';
import { FixedClock } from '../../src/platform/clock.js';
import { newId } from '../../src/platform/ids.js';
import { AppLogger } from '../../src/platform/logger.js';
import { configureWeb } from '../../src/web/index.js';
import { Visitor } from './visitor.js';

type Role = 'owner' | 'office' | 'technician';

export interface WebAppOptions {
  /** The instant at which its clock stands. */
  readonly at?: string;
  /** Folder with bundled scripts and styles, for a browser. */
  readonly assets?: string;
  /** Further settings, e.g. of a mail server. */
  readonly environment?: Readonly<Record<string, string>>;
}

/** The whole program on a database file of its own, listening on a free port of this machine. Close it. */
export async function webApp(given: WebAppOptions = {}) {
  const directory = await mkdtemp(path.join(tmpdir(), 'tarnkeep-test-'));
  const clock = FixedClock.at(given.at ?? '2026-10-05T15:00:00Z');
  const settings = loadSettings({
    environment: {
      TARNKEEP_DATA_DIRECTORY: directory,
      TARNKEEP_JOBS: 'false',
      TARNKEEP_LOG_LEVEL: 'silent',
      ...given.environment,
    },
    configDirectory: path.resolve('config'),
  });
  const foundation = await createFoundation(settings, { clock, logger: new AppLogger('silent') });
  const app = await NestFactory.create<NestExpressApplication>(appModule(foundation), {
    logger: foundation.logger,
    bodyParser: false,
    abortOnError: false,
  });
  if (given.assets) app.use('/assets', serveStatic(given.assets));
  configureWeb(app, settings);
  await app.listen(0, '127.0.0.1');
  const { port } = app.getHttpServer().address() as AddressInfo;
  const url = `http://127.0.0.1:${port}`;
  const get = <T>(service: new (...args: never[]) => T): T => app.get(service, { strict: false });

  return {
    url,
    clock,
    dataDirectory: directory,
    database: foundation.database,
    get,
    visitor: () => new Visitor(url),
    /** A company in Chicago's zone with US units. */
    company: (name = 'Sedge & Kettle', units: CompanyEntity['units'] = 'us') =>
      get(CompaniesService).create({ name, postalAddress: '40 Mill Race Row', timeZone: 'America/Chicago', units }),
    /** Somebody of a company in a role, with a session. */
    async signedIn(companyId: string, role: Role = 'office', name = 'Marit Lindqvist'): Promise<Visitor> {
      const email = `${newId()}@example.com`;
      const member = await get(PeopleService).addMember({ companyId, email, name, role });
      const { token } = await get(SessionsService).start(member.personId, companyId, role);
      return new Visitor(url, token);
    },
    async close(): Promise<void> {
      await app.close();
      await foundation.database.close();
      await rm(directory, { recursive: true, force: true });
    },
  };
}
export type WebApp = Awaited<ReturnType<typeof webApp>>;
