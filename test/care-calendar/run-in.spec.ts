import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { type CareStack, careStack } from '../support/care-stack.js';
import { shippedRules } from '../support/shipped-rules.js';
import { aPond } from '../support/typed-pond.js';

let stack: CareStack;
beforeAll(async () => {
  stack = await careStack({ at: '2026-06-12T15:00:00Z', rules: shippedRules() });
});
afterAll(() => stack.close());

describe('the run-in of a new pond, with the shipped rules', () => {
  it('lets livestock in only after the filter was fed and two readings 48 hours apart are in order', async () => {
    const { companyId, calendar } = stack;
    const pondId = await stack.ponds.create(
      companyId,
      aPond({ commissionedOn: '2026-06-01', stockedOn: null, careSince: '2026-06-01' }),
    );
    const open = async () => (await calendar.tasksOf(companyId, pondId)).map(({ task }) => task);
    const find = async (ruleId: string) => (await open()).find((task) => task.ruleId === ruleId);
    const test = async (takenAt: string) => {
      stack.clock.set(takenAt);
      await stack.readings.add(companyId, pondId, [
        { quantity: 'total-chlorine', value: 0.01, takenAt },
        { quantity: 'total-ammonia', value: 0.1, takenAt },
        { quantity: 'nitrite', value: 0.02, takenAt },
      ]);
    };
    const done = async (ruleId: string) => {
      const task = await find(ruleId);
      await calendar.complete(companyId, task!.id, { by: stack.personId });
      return task!;
    };

    expect(await find('first-livestock')).toBeUndefined();
    expect(await find('feed-by-water-temperature')).toBeUndefined();
    await done('run-in-feed-filter');
    await test('2026-07-01T15:00:00Z');
    await test('2026-07-02T15:00:00Z');
    expect(await find('first-livestock')).toBeUndefined();
    await test('2026-07-03T16:00:00Z');

    const first = await done('first-livestock');
    expect((await stack.ponds.pond(companyId, pondId)).stockedOn).toBe('2026-07-03');
    expect(await find('feed-by-water-temperature')).toBeDefined();
    expect(await find('run-in-water-tests')).toBeUndefined();

    await calendar.reopen(companyId, first.id, { by: stack.personId });
    expect((await stack.ponds.pond(companyId, pondId)).stockedOn).toBeNull();
    expect(await find('first-livestock')).toMatchObject({ id: first.id, state: 'NEEDS-ACTION' });
    expect(await find('feed-by-water-temperature')).toBeUndefined();
  });
});

describe('the stocking of a new pond in parts, with the shipped rules', () => {
  it('goes on a fortnight later when a week of readings was in order, and counts what was put in', async () => {
    const { companyId, calendar } = stack;
    stack.clock.set('2026-06-12T15:00:00Z');
    const pondId = await stack.ponds.create(
      companyId,
      aPond({ name: 'In parts', commissionedOn: '2026-06-01', stockedOn: null, careSince: '2026-06-01' }),
    );
    const find = async (ruleId: string) =>
      (await calendar.tasksOf(companyId, pondId)).map(({ task }) => task).find((task) => task.ruleId === ruleId);
    const test = async (...instants: string[]) => {
      for (const takenAt of instants) {
        stack.clock.set(takenAt);
        await stack.readings.add(companyId, pondId, [
          { quantity: 'total-chlorine', value: 0.01, takenAt },
          { quantity: 'total-ammonia', value: 0.1, takenAt },
          { quantity: 'nitrite', value: 0.02, takenAt },
        ]);
      }
    };
    const done = async (ruleId: string, actuals: Record<string, number> = {}) =>
      calendar.complete(companyId, (await find(ruleId))!.id, { by: stack.personId, actuals });
    const inParts = async () =>
      (await calendar.outcomeOf(companyId, pondId))!.findings.find(({ code }) => code === 'stocking-in-stages');

    expect((await inParts())?.inputs).toContainEqual({ name: 'parts', value: 5, unit: '' });
    await done('run-in-feed-filter');
    await test('2026-07-01T15:00:00Z', '2026-07-03T16:00:00Z');
    await done('first-livestock', { stockedKg: 1 });
    await test('2026-07-05T15:00:00Z', '2026-07-11T15:00:00Z');
    expect(await find('next-livestock')).toBeUndefined();
    await test('2026-07-12T16:00:00Z');
    expect(await find('next-livestock')).toMatchObject({ dueOn: '2026-07-17', cycle: '1' });
    expect((await inParts())?.inputs).toContainEqual({ name: 'stocked', value: 1, unit: 'kg' });

    stack.clock.set('2026-07-17T15:00:00Z');
    await done('next-livestock', { stockedKg: 4.4 });
    expect(await find('next-livestock')).toBeUndefined();
    expect(await inParts()).toBeUndefined();
    expect((await stack.ponds.pond(companyId, pondId)).stockedOn).toBe('2026-07-03');
  });
});

describe('a pond in a frost-free place, with the shipped rules', () => {
  it('gets no winter shutdown, and an answer why', async () => {
    const miami = { latitude: 25.77, longitude: -80.19, elevationM: 2, town: 'Miami', region: 'FL' };
    const pondId = await stack.ponds.create(stack.companyId, aPond(miami));
    const rules = (await stack.calendar.tasksOf(stack.companyId, pondId)).map(({ task }) => task.ruleId);
    expect(rules).not.toContain('winter-pump-shutdown');
    const outcome = await stack.calendar.outcomeOf(stack.companyId, pondId);
    const why = outcome!.notDue.find(({ ruleId }) => ruleId === 'winter-pump-shutdown');
    expect(why?.because).toBe('no-frost-climate');
    expect((await stack.ponds.pond(stack.companyId, pondId)).winterClass).toBe('W0');
  });
});
