import { mkdir, mkdtemp, rm } from 'node:fs/promises';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, afterEach, beforeAll, describe, expect, it } from '@jest/globals';
import { build } from 'esbuild';
import { CareTaskEntity, PlanLogEntity } from '../../src/care-calendar/index.js';
import { PlanningThreads } from '../../src/care-calendar/planning-threads.js';
import { PlanningThreadsService } from '../../src/care-calendar/planning-threads.service.js';
import { loadDechlorinators } from '../../src/config/products.js';
import { loadStations } from '../../src/config/stations.js';
import { addDays, civilDay } from '../../src/core/units/civil-day.js';
import { type CareStack, careStack } from '../support/care-stack.js';
import { storeCompany } from '../support/company-rows.js';
import { THREE_RULES } from '../support/three-rules.js';
import { aPond } from '../support/typed-pond.js';

const TABLES = {
  stations: loadStations('config/stations'),
  rules: THREE_RULES,
  dechlorinators: loadDechlorinators('config'),
};
const TODAY = civilDay('2026-05-15');

let stack: CareStack;
let folder: string;
let script: URL;
beforeAll(async () => {
  // Beside the packages, which the thread looks for from where it lies.
  await mkdir('node_modules/.cache', { recursive: true });
  folder = await mkdtemp(path.resolve('node_modules/.cache/planning-thread-'));
  const file = path.join(folder, 'planning.worker.mjs');
  await build({
    entryPoints: ['src/care-calendar/planning.worker.ts'],
    outfile: file,
    bundle: true,
    packages: 'external',
    platform: 'node',
    format: 'esm',
    target: 'node20',
    tsconfigRaw: { compilerOptions: { experimentalDecorators: true, useDefineForClassFields: false } },
  });
  script = pathToFileURL(file);
  stack = await careStack();
});
afterAll(async () => {
  await stack.close();
  await rm(folder, { recursive: true, force: true });
});

let threads: PlanningThreads | null = null;
const start = (count: number) => {
  threads = PlanningThreads.start(count, TABLES, script);
  return threads;
};
const inProcess = () => null;
afterEach(async () => {
  stack.threads.forPonds = inProcess;
  await threads?.close();
});

async function fourPonds() {
  const { company } = await storeCompany(stack.database);
  for (const [i, latitude] of [43, 33.4, 25.8, -37.8].entries()) {
    await stack.ponds.create(company.id, aPond({ name: `pond ${i}`, latitude }));
  }
  return company.id;
}

describe('PlanningThreads', () => {
  it('change a calendar just as one thread does, and are closed afterwards', async () => {
    const [alone, inThreads] = [await fourPonds(), await fourPonds()];
    const asOf = addDays(TODAY, 200);
    const one = await stack.calendar.replanAll(alone, { asOf });
    stack.threads.forPonds = () => start(2);
    const two = await stack.calendar.replanAll(inThreads, { asOf });
    expect(one.changes).toBeGreaterThan(0);
    expect(two).toEqual(one);
    const calendar = async (companyId: string) => {
      const store = stack.database.company(companyId);
      const names = new Map(
        (await stack.ponds.several(companyId, await stack.ponds.activeIds(companyId))).map(({ pond }) => [
          pond.id,
          pond.name,
        ]),
      );
      const log = await store.find(PlanLogEntity);
      const tasks = await store.find(CareTaskEntity);
      return {
        log: log.map(({ pondId, kind, ruleId, cycle }) => `${names.get(pondId)} ${kind} ${ruleId} ${cycle}`).sort(),
        tasks: tasks
          .map(({ pondId, ruleId, cycle, state }) => `${names.get(pondId)} ${ruleId} ${cycle} ${state}`)
          .sort(),
      };
    };
    expect(await calendar(inThreads)).toEqual(await calendar(alone));
    expect(threads?.count).toBe(0);
  });

  it('give the very plan that the program itself gives', async () => {
    const companyId = await fourPonds();
    for (const record of await stack.ponds.several(companyId, await stack.ponds.activeIds(companyId))) {
      const history = { finished: [], readings: [], events: [] };
      const company = { dechlorinatorId: TABLES.dechlorinators.preset.id, defaultDoneBy: 'company' } as const;
      const weather = { air: [], note: null };
      const answer = await (threads?.count ? threads : start(2)).plan({
        record,
        history,
        company,
        today: TODAY,
        weather,
      });
      const { plan, outlook, winter } = await stack.calendar.planAsOf(companyId, record.pond.id, TODAY);
      expect(JSON.parse(JSON.stringify(answer))).toEqual(
        JSON.parse(JSON.stringify({ value: { plan, outlook, winter } })),
      );
    }
  });

  it('name a pond that cannot be planned, and plan the others', async () => {
    const companyId = await fourPonds();
    const [bad] = await stack.ponds.activeIds(companyId);
    const real = PlanningThreads.prototype.plan;
    stack.threads.forPonds = () => {
      const some = start(2);
      some.plan = (order) =>
        real.call(some, order.record.pond.id === bad ? { ...order, today: Number.NaN as never } : order);
      return some;
    };
    const { ponds, failed } = await stack.calendar.replanAll(companyId);
    expect(ponds).toBe(4);
    expect(failed).toEqual([{ pondId: bad, reason: expect.stringContaining('first day') }]);
  });

  it('lose no pond when they end in the middle', async () => {
    const companyId = await fourPonds();
    stack.threads.forPonds = () => {
      const some = start(2);
      void some.close();
      return some;
    };
    const { changes, failed } = await stack.calendar.replanAll(companyId, { asOf: addDays(TODAY, 200) });
    expect(failed).toEqual([]);
    expect(changes).toBeGreaterThan(0);
  });

  it('are not started for a few ponds', () => {
    expect(new PlanningThreadsService(TABLES.stations, TABLES.rules, TABLES.dechlorinators).forPonds(10)).toBeNull();
  });
});
