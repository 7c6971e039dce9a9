import type { AddressInfo } from 'node:net';
import { type MiddlewareConsumer, Module, type NestModule } from '@nestjs/common';
import { APP_FILTER, APP_GUARD } from '@nestjs/core';
import type { NestExpressApplication } from '@nestjs/platform-express';
import type { NextFunction, Response } from 'express';
import { AccountsModule, type Actor } from '../../../src/accounts/index.js';
import { CareCalendarModule } from '../../../src/care-calendar/index.js';
import { PondsModule } from '../../../src/ponds/index.js';
import { VisitsModule } from '../../../src/visits/index.js';
import { VISIT_CONTROLLERS } from '../../../src/web/office/visits/index.js';
import { AccessGuard } from '../../../src/web/shell/access.guard.js';
import type { RequestWithActor } from '../../../src/web/shell/access.js';
import { configureWeb } from '../../../src/web/shell/configure-web.js';
import { DomainErrorFilter } from '../../../src/web/shell/domain-error.filter.js';
import { FormTokenGuard } from '../../../src/web/shell/form-token.guard.js';
import { TECHNICIAN_CONTROLLERS, TECHNICIAN_PROVIDERS } from '../../../src/web/technician/index.js';
import { visitStack } from '../../visits/visit-stack.js';

/** Who is signed in, as the session middleware would find. */
const session: { actor: Actor | null } = { actor: null };

@Module({
  imports: [AccountsModule, PondsModule, CareCalendarModule, VisitsModule],
  controllers: [...TECHNICIAN_CONTROLLERS, ...VISIT_CONTROLLERS],
  providers: [
    ...TECHNICIAN_PROVIDERS,
    { provide: APP_GUARD, useClass: AccessGuard },
    { provide: APP_GUARD, useClass: FormTokenGuard },
    { provide: APP_FILTER, useClass: DomainErrorFilter },
  ],
})
class VisitPagesModule implements NestModule {
  configure(consumer: MiddlewareConsumer): void {
    consumer
      .apply((request: RequestWithActor, _response: Response, next: NextFunction) => {
        request.actor = session.actor;
        next();
      })
      .forRoutes('{*path}');
  }
}

/** The visit pages over HTTP with real services and guards; only the session is given. Close it. */
export async function webStack(given: { at?: string } = {}) {
  const stack = await visitStack({ ...given, imports: [VisitPagesModule] });
  const app = stack.app.createNestApplication<NestExpressApplication>({ bodyParser: false });
  configureWeb(app, { publicUrl: 'http://127.0.0.1:3000' });
  await app.listen(0, '127.0.0.1');
  const base = `http://127.0.0.1:${(app.getHttpServer().address() as AddressInfo).port}`;

  const send = async (path: string, init: RequestInit = {}) => {
    const response = await fetch(`${base}${path}`, { redirect: 'manual', ...init });
    return { status: response.status, headers: response.headers, text: await response.text() };
  };
  return {
    ...stack,
    base,
    as(actor: Actor | null): void {
      session.actor = actor;
    },
    get: (path: string) => send(path, { headers: { accept: 'text/html' } }),
    /** A form as a browser without script posts it. */
    post(path: string, fields: Readonly<Record<string, string | readonly string[]>> = {}) {
      const body = new URLSearchParams({ _token: session.actor?.formToken ?? '' });
      for (const [name, value] of Object.entries(fields)) {
        for (const one of [value].flat()) body.append(name, one);
      }
      return send(path, { method: 'POST', body, headers: { accept: 'text/html' } });
    },
    json(path: string, body: unknown, headers: Record<string, string> = {}) {
      const token = session.actor?.formToken ?? '';
      const sent = {
        'content-type': 'application/json',
        accept: 'application/json',
        'x-form-token': token,
        ...headers,
      };
      return send(path, { method: 'POST', body: JSON.stringify(body), headers: sent });
    },
    async close() {
      await app.close();
      await stack.close();
    },
  };
}
export type WebStack = Awaited<ReturnType<typeof webStack>>;
