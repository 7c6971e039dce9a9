import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import { CareTaskEntity, PlanLogEntity } from '../../src/care-calendar/index.js';
import { addDays, civilDay, isoDateOf } from '../../src/core/units/civil-day.js';
import { newId } from '../../src/platform/ids.js';
import { pondInputOf, readPondInput } from '../../src/ponds/index.js';
import { type CareStack, careStack } from '../support/care-stack.js';
import { aPond } from '../support/typed-pond.js';

const NOW = '2026-05-15T15:00:00Z';

let stack: CareStack;
beforeAll(async () => {
  stack = await careStack({ at: NOW });
});
afterAll(() => stack.close());
beforeEach(() => stack.clock.set(NOW));

const create = () => stack.ponds.create(stack.companyId, aPond());
const tasksOf = (pondId: string) =>
  stack.database.company(stack.companyId).find(CareTaskEntity, { where: { pondId }, order: { id: 'ASC' } });
const shutdownOf = async (pondId: string) =>
  (await tasksOf(pondId)).find(({ ruleId }) => ruleId === 'winter-shutdown') as CareTaskEntity;

describe('A replan at once', () => {
  it('is of the one pond that was measured, and of no other', async () => {
    const [measured, other] = [await create(), await create()];
    const [before, otherBefore] = [await tasksOf(measured), await tasksOf(other)];
    stack.clock.advance({ minutes: 5 });
    await stack.readings.add(stack.companyId, measured, [
      { quantity: 'total-ammonia', value: 2, takenAt: '2026-05-15T14:00:00Z' },
    ]);
    expect((await tasksOf(measured)).length).toBe(before.length + 1);
    expect(await tasksOf(other)).toEqual(otherBefore);
  });
});

describe('A task that is near', () => {
  /** Its date stands a month too early, ten days from now, after having moved so often. */
  async function misdated(moves: number) {
    const pondId = await create();
    const { id, ruleId, cycle, dueOn } = await shutdownOf(pondId);
    const due = addDays(civilDay(dueOn), -30);
    stack.clock.set(`${isoDateOf(addDays(due, -10))}T15:00:00Z`);
    const window = { earliest: addDays(due, -3), due, latest: addDays(due, 3) };
    const [earliestOn, wrongOn, latestOn] = [window.earliest, window.due, window.latest].map(isoDateOf) as [
      string,
      string,
      string,
    ];
    const loggedAt = stack.clock.instant();
    const row = { companyId: stack.companyId, pondId, loggedAt, ruleId, cycle, kind: 'moved', because: 'forecast' };
    await stack.database.unitOfWork('misdate', async () => {
      const store = stack.database.company(stack.companyId);
      await store.update(CareTaskEntity, { id }, { earliestOn, dueOn: wrongOn, latestOn });
      const rows = Array.from({ length: moves }, () => ({ id: newId(), fromWindow: window, toWindow: window, ...row }));
      await store.insert(PlanLogEntity, rows);
    });
    return { pondId, wrongOn };
  }

  it('moves a second time with the forecast, and not a third time', async () => {
    const [once, twice] = [await misdated(1), await misdated(2)];
    await stack.calendar.replan(stack.companyId, once.pondId);
    expect((await shutdownOf(once.pondId)).dueOn > once.wrongOn).toBe(true);
    await stack.calendar.replanAll(stack.companyId);
    expect((await shutdownOf(twice.pondId)).dueOn).toBe(twice.wrongOn);
  });

  it('moves all the same when a person changed the record', async () => {
    const { pondId, wrongOn } = await misdated(2);
    const typed = pondInputOf(await stack.ponds.get(stack.companyId, pondId));
    await stack.ponds.update(stack.companyId, pondId, readPondInput({ ...typed, name: 'Corrected' }), 1);
    expect((await shutdownOf(pondId)).dueOn > wrongOn).toBe(true);
  });
});
