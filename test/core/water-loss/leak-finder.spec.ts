import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { type LeakTest, type LevelReading, leakVerdict } from '../../../src/core/water-loss/leak-finder.js';
import { expectWithin, expectWithinShare } from '../../support/expect-within.js';

const level = (atDay: number, belowMarkMm: number, rest: Partial<LevelReading> = {}): LevelReading => ({
  atDay,
  belowMarkMm,
  rainMm: 0,
  addedL: 0,
  ...rest,
});
const byBucket = (own: Partial<LeakTest> = {}): LeakTest => ({
  readings: [level(0, 0), level(3, 30)],
  surfaceAreaM2: 12,
  evaporation: { from: 'bucket', fallMm: 12 },
  hasWaterfall: false,
  ...own,
});
const byClimate = (readings: LevelReading[], mmPerDay: number, own: Partial<LeakTest> = {}): LeakTest => ({
  readings,
  surfaceAreaM2: 12,
  evaporation: { from: 'climate', mmPerDay },
  hasWaterfall: false,
  ...own,
});

describe('leak finder', () => {
  it('finds 72 L a day in 30 mm against a bucket’s 12 mm over 3 days and 12 m² (derived, E08)', () => {
    const found = leakVerdict(byBucket());
    expectWithin(found.unexplainedLPerDay, 72, 1e-9);
    expectWithin(found.unexplainedMmPerDay, 6, 1e-9);
    expect(found.verdict).toBe('leak');
    expect(found.leakProbability).toBeGreaterThan(0.95);
  });

  it('can prove about 1 mm a day in 3 days with a bucket and a ruler read to 1 mm (derived)', () => {
    const { sigmaMmPerDay } = leakVerdict(
      byBucket({ readings: [level(0, 0), level(3, 0)], evaporation: { from: 'bucket', fallMm: 0 } }),
    );
    expectWithin(1.645 * sigmaMmPerDay, 1.1, 0.05);
  });

  it('calls less than 2 mm a day tight, 2 to 5 open, and more a leak, after 3 days with a bucket (common practice)', () => {
    const after3Days = (excessMmPerDay: number) =>
      leakVerdict(
        byBucket({
          readings: [level(0, 0), level(3, 9 + 3 * excessMmPerDay)],
          evaporation: { from: 'bucket', fallMm: 9 },
        }),
      ).verdict;
    expect([0, 0.5, 2, 3, 5.5, 8].map(after3Days)).toEqual([
      'tight',
      'tight',
      'undecided',
      'undecided',
      'leak',
      'leak',
    ]);
  });

  it('leaves open in warm weather what it settles in cool weather, by the climate alone', () => {
    const warm = leakVerdict(byClimate([level(0, 0), level(7, 7 * 10)], 6));
    const cool = leakVerdict(byClimate([level(0, 0), level(7, 7 * 6)], 2));
    expectWithin(warm.unexplainedMmPerDay, cool.unexplainedMmPerDay, 1e-9);
    expect(warm.verdict).toBe('undecided');
    expect(cool.verdict).toBe('leak');
    expect(warm.sigmaMmPerDay).toBeGreaterThan(2 * cool.sigmaMmPerDay);
  });

  it('counts what was added, what rained and what the falls take', () => {
    // 10 mm a day lost, of it 4 evaporated; 24 L over 12 m² are 2 mm, and it rained 6 mm.
    const plain = leakVerdict(byClimate([level(0, 0), level(4, 40)], 4));
    const filled = leakVerdict(byClimate([level(0, 0), level(4, 38, { addedL: 24 })], 4));
    const rained = leakVerdict(byClimate([level(0, 0), level(4, 34, { rainMm: 6 })], 4));
    expectWithin(filled.unexplainedMmPerDay, plain.unexplainedMmPerDay, 1e-9);
    expectWithin(rained.unexplainedMmPerDay, plain.unexplainedMmPerDay, 1e-9);
    expectWithin(rained.lostMm, 34, 1e-9);
    expectWithin(rained.reckonedMm, 10, 1e-9);
    const falls = leakVerdict(byClimate([level(0, 0), level(4, 40)], 4, { hasWaterfall: true }));
    expectWithin(plain.unexplainedMmPerDay - falls.unexplainedMmPerDay, 0.8, 1e-9);
    const spray = leakVerdict(byClimate([level(0, 0), level(4, 40)], 4, { sprayedFlowLPerH: 6000 }));
    expectWithin(plain.unexplainedLPerDay - spray.unexplainedLPerDay, 30, 1e-9);
  });

  it('takes the rain off the bucket too', () => {
    const dry = leakVerdict(byBucket());
    const wet = leakVerdict(
      byBucket({ readings: [level(0, 0), level(3, 20, { rainMm: 10 })], evaporation: { from: 'bucket', fallMm: 2 } }),
    );
    expectWithin(wet.unexplainedMmPerDay, dry.unexplainedMmPerDay, 1e-9);
  });

  it('says when water must have come in', () => {
    const found = leakVerdict(byClimate([level(0, 0), level(5, -20)], 4));
    expect(found.verdict).toBe('came-in');
    expect(found.leakProbability).toBeLessThan(0.01);
  });

  it('finds where the fall stopped', () => {
    const stopped = [0, 20, 40, 60, 62, 64, 66].map((mm, day) => level(day, mm));
    expect(leakVerdict(byClimate(stopped, 2)).stoppedAtMm).toBe(60);
    const steady = [0, 20, 40, 60, 80, 100].map((mm, day) => level(day, mm));
    expect(leakVerdict(byClimate(steady, 2)).stoppedAtMm).toBeNull();
    expect(leakVerdict(byClimate([level(0, 0), level(3, 30)], 2)).stoppedAtMm).toBeNull();
  });

  it('calls a loss of just 2 mm a day a leak in one test of twenty, whatever the weather and the length', () => {
    const evaporation = fc.double({ min: 0, max: 8, noNaN: true });
    fc.assert(
      fc.property(evaporation, fc.integer({ min: 2, max: 14 }), (mmPerDay, days) => {
        const off = (sigmas: number) => {
          const { sigmaMmPerDay } = leakVerdict(byClimate([level(0, 0), level(days, 0)], mmPerDay));
          const perDay = mmPerDay + 2 + sigmas * sigmaMmPerDay;
          return leakVerdict(byClimate([level(0, 0), level(days, days * perDay)], mmPerDay));
        };
        // One side of a normal distribution beyond 1.6449 of its standard deviations holds 5 %.
        expect(off(1.64).verdict).toBe('undecided');
        expect(off(1.65).verdict).toBe('leak');
        expect(off(-1.64).verdict).toBe('undecided');
        expect(off(-1.65).verdict).toBe('tight');
      }),
    );
  });

  it('grows surer of a leak with its size and with the time measured, and closes its balance', () => {
    const leak = fc.double({ min: 0, max: 20, noNaN: true });
    const evaporation = fc.double({ min: 0, max: 10, noNaN: true });
    fc.assert(
      fc.property(leak, evaporation, fc.integer({ min: 2, max: 14 }), (perDay, mmPerDay, days) => {
        const over = (length: number, size: number) =>
          leakVerdict(byClimate([level(0, 0), level(length, length * (size + mmPerDay))], mmPerDay));
        const here = over(days, perDay);
        expect(over(days, perDay + 1).leakProbability).toBeGreaterThanOrEqual(here.leakProbability);
        expect(over(days + 1, perDay).sigmaMmPerDay).toBeLessThan(here.sigmaMmPerDay);
        expectWithin(here.unexplainedMmPerDay, perDay, 1e-9);
        expectWithin(here.lostMm, here.reckonedMm + here.unexplainedMmPerDay * days, 1e-9);
        expectWithinShare(here.unexplainedLPerDay, here.unexplainedMmPerDay * 12, 1e-9);
        expect(here.leakProbability).toBeGreaterThanOrEqual(0);
        expect(here.leakProbability).toBeLessThanOrEqual(1);
      }),
    );
  });

  it('does not care at which height the mark was made', () => {
    fc.assert(
      fc.property(fc.double({ min: -500, max: 500, noNaN: true }), (markMm) => {
        const at = (offMm: number) =>
          leakVerdict(byClimate([level(0, offMm), level(2, 11 + offMm), level(5, 32 + offMm)], 3));
        expectWithin(at(markMm).unexplainedMmPerDay, at(0).unexplainedMmPerDay, 1e-9);
      }),
    );
  });

  it.each<[string, LeakTest, string]>([
    ['one level', byClimate([level(0, 0)], 4), 'Give at least two'],
    ['levels out of order', byClimate([level(0, 0), level(3, 9), level(2, 12)], 4), 'later than the one before'],
    ['two hours', byClimate([level(0, 0), level(0.08, 1)], 4), 'length of the test, days: 0.08'],
    ['half a year', byClimate([level(0, 0), level(180, 900)], 4), 'length of the test, days: 180'],
    ['a level that is none', byClimate([level(0, 0), level(3, Number.NaN)], 4), 'water below the mark, mm: NaN'],
    ['negative rain', byClimate([level(0, 0), level(3, 9, { rainMm: -1 })], 4), 'rain, mm: -1'],
    ['absurd evaporation', byClimate([level(0, 0), level(3, 9)], 400), 'evaporation, mm/day: 400'],
    ['no surface', byBucket({ surfaceAreaM2: 0 }), 'surface area, m²: 0'],
    ['a ruler to the metre', byBucket({ rulerSigmaMm: 1000 }), 'error of the ruler, mm: 1000'],
  ])('refuses %s', (_, test, message) => {
    expect(() => leakVerdict(test)).toThrow(message);
  });
});
