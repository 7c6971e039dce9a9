import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { OutOfRangeError } from '../../../src/core/errors.js';
import { effectiveDepthM } from '../../../src/core/thermal/effective-depth.js';
import { groundAtMidsummer, groundOf } from '../../../src/core/thermal/ground-heat.js';
import { expectWithin } from '../../support/expect-within.js';

describe('ground heat', () => {
  it('has the exchange of a third of a metre of wet ground', () => {
    expectWithin(groundOf(1).exchangeWPerM2K, 1 / 0.325, 1e-12);
    expect(groundOf(0)).toEqual({ exchangeWPerM2K: 0, upperFromWater: 0, upperFromLower: 0, lowerFromUpper: 0 });
  });

  it('keeps what one layer gives equal to what the other takes', () => {
    const { upperFromLower, lowerFromUpper } = groundOf(1.3);
    expectWithin(upperFromLower * 0.5, lowerFromUpper * 1.5, 1e-15);
  });

  it('never takes up more than the difference in a day, so that no layer overshoots', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 2.5, noNaN: true }), (conductivity) => {
        const ground = groundOf(conductivity);
        expect(ground.upperFromWater + ground.upperFromLower).toBeLessThan(1);
        expect(ground.lowerFromUpper).toBeLessThan(1);
      }),
    );
  });

  it('starts at midsummer between the water and the mean of the year', () => {
    const { upperC, lowerC } = groundAtMidsummer(24, 10);
    expect(lowerC).toBeGreaterThan(10);
    expect(upperC).toBeGreaterThan(lowerC);
    expect(upperC).toBeLessThan(24);
    expect(groundAtMidsummer(12, -15).lowerC).toBeGreaterThan(0);
  });

  it('refuses what is no ground', () => {
    expect(() => groundOf(-1)).toThrow(OutOfRangeError);
    expect(() => groundOf(Number.NaN)).toThrow(OutOfRangeError);
    expect(() => groundOf(40)).toThrow(OutOfRangeError);
  });
});

describe('effective depth', () => {
  it('is the mean depth and the mud of a garden pond, however deep', () => {
    expectWithin(effectiveDepthM({ meanDepthM: 0.9, surfaceAreaM2: 20 }), 1.05, 1e-12);
    expectWithin(effectiveDepthM({ meanDepthM: 4, surfaceAreaM2: 20 }), 4.15, 1e-12);
  });

  it('ends at the thermocline of a lake: 6.95 m where a kilometre long (Hanna 1990, from memory)', () => {
    const round = (Math.PI * 1000 ** 2) / 4;
    expectWithin(effectiveDepthM({ meanDepthM: 25, surfaceAreaM2: round }), 6.95, 1e-9);
    expectWithin(effectiveDepthM({ meanDepthM: 3.5, surfaceAreaM2: 190_000 }), 3.65, 1e-12);
  });

  it('refuses what is no depth', () => {
    expect(() => effectiveDepthM({ meanDepthM: 0, surfaceAreaM2: 20 })).toThrow(OutOfRangeError);
    expect(() => effectiveDepthM({ meanDepthM: 1, surfaceAreaM2: Number.NaN })).toThrow(OutOfRangeError);
  });
});
