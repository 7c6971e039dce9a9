import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import {
  oxygenDemand,
  winbergOxygenUseMgPerKgH,
  yamanakaCriticalOxygenMgPerL,
  yamanakaOxygenUseMgPerKgH,
} from '../../../src/core/stock/oxygen-demand.js';
import { expectWithin } from '../../support/expect-within.js';

describe('oxygen use of a fish', () => {
  it.each([
    [1000, 5, 23],
    [1000, 10, 45],
    [1000, 15, 77],
    [1000, 20, 121],
    [1000, 25, 198],
    [1000, 30, 276],
    [100, 20, 191],
    [3000, 20, 97],
    [1000, 2, 23],
    [1000, 35, 276],
  ])(
    'by Winberg of %d g at %d °C is %d mg/kg/h (derived, constants from memory)',
    (fishMassG, temperatureC, expected) => {
      expectWithin(winbergOxygenUseMgPerKgH({ fishMassG, temperatureC }), expected, 1);
    },
  );

  it.each([
    [15, 100],
    [20, 133],
    [25, 176],
    [30, 233],
  ])('by Yamanaka of 10 g at %d °C is %d mg/kg/h (derived from the published equation)', (temperatureC, expected) => {
    expectWithin(yamanakaOxygenUseMgPerKgH({ fishMassG: 10, temperatureC }), expected, 1);
  });

  it.each([
    [1, 1.35],
    [10, 1.06],
    [100, 0.82],
  ])('of %d g goes on at rest down to %d mg/L (D-21, derived from the published equation)', (fishMassG, expected) => {
    expectWithin(yamanakaCriticalOxygenMgPerL({ fishMassG }), expected, 0.01);
  });

  it('rises with temperature and falls with mass, by both', () => {
    const mass = fc.double({ min: 1, max: 5000, noNaN: true });
    fc.assert(
      fc.property(mass, fc.double({ min: 5, max: 29, noNaN: true }), (fishMassG, temperatureC) => {
        for (const use of [winbergOxygenUseMgPerKgH, yamanakaOxygenUseMgPerKgH]) {
          const here = use({ fishMassG, temperatureC });
          expect(use({ fishMassG, temperatureC: temperatureC + 0.5 })).toBeGreaterThan(here);
          expect(use({ fishMassG: fishMassG * 1.1, temperatureC })).toBeLessThan(here);
        }
      }),
    );
  });
});

describe('oxygen demand of a stock', () => {
  const stock = [
    { species: 'koi', count: 10, lengthCm: 40 },
    { species: 'slider-turtle', count: 2, lengthCm: 20 },
  ] as const;

  it('is that of fed fish, or of the food where that is more (common practice)', () => {
    const quiet = (10 * 1030 * winbergOxygenUseMgPerKgH({ fishMassG: 1030, temperatureC: 22 })) / 1e6;
    const unfed = oxygenDemand({ stock, waterTemperatureC: 22, feedGPerDay: 0 });
    expectWithin(unfed.demandGPerH, 1.5 * quiet, 0.01);
    expectWithin(unfed.highGPerH, quiet, 0.01);
    const young = (10 * 1030 * yamanakaOxygenUseMgPerKgH({ fishMassG: 1030, temperatureC: 22 })) / 1e6;
    expectWithin(unfed.lowGPerH, young, 0.01);
    expectWithin(oxygenDemand({ stock, waterTemperatureC: 22, feedGPerDay: 240 }).demandGPerH, 5, 1e-9);
  });

  it('does not grow above 28 °C, and gives its range in order', () => {
    const hot = oxygenDemand({ stock, waterTemperatureC: 34, feedGPerDay: 50 });
    expect(hot).toEqual(oxygenDemand({ stock, waterTemperatureC: 28, feedGPerDay: 50 }));
    expect(hot.lowGPerH).toBeLessThan(hot.highGPerH);
    expect(oxygenDemand({ stock, waterTemperatureC: 27, feedGPerDay: 50 }).highGPerH).toBeLessThan(hot.highGPerH);
  });

  it('refuses what cannot be', () => {
    expect(() => oxygenDemand({ stock, waterTemperatureC: Number.NaN, feedGPerDay: 0 })).toThrow('NaN');
    expect(() => oxygenDemand({ stock, waterTemperatureC: 20, feedGPerDay: -1 })).toThrow('feed, g/day: -1');
  });
});
