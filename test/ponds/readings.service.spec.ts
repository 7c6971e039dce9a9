import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import { newId } from '../../src/platform/ids.js';
import { type CareStack, careStack } from '../support/care-stack.js';
import { storeCompany } from '../support/company-rows.js';
import { aPond } from '../support/typed-pond.js';

let stack: CareStack;
let pondId: string;
const told: string[][] = [];
beforeAll(async () => {
  stack = await careStack({ isPlanned: false });
  stack.news.on('reading-taken', async ({ readingIds }) => void told.push([...readingIds]));
});
afterAll(() => stack.close());
beforeEach(async () => {
  pondId = await stack.ponds.create(stack.companyId, aPond());
  told.length = 0;
});

const add = (...readings: Parameters<CareStack['readings']['add']>[2]) =>
  stack.readings.add(stack.companyId, pondId, readings);
const ph = (value: number, more: object = {}) => ({
  quantity: 'ph' as const,
  value,
  takenAt: '2026-05-14T09:30:00-05:00',
  ...more,
});

describe('ReadingsService', () => {
  it('keeps readings as instants in UTC and tells the news once', async () => {
    const ids = await add(ph(7.4), { quantity: 'water-temperature', value: 14.2, takenAt: '2026-05-14T14:31:00Z' });
    expect(await stack.readings.list(stack.companyId, pondId)).toMatchObject([
      { quantity: 'ph', value: 7.4, takenAt: '2026-05-14T14:30:00.000Z' },
      { quantity: 'water-temperature', value: 14.2 },
    ]);
    expect(told).toEqual([ids]);
  });

  it('takes an upload that is repeated for what it is', async () => {
    const id = newId();
    expect(await add(ph(7.4, { id }))).toEqual([id]);
    expect(await add(ph(7.4, { id }), ph(7.4, { id }))).toEqual([]);
    expect(await stack.readings.list(stack.companyId, pondId)).toHaveLength(1);
    expect(told).toHaveLength(1);
  });

  it('keeps none of several when one cannot be', async () => {
    await expect(add(ph(7.4), ph(71))).rejects.toThrow('pH 71: allowed 4 to 11; did you mean 7.1?');
    expect(await stack.readings.list(stack.companyId, pondId)).toEqual([]);
  });

  it.each([
    ['of tomorrow', '2026-05-16T15:00:00Z', /in the future/],
    ['of the last century', '1926-05-14T15:00:00Z', /from 1990 on/],
    ['at no time', 'yesterday', /not an ISO 8601/],
  ])('refuses a reading %s', async (_, takenAt, message) => {
    await expect(add(ph(7, { takenAt }))).rejects.toThrow(message);
  });

  it('lets a correction stand for the reading it replaces, and keeps both', async () => {
    const [first] = await add(ph(8.4));
    await add(ph(7.4, { replacesId: first }));
    expect(await stack.readings.list(stack.companyId, pondId)).toMatchObject([{ value: 7.4 }]);
    expect(await stack.readings.list(stack.companyId, pondId, { withReplaced: true })).toHaveLength(2);
    await expect(add(ph(7, { replacesId: newId() }))).rejects.toMatchObject({ code: 'not-found' });
  });

  it('answers the latest reading of each quantity and a span of one', async () => {
    await add(ph(7.1), ph(7.6, { takenAt: '2026-05-15T08:00:00Z' }), {
      quantity: 'nitrite',
      value: 0.1,
      takenAt: '2026-05-01T08:00:00Z',
    });
    const latest = await stack.readings.latest(stack.companyId, pondId);
    expect([latest.get('ph')?.value, latest.get('nitrite')?.value]).toEqual([7.6, 0.1]);
    const span = { quantity: 'ph' as const, from: '2026-05-15T00:00:00Z', to: '2026-05-15T23:59:59Z' };
    expect(await stack.readings.list(stack.companyId, pondId, span)).toMatchObject([{ value: 7.6 }]);
  });

  it('neither shows nor takes readings for another company', async () => {
    await add(ph(7.4));
    const { company } = await storeCompany(stack.database);
    expect(await stack.readings.list(company.id, pondId)).toEqual([]);
    await expect(stack.readings.add(company.id, pondId, [ph(7)])).rejects.toMatchObject({ code: 'not-found' });
  });
});
