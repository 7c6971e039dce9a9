import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { OutOfRangeError } from '../../../src/core/errors.js';
import {
  iceThicknessCm,
  refugeDepthM,
  shownIceCm,
  simulatedIceM,
  stefanCeilingCm,
  thinIceCm,
} from '../../../src/core/thermal/ice.js';
import armyMap from '../../published/us-army-ice-thickness.json' with { type: 'json' };
import { expectWithin } from '../../support/expect-within.js';

const CM_PER_INCH = 2.54;
/** alpha in cm per sqrt(°C d) of a coefficient in inches per sqrt(°F d). */
const alphaOf = (inches: number) => inches * CM_PER_INCH * Math.sqrt(1.8);

describe('ice thickness', () => {
  it.each(armyMap.rows)('agrees with a printed map: $freezingDegreeDaysF °F d, $inches in', (row) => {
    const cm = iceThicknessCm({
      freezingDegreeDaysC: row.freezingDegreeDaysF / 1.8,
      alpha: alphaOf(row.coefficientInches),
    });
    expectWithin(cm / CM_PER_INCH, row.inches, 0.05);
  });

  it('converts the coefficients of the US Army note: 0.8 is 2.73, 0.5 is 1.70 (derived)', () => {
    expectWithin(alphaOf(0.8), 2.73, 0.005);
    expectWithin(alphaOf(0.5), 1.7, 0.005);
  });

  it('is 2.0 times the root of the freezing degree-days: 66.7 give 16.3 cm, 100 give 20 (derived)', () => {
    expectWithin(iceThicknessCm({ freezingDegreeDaysC: 66.7 }), 16.3, 0.05);
    expectWithin(iceThicknessCm({ freezingDegreeDaysC: 100 }), 20, 1e-9);
  });

  it('stays under the ceiling of theory: 35.2 cm at 100 °C d (derived)', () => {
    expectWithin(stefanCeilingCm({ freezingDegreeDaysC: 100 }), 35.2, 0.05);
  });

  it.each([
    [20, 20, 8.25],
    [20, 50, 16.3],
    [20, 200, 40.3],
    [10, 50, 11.3],
  ])('grows thin with H %d and %d °C d to %d cm (derived)', (exchangeWPerM2K, freezingDegreeDaysC, cm) => {
    expectWithin(thinIceCm({ freezingDegreeDaysC, exchangeWPerM2K }), cm, 0.06);
  });

  it('is shown thin up to 5 cm and by the root above, never shrinking with more cold', () => {
    expectWithin(shownIceCm(5), thinIceCm({ freezingDegreeDaysC: 5 }), 0.01);
    expectWithin(shownIceCm(50), 14.14, 0.01);
    const cold = fc.double({ min: 0, max: 3000, noNaN: true });
    fc.assert(
      fc.property(cold, cold, (a, b) => {
        expect(shownIceCm(Math.max(a, b))).toBeGreaterThanOrEqual(shownIceCm(Math.min(a, b)));
      }),
    );
  });

  it('melts 14.1 mm a day under 50 W/m² (derived)', () => {
    expectWithin(1000 * (0.1 - simulatedIceM(0.1, 3, 50)), 14.1, 0.05);
    expect(simulatedIceM(0.01, 3, 50)).toBe(0);
  });

  it('grows in the simulation as the integral of Stefan says: a hundred days of -1 °C as one of -100', () => {
    let ice = 0.005;
    for (let day = 0; day < 100; day++) ice = simulatedIceM(ice, -1, -1);
    expectWithin(ice, simulatedIceM(0.005, -100, -1), 1e-9);
    expect(100 * ice).toBeLessThan(35.2);
  });

  it('leaves water for the fish, or none', () => {
    expectWithin(refugeDepthM({ maxDepthM: 1.2, iceThicknessCm: 55 }), 0.65, 1e-9);
    expect(refugeDepthM({ maxDepthM: 0.3, iceThicknessCm: 55 })).toBe(0);
  });

  it('refuses absurd cold', () => {
    expect(() => iceThicknessCm({ freezingDegreeDaysC: -1 })).toThrow(OutOfRangeError);
    expect(() => thinIceCm({ freezingDegreeDaysC: 10, exchangeWPerM2K: 500 })).toThrow(OutOfRangeError);
    expect(() => refugeDepthM({ maxDepthM: Number.NaN, iceThicknessCm: 10 })).toThrow(OutOfRangeError);
  });
});
