import { describe, expect, it } from '@jest/globals';
import { civilDay } from '../../src/core/units/civil-day.js';
import { pondFacts, pondHeat, unsavedRecord } from '../../src/ponds/index.js';
import { aPond } from '../support/typed-pond.js';

const recordOf = (own: Parameters<typeof aPond>[0] = {}, today = '2026-05-15') =>
  unsavedRecord('company', aPond(own), { pondId: 'pond', today, instant: '2026-05-15T12:00:00.000Z' });

describe('pondFacts', () => {
  it('carries the record over as the planner wants it', () => {
    const agreement = [{ ruleId: 'device-test', doneBy: 'homeowner' as const, from: '2026-01-01' }];
    expect(pondFacts(recordOf({ agreement, waterfall: true }), { winterClass: 'W3' })).toMatchObject({
      pondId: 'pond',
      winterClass: 'W3',
      commissionedOn: civilDay('2020-05-01'),
      tap: { source: 'chlorine', totalChlorineMgPerL: 1.2 },
      stock: [{ species: 'koi', count: 8, lengthCm: 35 }],
      agreement: [{ ruleId: 'device-test', doneBy: 'homeowner', from: civilDay('2026-01-01'), until: null }],
      waterfall: true,
    });
  });

  it('leaves out machines that are gone', () => {
    const record = recordOf();
    const gone = record.equipment.map((machine) => ({
      ...machine,
      removedOn: machine.kind === 'pump' ? '2026-01-01' : null,
    }));
    expect(
      pondFacts({ ...record, equipment: gone }, { winterClass: 'W2' }).equipment.map(({ kind }) => kind),
    ).not.toContain('pump');
  });

  it.each([
    ['filled a month ago', { commissionedOn: '2026-04-15', stockedOn: undefined, careSince: '2026-04-15' }, null],
    ['filled years ago', { commissionedOn: '2020-04-15', stockedOn: undefined, careSince: '2026-03-01' }, '2026-03-01'],
    [
      'taken over, its filling not known',
      { commissionedOn: null, stockedOn: undefined, careSince: '2026-03-01' },
      '2026-03-01',
    ],
    ['said to run in', { commissionedOn: '2020-04-15', stockedOn: null, careSince: '2026-03-01' }, null],
  ])('judges whether a pond %s is past its run-in', (_, own, stockedOn) => {
    expect(recordOf(own).pond.stockedOn).toBe(stockedOn);
  });
});

describe('pondHeat', () => {
  it('feeds a waterfall by the strongest pump, and by the volume where none is known', () => {
    expect(pondHeat(recordOf()).waterfallFlowLPerH).toBe(0);
    expect(pondHeat(recordOf({ waterfall: true })).waterfallFlowLPerH).toBe(12_000);
    const unknown = recordOf({ waterfall: true, equipment: [{ kind: 'pump' }] });
    expect(pondHeat(unknown).waterfallFlowLPerH).toBeCloseTo(unknown.pond.volumeL / 2, 9);
  });
});
