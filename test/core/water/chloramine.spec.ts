import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { unionisedAmmoniaShare } from '../../../src/core/water/ammonia.js';
import {
  ammoniaAfterChange,
  ammoniaAfterChangeMgNPerL,
  ammoniaCarriedByFilter,
  chloramineAmmoniaMgNPerL,
} from '../../../src/core/water/chloramine.js';
import { expectWithin } from '../../support/expect-within.js';

describe('chloramine', () => {
  it('C-6: leaves 0.296 mg/L of ammonia in new water with 1.5 mg/L, 0.059 in the pond after a fifth (derived)', () => {
    const newWaterAmmoniaMgNPerL = chloramineAmmoniaMgNPerL({ totalChlorineMgCl2PerL: 1.5 });
    expectWithin(newWaterAmmoniaMgNPerL, 0.296, 0.001);
    const change = { pondAmmoniaMgNPerL: 0, newWaterAmmoniaMgNPerL, changeShare: 0.2 };
    expectWithin(ammoniaAfterChangeMgNPerL(change), 0.059, 0.001);
  });

  it('C-7: keeps the pond of pH 8.4 and 24 °C in order after that change (derived)', () => {
    expectWithin(unionisedAmmoniaShare({ temperatureC: 24, ph: 8.4 }), 0.1171, 0.0001);
    const after = ammoniaAfterChange({
      totalChlorineMgCl2PerL: 1.5,
      pondAmmoniaMgNPerL: 0.1,
      changeShare: 0.2,
      temperatureC: 24,
      ph: 8.4,
    });
    expectWithin(after.totalAmmoniaMgNPerL, 0.139, 0.0005);
    expectWithin(after.unionisedAmmoniaMgNPerL, 0.0163, 0.0005);
    expect(after.level).toBe('in-order');
  });

  it('adds the free ammonia of the tap', () => {
    expectWithin(chloramineAmmoniaMgNPerL({ totalChlorineMgCl2PerL: 2, freeAmmoniaMgNPerL: 0.3 }), 0.3952 + 0.3, 1e-9);
  });

  it('closes the nitrogen of pond, new water and water let out to 1e-9', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 5, noNaN: true }),
        fc.double({ min: 0, max: 2, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (pondAmmoniaMgNPerL, newWaterAmmoniaMgNPerL, changeShare) => {
          const after = ammoniaAfterChangeMgNPerL({ pondAmmoniaMgNPerL, newWaterAmmoniaMgNPerL, changeShare });
          const letOut = changeShare * pondAmmoniaMgNPerL;
          const broughtIn = changeShare * newWaterAmmoniaMgNPerL;
          expectWithin(pondAmmoniaMgNPerL - letOut + broughtIn, after, 1e-9);
        },
      ),
    );
  });

  it('is a worse matter in warm water of high pH', () => {
    const change = { totalChlorineMgCl2PerL: 4, pondAmmoniaMgNPerL: 0.2, changeShare: 0.25 };
    expect(ammoniaAfterChange({ ...change, temperatureC: 15, ph: 7.4 }).level).toBe('in-order');
    expect(ammoniaAfterChange({ ...change, temperatureC: 28, ph: 8.8 }).level).toBe('act');
  });
});

describe('ammonia set free', () => {
  it('is carried within a day where capacity less load takes it, to the hour', () => {
    const filter = { ammoniaLoadGNPerDay: 4, filterCapacityGNPerDay: 6 };
    expect(ammoniaCarriedByFilter({ ...filter, freedGN: 1 })).toEqual({ verdict: 'carried-within-a-day', hours: 12 });
    expect(ammoniaCarriedByFilter({ ...filter, freedGN: 2 })).toEqual({ verdict: 'carried-within-a-day', hours: 24 });
    expect(ammoniaCarriedByFilter({ ...filter, freedGN: 3 })).toEqual({ verdict: 'carried-slowly', hours: 36 });
  });

  it('is not carried where the load fills the filter, and nothing is carried at once', () => {
    const full = { ammoniaLoadGNPerDay: 6, filterCapacityGNPerDay: 6 };
    expect(ammoniaCarriedByFilter({ ...full, freedGN: 0.1 })).toEqual({ verdict: 'not-carried', hours: null });
    expect(ammoniaCarriedByFilter({ ...full, freedGN: 0 }).verdict).toBe('carried-within-a-day');
    expect(ammoniaCarriedByFilter({ ...full, filterCapacityGNPerDay: 5, freedGN: 0 }).verdict).toBe('not-carried');
  });

  it('refuses a negative capacity', () => {
    expect(() => ammoniaCarriedByFilter({ freedGN: 1, ammoniaLoadGNPerDay: 1, filterCapacityGNPerDay: -1 })).toThrow(
      'filter capacity, g N/day: -1',
    );
  });
});
