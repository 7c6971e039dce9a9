import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import type { ClosingRecord } from '../../src/visits/index.js';
import { mergedClosings } from '../../src/visits/index.js';

const EMPTY: ClosingRecord = { note: '', homeownerPresent: null, tasks: [], readings: [] };
const closing = (id: string, record: Partial<ClosingRecord>) => ({
  id,
  closedBy: `person ${id}`,
  record: { ...EMPTY, ...record },
});
const task = (own: Partial<ClosingRecord['tasks'][number]> = {}) => ({
  careTaskId: 'rinse',
  outcome: 'done' as const,
  doneShare: null,
  remark: '',
  actuals: {},
  ...own,
});

describe('mergedClosings', () => {
  it('takes a task ticked by anybody as done, without asking', () => {
    const merged = mergedClosings([
      closing('a', { tasks: [task({ outcome: 'not-done', remark: 'no time' })] }),
      closing('b', { tasks: [task({ remark: 'did it' })] }),
    ]);
    expect(merged.tasks).toMatchObject([{ careTaskId: 'rinse', outcome: 'done', remarks: ['no time', 'did it'] }]);
    expect(merged.conflicts).toEqual([]);
  });

  it('keeps both and asks where two figures cannot both be right', () => {
    const merged = mergedClosings([
      closing('a', { homeownerPresent: true, tasks: [task({ actuals: { changedL: 900 } })] }),
      closing('b', { homeownerPresent: false, tasks: [task({ actuals: { changedL: 1200 } })] }),
    ]);
    expect(merged.homeownerPresent).toBe(true);
    expect(merged.tasks[0]?.actuals).toEqual({ changedL: 900 });
    expect(merged.conflicts).toEqual([
      {
        field: 'homeowner-present',
        careTaskId: null,
        name: null,
        said: [
          { closingId: 'a', closedBy: 'person a', value: true },
          { closingId: 'b', closedBy: 'person b', value: false },
        ],
      },
      expect.objectContaining({ field: 'actual', careTaskId: 'rinse', name: 'changedL' }),
    ]);
  });

  it('asks about two different shares of one task', () => {
    const merged = mergedClosings([
      closing('a', { tasks: [task({ outcome: 'partly', doneShare: 0.5 })] }),
      closing('b', { tasks: [task({ outcome: 'partly', doneShare: 0.8 })] }),
    ]);
    expect(merged.tasks[0]).toMatchObject({ outcome: 'partly', doneShare: 0.5 });
    expect(merged.conflicts).toHaveLength(1);
  });

  it('counts a dose given twice twice, and one told by two phones once', () => {
    const dose = { product: 'thiosulfate', amountG: 31, lot: 'L-7', waterL: 1100 };
    const merged = mergedClosings([
      closing('a', { tasks: [task({ doses: [dose, dose] })] }),
      closing('b', { tasks: [task({ doses: [dose] })] }),
    ]);
    expect(merged.tasks[0]?.doses).toEqual([dose, dose]);
  });

  it('keeps every note, reading, part and follow-up of every closing once, in any order of phones', () => {
    const ids = fc.uniqueArray(
      fc.nat(9).map((n) => `id${n}`),
      { maxLength: 5 },
    );
    const record = fc.record({ readings: ids, parts: ids, followUps: ids, note: fc.constantFrom('', 'x', 'y') });
    fc.assert(
      fc.property(fc.array(record, { minLength: 1, maxLength: 4 }), (told) => {
        const closings = told.map(({ readings, parts, followUps, note }, i) =>
          closing(`c${i}`, {
            note,
            readings: readings.map((id) => ({ id, quantity: 'ph', value: 7, takenAt: '2026-05-15T12:00:00Z' })),
            parts: parts.map((id) => ({
              id,
              partId: null,
              name: id,
              amount: 1,
              unit: 'piece',
              careTaskId: null,
              lot: '',
            })),
            followUps: followUps.map((id) => ({ id, what: id, untilOn: null, careTaskId: null })),
          }),
        );
        const merged = mergedClosings(closings);
        for (const field of ['readings', 'parts', 'followUps'] as const) {
          const wanted = [...new Set(told.flatMap((one) => one[field]))].sort();
          expect(merged[field].map(({ id }) => id).sort()).toEqual(wanted);
          expect(
            mergedClosings([...closings].reverse())
              [field].map(({ id }) => id)
              .sort(),
          ).toEqual(wanted);
        }
        expect(merged.notes).toHaveLength(told.filter(({ note }) => note !== '').length);
        expect(mergedClosings([...closings, ...closings])).toEqual(merged);
      }),
      { numRuns: 200, seed: 5 },
    );
  });
});
