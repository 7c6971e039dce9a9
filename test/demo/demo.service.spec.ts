import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { CompaniesService, FirstAccountService } from '../../src/accounts/index.js';
import { CareTaskEntity } from '../../src/care-calendar/index.js';
import { DEMO_LOADER, type DemoLoader } from '../../src/demo-loader.js';
import { PondsService } from '../../src/ponds/index.js';
import { OutboxService, ReminderSweep } from '../../src/reminders/index.js';
import { VisitEntity } from '../../src/visits/index.js';
import { type WebApp, webApp } from '../support/web-app.js';

let app: WebApp;
let demo: DemoLoader;
beforeAll(async () => {
  app = await webApp({ at: '2026-10-09T15:00:00Z' });
  demo = app.get<DemoLoader>(DEMO_LOADER as never);
}, 60_000);
afterAll(() => app.close());

describe('the demo', () => {
  it('is there whole or not at all: a load that fails at its last step leaves an empty installation', async () => {
    const sweep = app.get(ReminderSweep);
    sweep.run = () => Promise.reject(new Error('switched off'));
    await expect(demo.load(() => undefined)).rejects.toThrow('switched off');
    expect(await app.get(CompaniesService).all()).toEqual([]);
    expect(await app.get(FirstAccountService).isNeeded()).toBe(true);
    delete (sweep as Partial<ReminderSweep>).run;
  }, 60_000);

  it('has ponds with a year of history, planned visits and mail that never leaves', async () => {
    await demo.load(() => undefined);
    const company = (await app.get(CompaniesService).all())[0]!;
    const store = app.database.company(company.id);
    const { rows } = await app.get(PondsService).list(company.id, { pageSize: 100 });
    expect(rows).toHaveLength(30);
    for (const { pond } of rows) {
      expect(await store.count(CareTaskEntity, { pondId: pond.id, state: 'COMPLETED' })).toBeGreaterThan(0);
      expect(await store.count(CareTaskEntity, { pondId: pond.id, state: 'NEEDS-ACTION' })).toBeGreaterThan(5);
    }
    expect(await store.count(VisitEntity, { state: 'COMPLETED' })).toBeGreaterThan(100);
    expect(await store.count(VisitEntity, { state: 'CONFIRMED' })).toBeGreaterThan(0);
    const mails = await app.get(OutboxService).list(company.id, { skip: 0, take: 100 });
    expect(mails.total).toBeGreaterThan(10);
    expect(mails.rows.every(({ state, toAddress }) => state === 'kept' && toAddress.endsWith('@example.com'))).toBe(
      true,
    );
    expect((await demo.signIns()).map(({ who }) => who)).toEqual(['Office', 'Technician', 'Homeowner']);
  }, 60_000);
});
