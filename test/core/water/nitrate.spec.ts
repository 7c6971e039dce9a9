import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { InvalidValueError } from '../../../src/core/errors.js';
import { ammoniaLoadGNPerDay } from '../../../src/core/stock/ammonia-load.js';
import { mgPerLFromN } from '../../../src/core/units/nitrogen-species.js';
import {
  changeIntervalHoldingDays,
  changeShareHolding,
  changeShareToReach,
  changesNeeded,
  nitrateAfterChangeMgNPerL,
  nitrateAfterChangesMgNPerL,
  nitrateBeforeChangeMgNPerL,
  nitrateProductionMgNPerLDay,
  nitrateUnderSteadyExchangeMgNPerL,
} from '../../../src/core/water/nitrate.js';
import { LARGEST_CHANGE_SHARE } from '../../../src/core/water/water-change.js';
import { expectWithin } from '../../support/expect-within.js';

/** 200 g of 35 % food a day in 15 m³, changed weekly with water of 2 mg/L N. */
const fedPond = { productionMgNPerLDay: 0.4293, sourceNitrateMgNPerL: 2, intervalDays: 7 };

describe('nitrate of a regularly changed pond', () => {
  it('N-1: is made at 0.4293 mg/L N a day, 1.900 as NO3 (derived)', () => {
    const ammoniaLoad = ammoniaLoadGNPerDay({ feedGPerDay: 200, feedProteinShare: 0.35 });
    const production = nitrateProductionMgNPerLDay({ ammoniaLoadGNPerDay: ammoniaLoad, volumeL: 15_000 });
    expectWithin(production, 0.4293, 0.001);
    expectWithin(mgPerLFromN({ mgNPerL: production, basis: 'no3' }), 1.9, 0.001);
  });

  it.each([
    [0.2, 17.03],
    [0.1, 32.05],
    [0.3, 12.02],
  ])('N-2, N-3: settles before a weekly change of %d at %d mg/L N (derived)', (changeShare, expected) => {
    expectWithin(nitrateBeforeChangeMgNPerL({ ...fedPond, changeShare }), expected, 0.01);
  });

  it('N-2: settles after a change of a fifth at 14.02 mg/L N, before at 75.4 as NO3 (derived)', () => {
    const before = nitrateBeforeChangeMgNPerL({ ...fedPond, changeShare: 0.2 });
    expectWithin(nitrateAfterChangeMgNPerL({ ...fedPond, changeShare: 0.2 }), 14.02, 0.01);
    expectWithin(mgPerLFromN({ mgNPerL: before, basis: 'no3' }), 75.4, 0.1);
  });

  it('is less by what plants take up', () => {
    const pond = { ammoniaLoadGNPerDay: 6, volumeL: 10_000 };
    expectWithin(nitrateProductionMgNPerLDay({ ...pond, takenUpShare: 0.25 }), 0.45, 1e-12);
    expect(() => nitrateProductionMgNPerLDay({ ...pond, takenUpShare: 1.1 })).toThrow(
      'nitrate taken up, share: 1.1, outside 0 to 1.',
    );
  });

  it('closes its balance: a change takes out what was made since the last one', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 5, noNaN: true }),
        fc.double({ min: 0, max: 20, noNaN: true }),
        fc.double({ min: 1, max: 60, noNaN: true }),
        fc.double({ min: 0.01, max: 1, noNaN: true }),
        (productionMgNPerLDay, sourceNitrateMgNPerL, intervalDays, changeShare) => {
          const regular = { productionMgNPerLDay, sourceNitrateMgNPerL, intervalDays, changeShare };
          const before = nitrateBeforeChangeMgNPerL(regular);
          const after = nitrateAfterChangeMgNPerL(regular);
          const changed = (1 - changeShare) * before + changeShare * sourceNitrateMgNPerL;
          expectWithin(after, changed, 1e-9 * Math.max(1, before));
          expectWithin(after + productionMgNPerLDay * intervalDays, before, 1e-9 * Math.max(1, before));
        },
      ),
    );
  });

  it('N-4: is that of a continuous exchange of the same water, just before a change', () => {
    const steady = nitrateUnderSteadyExchangeMgNPerL({ ...fedPond, exchangePerDay: 0.2 / fedPond.intervalDays });
    expectWithin(steady, 17.03, 0.01);
    expectWithin(nitrateBeforeChangeMgNPerL({ ...fedPond, changeShare: 0.2 }), steady, 1e-9);
  });
});

describe('nitrate brought down by changes', () => {
  it('N-6: takes four quarters from 40 to 15 with water of 2 (derived)', () => {
    const step = { nitrateMgNPerL: 40, targetMgNPerL: 15, sourceNitrateMgNPerL: 2 };
    expect(changesNeeded({ ...step, changeShare: 0.25 })).toBe(4);
  });

  it('N-5: leaves 56.25 % after two quarters of clean water', () => {
    const step = { nitrateMgNPerL: 100, sourceNitrateMgNPerL: 0, changeShare: 0.25 };
    expect(nitrateAfterChangesMgNPerL({ ...step, changes: 2 })).toBe(56.25);
    expect(
      changesNeeded({ nitrateMgNPerL: 100, targetMgNPerL: 56.25, sourceNitrateMgNPerL: 0, changeShare: 0.25 }),
    ).toBe(2);
  });

  it('N-7: would take 0.571 at once from 40 to 20 with water of 5, which is more than one visit may (derived)', () => {
    const share = changeShareToReach({ nitrateMgNPerL: 40, targetMgNPerL: 20, sourceNitrateMgNPerL: 5 });
    expectWithin(share, 0.571, 0.001);
    expect(share).toBeGreaterThan(LARGEST_CHANGE_SHARE);
  });

  it('N-8: refuses a target the new water itself does not meet, and says so', () => {
    const step = { nitrateMgNPerL: 40, targetMgNPerL: 5, sourceNitrateMgNPerL: 5 };
    expect(() => changesNeeded({ ...step, changeShare: 0.2 })).toThrow(InvalidValueError);
    expect(() => changeShareToReach(step)).toThrow('The source water is above the target: it carries 5 mg/L N.');
  });

  it('needs as many changes as reach the target, and not one more', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 20, max: 100, noNaN: true }),
        fc.double({ min: 6, max: 19, noNaN: true }),
        fc.double({ min: 0, max: 5, noNaN: true }),
        fc.double({ min: 0.05, max: 0.9, noNaN: true }),
        (nitrateMgNPerL, targetMgNPerL, sourceNitrateMgNPerL, changeShare) => {
          const step = { nitrateMgNPerL, sourceNitrateMgNPerL, changeShare };
          const changes = changesNeeded({ ...step, targetMgNPerL });
          expect(nitrateAfterChangesMgNPerL({ ...step, changes })).toBeLessThanOrEqual(targetMgNPerL + 1e-6);
          expect(nitrateAfterChangesMgNPerL({ ...step, changes: changes - 1 })).toBeGreaterThan(targetMgNPerL);
        },
      ),
    );
  });

  it('takes one change of the whole pond', () => {
    const step = { nitrateMgNPerL: 40, targetMgNPerL: 5, sourceNitrateMgNPerL: 2 };
    expect(changesNeeded({ ...step, changeShare: 1 })).toBe(1);
  });

  it('needs none when the target is met', () => {
    const step = { nitrateMgNPerL: 5, targetMgNPerL: 9, sourceNitrateMgNPerL: 2 };
    expect(changesNeeded({ ...step, changeShare: 0.1 })).toBe(0);
    expect(changeShareToReach(step)).toBe(0);
  });
});

describe('size and interval that hold a target', () => {
  it('are each other turned round', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 2, noNaN: true }),
        fc.double({ min: 0, max: 8, noNaN: true }),
        fc.double({ min: 9, max: 30, noNaN: true }),
        fc.double({ min: 0.02, max: 1, noNaN: true }),
        (productionMgNPerLDay, sourceNitrateMgNPerL, targetMgNPerL, changeShare) => {
          const regular = { productionMgNPerLDay, sourceNitrateMgNPerL, targetMgNPerL };
          const intervalDays = changeIntervalHoldingDays({ ...regular, changeShare });
          fc.pre(intervalDays >= 0.01 && intervalDays <= 366);
          expectWithin(changeShareHolding({ ...regular, intervalDays }), changeShare, 1e-9);
          expectWithin(nitrateBeforeChangeMgNPerL({ ...regular, intervalDays, changeShare }), targetMgNPerL, 1e-9);
        },
      ),
    );
  });

  it('have no end where no nitrate is made, and no share where the new water misses the target', () => {
    const none = { productionMgNPerLDay: 0, sourceNitrateMgNPerL: 2, changeShare: 0.1, targetMgNPerL: 9 };
    expect(changeIntervalHoldingDays(none)).toBe(Number.POSITIVE_INFINITY);
    expect(() => changeIntervalHoldingDays({ ...none, sourceNitrateMgNPerL: 9 })).toThrow(
      'The source water is above the target: it carries 9 mg/L N.',
    );
    const salty = { productionMgNPerLDay: 0.1, sourceNitrateMgNPerL: 12, intervalDays: 7, targetMgNPerL: 9 };
    expect(changeShareHolding(salty)).toBe(Number.POSITIVE_INFINITY);
  });
});

describe('nitrate day by day', () => {
  it('keeps its balance to 1e-9 and runs into the settled rhythm', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 100, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 10, noNaN: true }),
        fc.integer({ min: 1, max: 14 }),
        fc.double({ min: 0.1, max: 0.9, noNaN: true }),
        (start, productionMgNPerLDay, sourceNitrateMgNPerL, intervalDays, changeShare) => {
          let [now, made, broughtLessTaken] = [start, 0, 0];
          for (let change = 0; change < 250; change++) {
            now += productionMgNPerLDay * intervalDays;
            made += productionMgNPerLDay * intervalDays;
            const after = nitrateAfterChangesMgNPerL({
              nitrateMgNPerL: now,
              sourceNitrateMgNPerL,
              changeShare,
              changes: 1,
            });
            broughtLessTaken += changeShare * (sourceNitrateMgNPerL - now);
            now = after;
          }
          expectWithin(start + made + broughtLessTaken, now, 1e-9 * Math.max(1, made));
          const settled = { productionMgNPerLDay, sourceNitrateMgNPerL, intervalDays, changeShare };
          expectWithin(now, nitrateAfterChangeMgNPerL(settled), 1e-6);
        },
      ),
      { numRuns: 50 },
    );
  });
});
