import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { degreeDaysOfMeanC, degreeDaysOfSeries, singleSineDegreeDaysC } from '../../../src/core/climate/degree-days.js';
import { InvalidValueError, OutOfRangeError } from '../../../src/core/errors.js';
import { expectWithin } from '../../support/expect-within.js';

const temperature = fc.double({ min: -30, max: 45, noNaN: true });

describe('degree-days', () => {
  it('of a day from 6 to 20 °C above 10 are 3.0 by the mean and 3.936 by the sine (derived)', () => {
    expectWithin(degreeDaysOfMeanC({ meanC: 13, baseC: 10 }), 3, 1e-12);
    expectWithin(singleSineDegreeDaysC({ maxC: 20, minC: 6, baseC: 10 }), 3.936, 0.0006);
  });

  it('are what the mean lies above where the whole day is warm, and none where it is cold', () => {
    expect(singleSineDegreeDaysC({ maxC: 24, minC: 12, baseC: 10 })).toBe(8);
    expect(singleSineDegreeDaysC({ maxC: 9, minC: 1, baseC: 10 })).toBe(0);
    expect(degreeDaysOfMeanC({ meanC: 9, baseC: 10 })).toBe(0);
  });

  it('count the warm hours of a day whose mean is too cold', () => {
    expect(degreeDaysOfMeanC({ meanC: 9, baseC: 10 })).toBe(0);
    expect(singleSineDegreeDaysC({ maxC: 16, minC: 2, baseC: 10 })).toBeGreaterThan(0.5);
  });

  it('agree with the sine summed minute by minute', () => {
    fc.assert(
      fc.property(temperature, temperature, fc.double({ min: -5, max: 25, noNaN: true }), (a, b, baseC) => {
        const [minC, maxC] = [Math.min(a, b), Math.max(a, b)];
        let sum = 0;
        for (let minute = 0; minute < 1440; minute++) {
          const airC = (maxC + minC) / 2 + ((maxC - minC) / 2) * Math.sin((2 * Math.PI * (minute + 0.5)) / 1440);
          sum += Math.max(0, airC - baseC) / 1440;
        }
        expectWithin(singleSineDegreeDaysC({ maxC, minC, baseC }), sum, 0.001);
      }),
      { numRuns: 40 },
    );
  });

  it('by the sine are never fewer than by the mean, and fall with the base', () => {
    fc.assert(
      fc.property(temperature, temperature, fc.double({ min: -5, max: 25, noNaN: true }), (a, b, baseC) => {
        const [minC, maxC] = [Math.min(a, b), Math.max(a, b)];
        const sine = singleSineDegreeDaysC({ maxC, minC, baseC });
        expect(sine).toBeGreaterThanOrEqual(degreeDaysOfMeanC({ meanC: (maxC + minC) / 2, baseC }) - 1e-9);
        expect(singleSineDegreeDaysC({ maxC, minC, baseC: baseC + 1 })).toBeLessThanOrEqual(sine + 1e-9);
      }),
    );
  });

  it('of a series add up, and say how many days are missing', () => {
    const dailyMeanC = [12, Number.NaN, 9, 15.5];
    expect(degreeDaysOfSeries({ dailyMeanC, baseC: 10 })).toEqual({ degreeDaysC: 7.5, missingDays: 1 });
  });

  it('refuse what is no weather', () => {
    expect(() => degreeDaysOfMeanC({ meanC: Number.NaN, baseC: 10 })).toThrow(OutOfRangeError);
    expect(() => degreeDaysOfMeanC({ meanC: 10, baseC: 400 })).toThrow(OutOfRangeError);
    expect(() => singleSineDegreeDaysC({ maxC: 200, minC: 0, baseC: 10 })).toThrow(OutOfRangeError);
    expect(() => singleSineDegreeDaysC({ maxC: 0, minC: 5, baseC: 10 })).toThrow(InvalidValueError);
    expect(() => degreeDaysOfSeries({ dailyMeanC: [500], baseC: 10 })).toThrow(OutOfRangeError);
  });
});
