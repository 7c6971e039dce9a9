import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { type Database, openDatabase } from '../../src/database/index.js';
import { ENTITIES } from '../../src/entities.js';
import { type CareStack, careStack } from '../support/care-stack.js';
import { type TemporaryPostgres, temporaryPostgres } from '../support/temporary-postgres.js';
import { aPond } from '../support/typed-pond.js';

let server: TemporaryPostgres;
let database: Database;
let stack: CareStack;
beforeAll(async () => {
  server = await temporaryPostgres();
  database = await openDatabase({ kind: 'postgres', url: await server.newDatabase('calendar') }, ENTITIES);
  stack = await careStack({ database });
}, 60_000);
afterAll(async () => {
  await stack?.close();
  await database?.close();
  await server?.stop();
});

describe('ponds and calendar on PostgreSQL', () => {
  it('keep, find, plan, finish and list as on SQLite', async () => {
    const { companyId, personId: by, calendar } = stack;
    const pondId = await stack.ponds.create(
      companyId,
      aPond({ name: 'Koi 100% pond', ref: 'K-1', contacts: [{ name: 'Ana Field', email: 'ana@example.com' }] }),
    );
    expect((await stack.ponds.list(companyId, { search: 'ANA 100%' })).rows).toMatchObject([
      { contactName: 'Ana Field' },
    ]);

    const [old] = await stack.readings.add(companyId, pondId, [
      { quantity: 'total-ammonia', value: 2, takenAt: '2026-05-15T14:00:00Z' },
    ]);
    expect((await calendar.thisWeek(companyId)).urgent).toHaveLength(1);
    await stack.readings.add(companyId, pondId, [
      { quantity: 'total-ammonia', value: 0.2, takenAt: '2026-05-15T14:00:00Z', replacesId: old },
    ]);
    expect((await calendar.thisWeek(companyId)).urgent).toEqual([]);

    const [monthly] = await calendar.dueForTechnicians(companyId, { from: '2026-04-01', to: '2026-06-30' });
    const { task: last } = (await calendar.tasksOf(companyId, pondId)).at(-1)!;
    await calendar.putOff(companyId, last.id, last.latestOn);
    const inAutumn = await calendar.dueForTechnicians(companyId, {
      from: last.latestOn,
      to: last.latestOn,
      withEarlier: false,
    });
    expect(inAutumn.map(({ task }) => task.id)).toEqual([last.id]);
    await calendar.complete(companyId, monthly!.task.id, { by });
    expect((await calendar.tasksOf(companyId, pondId, { finished: true })).map(({ task }) => task.id)).toEqual([
      monthly!.task.id,
    ]);
    expect(await calendar.replan(companyId, pondId)).toEqual([]);
  });

  it('import what they exported, changing nothing', async () => {
    let text = '';
    for await (const piece of stack.exports.exportCsv(stack.companyId)) text += piece;
    const run = await stack.imports.importCsv(stack.companyId, { fileName: 'own.csv', text });
    expect(run).toMatchObject({ state: 'imported', totalRows: 1, report: { pondsAdded: 0, pondsChanged: 0 } });
  });
});
