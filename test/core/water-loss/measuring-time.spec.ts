import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { leakVerdict } from '../../../src/core/water-loss/leak-finder.js';
import {
  daysToSettle,
  LONGEST_TEST_DAYS,
  leakPlace,
  measuringDays,
  testSigmaMmPerDay,
} from '../../../src/core/water-loss/measuring-time.js';
import { normalShareBelow } from '../../../src/core/water-loss/normal-distribution.js';
import { expectWithin } from '../../support/expect-within.js';

const cool = { reference: 'climate', evaporationMmPerDay: 1.5, hasWaterfall: false } as const;
const warm = { ...cool, evaporationMmPerDay: 6 } as const;
const bucket = { ...warm, reference: 'bucket' } as const;

describe('time to measure', () => {
  it('is a few days in cool weather or with a bucket, and no time is enough by the climate in hot weather', () => {
    expect(measuringDays(cool)).toBe(2);
    expect(measuringDays(warm)).toBeNull();
    expect(measuringDays(bucket)).toBeLessThanOrEqual(4);
    expect(measuringDays(bucket)).not.toBeNull();
  });

  it('tells a leak of 5 mm from a tight pond when it is kept', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 12, noNaN: true }), fc.boolean(), (evaporationMmPerDay, hasWaterfall) => {
        const test = { reference: 'bucket' as const, evaporationMmPerDay, hasWaterfall };
        const days = measuringDays(test);
        fc.pre(days !== null);
        const sigma = testSigmaMmPerDay(test, days);
        expect(2 + 2 * 1.6449 * sigma).toBeLessThanOrEqual(5 + 1e-9);
        expect(days === 2 || 2 + 2 * 1.6449 * testSigmaMmPerDay(test, days - 1) > 5).toBe(true);
      }),
    );
  });

  it('settles an open test when the rate goes on', () => {
    const reading = (atDay: number, belowMarkMm: number) => ({ atDay, belowMarkMm, rainMm: 0, addedL: 0 });
    const tested = (days: number) =>
      leakVerdict({
        readings: [reading(0, 0), reading(days, days * (4 + 1.5))],
        surfaceAreaM2: 10,
        evaporation: { from: 'climate', mmPerDay: 1.5 },
        hasWaterfall: false,
      });
    expect(tested(1).verdict).toBe('undecided');
    const days = daysToSettle(cool, tested(1))!;
    expect(days).toBeGreaterThan(1);
    expect(days).toBeLessThanOrEqual(LONGEST_TEST_DAYS);
    expect(tested(days).verdict).toBe('leak');
  });

  it('is never when what is lost lies at the limit itself', () => {
    expect(daysToSettle(cool, { unexplainedMmPerDay: 2, days: 3 })).toBeNull();
  });

  it('is refused for absurd weather', () => {
    expect(() => measuringDays({ ...cool, evaporationMmPerDay: Number.NaN })).toThrow('evaporation, mm/day: NaN');
    expect(() => measuringDays({ ...cool, rulerSigmaMm: 0 })).toThrow('error of the ruler, mm: 0');
  });
});

describe('place of a leak (common practice)', () => {
  it('is the pumped part when the pond is tight with the pumps off', () => {
    expect(leakPlace({ pumpsOn: 'leak', pumpsOff: 'tight' })).toBe('pumped');
    expect(leakPlace({ pumpsOn: 'leak', pumpsOff: 'leak' })).toBe('basin');
    expect(leakPlace({ pumpsOn: 'tight', pumpsOff: 'leak' })).toBe('basin');
    expect(leakPlace({ pumpsOn: 'leak', pumpsOff: 'undecided' })).toBeNull();
    expect(leakPlace({ pumpsOn: 'tight', pumpsOff: 'tight' })).toBeNull();
  });
});

describe('normal distribution', () => {
  it.each([
    [0, 0.5],
    [1, 0.8413447],
    [1.6448536, 0.95],
    [1.959964, 0.975],
    [-2.3263479, 0.01],
    [3, 0.9986501],
  ])('below %d lies %d (published source: tables of Abramowitz & Stegun)', (z, share) => {
    expectWithin(normalShareBelow(z), share, 1e-6);
  });

  it('ends at nothing and at all, and mirrors', () => {
    expect(normalShareBelow(Number.NEGATIVE_INFINITY)).toBe(0);
    expect(normalShareBelow(Number.POSITIVE_INFINITY)).toBe(1);
    fc.assert(
      fc.property(fc.double({ min: -9, max: 9, noNaN: true }), (z) => {
        expectWithin(normalShareBelow(z) + normalShareBelow(-z), 1, 2e-7);
      }),
    );
  });
});
