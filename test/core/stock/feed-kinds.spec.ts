import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { FEED_PROTEIN_RANGE, maintenanceRationShare, suitableFeed } from '../../../src/core/stock/feed-kinds.js';
import { feedRationShare } from '../../../src/core/stock/feed-ration.js';
import carpRation from '../../published/carp-ration.json' with { type: 'json' };
import { expectWithin, expectWithinShare } from '../../support/expect-within.js';

describe('kinds of food (common practice)', () => {
  it.each([
    [9.9, 1000, []],
    [10, 1000, ['light']],
    [14.9, 20, ['light']],
    [15, 1000, ['staple', 'light']],
    [16, 1000, ['staple']],
    [22, 1000, ['staple']],
    [22, 100, ['growth', 'staple']],
    [28, 100, ['staple']],
    [32, 100, ['staple']],
    [32.1, 100, []],
  ] as const)('at %d °C for a fish of %d g are %j', (waterTemperatureC, fishMassG, kinds) => {
    expect(suitableFeed({ waterTemperatureC, fishMassG })).toEqual(kinds);
  });

  it('are none exactly where the ration is none', () => {
    const mass = fc.double({ min: 1, max: 5000, noNaN: true });
    fc.assert(
      fc.property(mass, fc.double({ min: -1, max: 45, noNaN: true }), (fishMassG, waterTemperatureC) => {
        const isFed = feedRationShare({ fishMassG, waterTemperatureC }) > 0;
        expect(suitableFeed({ fishMassG, waterTemperatureC }).length > 0).toBe(isFed);
      }),
    );
  });

  it('grow richer from light to growth food, with the usual protein inside its range', () => {
    const kinds = (['light', 'staple', 'growth'] as const).map((kind) => FEED_PROTEIN_RANGE[kind]);
    expect(kinds.map(({ usual }) => usual)).toEqual([0.3, 0.35, 0.4]);
    for (const { usual, min, max } of kinds) expect(usual >= min && usual <= max).toBe(true);
  });
});

describe('maintenance ration of a young carp', () => {
  it.each(carpRation.rows)('at $temperatureC °C is $maintenancePctPerDay %% (E-1)', (row) => {
    expectWithin(maintenanceRationShare(row), row.maintenancePctPerDay / 100, 1e-12);
  });

  it.each([
    [18, 0.67],
    [24, 1.13],
  ])('at %d °C lies within 11 %% of the exponential through its ends, %d %% (E-2, derived)', (temperatureC, pct) => {
    expectWithin(0.4 * Math.exp(0.0866 * (temperatureC - 12)), pct, 0.005);
    expectWithinShare(maintenanceRationShare({ temperatureC }), pct / 100, 0.12);
  });

  it('rises with temperature, and is refused outside 12 to 30 °C', () => {
    fc.assert(
      fc.property(fc.double({ min: 12, max: 29, noNaN: true }), (temperatureC) => {
        expect(maintenanceRationShare({ temperatureC: temperatureC + 1 })).toBeGreaterThan(
          maintenanceRationShare({ temperatureC }),
        );
      }),
    );
    expect(() => maintenanceRationShare({ temperatureC: 11.9 })).toThrow(
      'water temperature, °C: 11.9, outside 12 to 30.',
    );
  });
});
