import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import {
  bicarbonatePerChangeG,
  daysUntilAlkalinity,
  settledAlkalinity,
} from '../../../src/core/water/alkalinity-budget.js';
import { expectWithin } from '../../support/expect-within.js';

/** F-4: 200 g of 35 % food a day in 15 m³ use 3.07 mg/L a day. */
const fed = { useMgCaCO3PerLDay: 3.07, sourceAlkalinityMgCaCO3PerL: 150, changeShare: 0.2, intervalDays: 7 };

describe('alkalinity between filter and changes', () => {
  it('settles where the change brings what the filter used (derived)', () => {
    const settled = settledAlkalinity(fed);
    expectWithin(settled.beforeChangeMgCaCO3PerL, 150 - (3.07 * 7) / 0.2, 1e-9);
    expectWithin(settled.afterChangeMgCaCO3PerL, settled.beforeChangeMgCaCO3PerL + 21.49, 1e-9);
    expect(settled.isUsedUp).toBe(false);
  });

  it('says when soft water cannot keep up', () => {
    expect(settledAlkalinity({ ...fed, sourceAlkalinityMgCaCO3PerL: 60 })).toEqual({
      beforeChangeMgCaCO3PerL: 0,
      afterChangeMgCaCO3PerL: 12,
      isUsedUp: true,
    });
  });

  it('closes its balance to 1e-9', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 2, noNaN: true }),
        fc.double({ min: 50, max: 300, noNaN: true }),
        fc.double({ min: 0.05, max: 1, noNaN: true }),
        fc.integer({ min: 1, max: 30 }),
        (useMgCaCO3PerLDay, sourceAlkalinityMgCaCO3PerL, changeShare, intervalDays) => {
          const budget = { useMgCaCO3PerLDay, sourceAlkalinityMgCaCO3PerL, changeShare, intervalDays };
          const settled = settledAlkalinity(budget);
          const { beforeChangeMgCaCO3PerL: before, afterChangeMgCaCO3PerL: after } = settled;
          const changed = (1 - changeShare) * before + changeShare * sourceAlkalinityMgCaCO3PerL;
          expectWithin(after, changed, 1e-9 * Math.max(1, after));
          fc.pre(!settled.isUsedUp);
          expectWithin(after - useMgCaCO3PerLDay * intervalDays, before, 1e-9 * Math.max(1, after));
        },
      ),
    );
  });
});

describe('days until a limit', () => {
  const pond = { ...fed, alkalinityMgCaCO3PerL: 100, limitMgCaCO3PerL: 80 };

  it('from 100 to 80 mg/L is 6.5 days at 3.07 a day (derived)', () => {
    expectWithin(daysUntilAlkalinity(pond)!, 20 / 3.07, 1e-9);
  });

  it('counts the changes on the way, is 0 at the limit and null where the water holds it', () => {
    const later = daysUntilAlkalinity({ ...pond, limitMgCaCO3PerL: 60 })!;
    expect(later).toBeGreaterThan(40 / 3.07);
    expect(daysUntilAlkalinity({ ...pond, alkalinityMgCaCO3PerL: 80 })).toBe(0);
    expect(daysUntilAlkalinity({ ...pond, useMgCaCO3PerLDay: 0.1 })).toBeNull();
    expect(daysUntilAlkalinity({ ...pond, useMgCaCO3PerLDay: 0 })).toBeNull();
  });

  it('with soft water comes on the day of a change even where no filter uses any', () => {
    const soft = { ...pond, useMgCaCO3PerLDay: 0, sourceAlkalinityMgCaCO3PerL: 20, changeShare: 0.25 };
    expect(daysUntilAlkalinity(soft)).toBe(7);
  });

  it('is no later the more is used', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.5, max: 10, noNaN: true }), fc.integer({ min: 0, max: 99 }), (use, limit) => {
        const days = (u: number) =>
          daysUntilAlkalinity({ ...pond, useMgCaCO3PerLDay: u, limitMgCaCO3PerL: limit }) ?? Number.POSITIVE_INFINITY;
        expect(days(use + 0.1)).toBeLessThanOrEqual(days(use));
      }),
    );
  });
});

describe('bicarbonate at each change', () => {
  it('keeps a pond at its target: dose, change and filter cancel out', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 5, noNaN: true }),
        fc.double({ min: 0, max: 90, noNaN: true }),
        fc.double({ min: 0.05, max: 0.5, noNaN: true }),
        (useMgCaCO3PerLDay, sourceAlkalinityMgCaCO3PerL, changeShare) => {
          const budget = { useMgCaCO3PerLDay, sourceAlkalinityMgCaCO3PerL, changeShare, intervalDays: 7 };
          const massG = bicarbonatePerChangeG({ ...budget, volumeL: 10_000, targetMgCaCO3PerL: 100 });
          const risen = massG / (1.679 * 10);
          const changed = (1 - changeShare) * 100 + changeShare * sourceAlkalinityMgCaCO3PerL;
          expectWithin(changed + risen - 7 * useMgCaCO3PerLDay, 100, 1e-6);
        },
      ),
    );
  });

  it('is none where the new water brings enough', () => {
    expect(bicarbonatePerChangeG({ ...fed, useMgCaCO3PerLDay: 0.5, volumeL: 15_000, targetMgCaCO3PerL: 100 })).toBe(0);
  });

  it.each([
    [{ useMgCaCO3PerLDay: Number.NaN }, 'alkalinity used, mg/L CaCO3 per day: NaN'],
    [{ changeShare: 0 }, 'change, share: 0, outside 0.001 to 1.'],
    [{ intervalDays: 0 }, 'interval, days: 0'],
    [{ targetMgCaCO3PerL: 500 }, 'target alkalinity, mg/L CaCO3: 500, outside 0 to 400.'],
  ])('refuses %j', (wrong, message) => {
    expect(() => bicarbonatePerChangeG({ ...fed, volumeL: 1000, targetMgCaCO3PerL: 100, ...wrong })).toThrow(message);
  });
});
