import { afterEach, describe, expect, it } from '@jest/globals';
import { json, tenDays, type WeatherServer, weatherServer } from '../climate/weather/weather-server.js';
import { type CareStack, careStack } from '../support/care-stack.js';
import { shippedRule } from '../support/shipped-rules.js';
import { aPond } from '../support/typed-pond.js';

const RULES = ['ice-tonight', 'heat-ahead', 'ice-opening'].map(shippedRule);
const FIRING = { signal: new AbortController().signal };

/** The nightly job with a weather forecast, in Madison, in the night to 12 November 2026. */
describe('Weather watch', () => {
  let stack: CareStack;
  let server: WeatherServer;
  afterEach(async () => {
    await stack.close();
    await server.close();
  });
  async function open(answer: Parameters<typeof weatherServer>[0], at = '2026-11-12T09:23:00Z') {
    server = await weatherServer(answer);
    stack = await careStack({ at, rules: RULES, weather: { address: server.address, format: 'days' } });
    return stack.ponds.create(stack.companyId, aPond({ careSince: '2026-03-01' }));
  }
  const tasks = async (pondId: string) =>
    (await stack.calendar.tasksOf(stack.companyId, pondId)).map(({ task }) => ({
      ruleId: task.ruleId,
      dueOn: task.dueOn,
      consequence: task.consequence,
      doneBy: task.doneBy,
    }));
  const notes = async (pondId: string) => (await stack.calendar.outcomeOf(stack.companyId, pondId))!.outlook;

  const frostFrom = (day: string) => (date: string) => (date >= day ? -12 : 6);
  const today = () => stack.clock.now().setZone('America/Chicago').toISODate()!;
  const night = (meanC: (date: string) => number) => {
    server.answer = json(tenDays(today(), meanC));
    return stack.nightly.replanEverything(FIRING);
  };
  const found = async (pondId: string, rule: string) => (await tasks(pondId)).filter(({ ruleId }) => ruleId === rule);

  it('raises an urgent task on the day before the first ice, and asks once for a place', async () => {
    const pondId = await open(json(tenDays('2026-11-12', frostFrom('2026-11-15'))));
    await stack.ponds.create(stack.companyId, aPond({ careSince: '2026-03-01', name: 'Next door' }));
    expect(await stack.nightly.replanEverything(FIRING)).toMatch(/^1 forecasts got and 0 not, 2 ponds planned/);
    expect(server.asked).toHaveLength(1);
    expect(server.asked[0]!.get('latitude')).toMatch(/^\d+\.\d$/);
    expect((await notes(pondId)).warnings.join()).not.toContain('forecast');
    expect(await found(pondId, 'ice-tonight')).toEqual([]);

    const raisedOn: string[] = [];
    for (let days = 1; days <= 5; days++) {
      stack.clock.advance({ days: 1 });
      await night(frostFrom('2026-11-15'));
      for (const task of await found(pondId, 'ice-tonight')) {
        expect(task).toMatchObject({ consequence: 'urgent', doneBy: 'homeowner' });
        raisedOn.push(`${today()} ${task.dueOn}`);
      }
    }
    expect(raisedOn[0]).toBe('2026-11-14 2026-11-14');
  });

  it('lays the air over the first days of the water, and lets it fade', async () => {
    const pondId = await open(json(tenDays('2026-09-12', () => 3)), '2026-09-12T09:23:00Z');
    const before = (await notes(pondId)).p50C;
    await stack.nightly.replanEverything(FIRING);
    const after = (await notes(pondId)).p50C;
    expect(before[6]! - after[6]!).toBeGreaterThan(4);
    expect(Math.abs(before[60]! - after[60]!)).toBeLessThan(1);
  });

  it('takes the task away when the forecast turns, and keeps its name when it comes back', async () => {
    const pondId = await open(json(tenDays('2026-11-12', frostFrom('2026-11-13'))));
    await stack.nightly.replanEverything(FIRING);
    const cycle = async () =>
      (await stack.calendar.tasksOf(stack.companyId, pondId)).find(({ task }) => task.ruleId === 'ice-tonight')?.task
        .cycle;
    const first = await cycle();
    expect(await found(pondId, 'ice-tonight')).toHaveLength(1);
    stack.clock.advance({ hours: 5 });
    await night(() => 14);
    expect(await found(pondId, 'ice-tonight')).toEqual([]);
    stack.clock.advance({ hours: 5 });
    await night(frostFrom('2026-11-13'));
    expect(await cycle()).toBe(first);
  });

  it('raises heat and oxygen the day before hot water', async () => {
    const pondId = await open(json(tenDays('2026-07-20', () => 24)), '2026-07-20T08:23:00Z');
    await stack.nightly.replanEverything(FIRING);
    expect(await found(pondId, 'heat-ahead')).toEqual([]);
    for (let days = 0; days < 6 && (await found(pondId, 'heat-ahead')).length === 0; days++) {
      stack.clock.advance({ days: 1 });
      await night(() => 36);
    }
    expect(await found(pondId, 'heat-ahead')).toMatchObject([{ consequence: 'urgent', doneBy: 'homeowner' }]);
  });

  it('costs a note and nothing else when the provider is down', async () => {
    const pondId = await open((_request, response) => response.writeHead(503).end());
    const without = await tasks(pondId);
    const water = (await notes(pondId)).p50C;
    expect(await stack.nightly.replanEverything(FIRING)).toMatch(
      /^0 forecasts got and 1 not, 1 ponds planned, \d calendars changed, 0 failed$/,
    );
    expect(await tasks(pondId)).toEqual(without);
    expect((await notes(pondId)).p50C).toEqual(water);
    expect((await notes(pondId)).warnings).toContain(
      'No weather forecast could be had: the days ahead are the normal ones of the climate.',
    );
  });

  it('goes on with yesterday’s forecast for a day and a half, and says so', async () => {
    const pondId = await open(json(tenDays('2026-11-12', () => -12)));
    await stack.nightly.replanEverything(FIRING);
    server.answer = (_request, response) => response.writeHead(503).end();
    stack.clock.advance({ days: 1 });
    await stack.nightly.replanEverything(FIRING);
    expect((await notes(pondId)).warnings.join()).toContain('that of yesterday is used');
    stack.clock.advance({ days: 1 });
    await stack.nightly.replanEverything(FIRING);
    expect((await notes(pondId)).warnings.join()).toContain('No weather forecast could be had');
  });
});

describe('Weather watch that is not set up', () => {
  it('asks nobody and says nothing', async () => {
    const stack = await careStack({ rules: RULES, at: '2026-11-12T09:23:00Z' });
    try {
      const pondId = await stack.ponds.create(stack.companyId, aPond({ careSince: '2026-03-01' }));
      expect(await stack.nightly.replanEverything(FIRING)).toMatch(/^1 ponds planned/);
      const outcome = await stack.calendar.outcomeOf(stack.companyId, pondId);
      expect(outcome!.outlook.warnings.join()).not.toContain('forecast');
    } finally {
      await stack.close();
    }
  });
});
