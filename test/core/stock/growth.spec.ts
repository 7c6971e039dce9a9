import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import {
  greatestGrowth,
  grownStock,
  growthYears,
  lengthAfterCm,
  lengthAtAgeCm,
} from '../../../src/core/stock/growth.js';
import carpRation from '../../published/carp-ration.json' with { type: 'json' };
import goldfish from '../../published/goldfish-length-at-age.json' with { type: 'json' };
import koiMarks from '../../published/koi-growth-marks.json' with { type: 'json' };
import { expectWithin } from '../../support/expect-within.js';

const KOI_FINAL_CM = 75;

describe('length of a fish by age', () => {
  it.each([
    [1, 19.4],
    [2, 33.8],
    [3, 44.5],
    [5, 58.3],
    [10, 71.3],
  ])('of a koi of %d years is %d cm (L-6, derived, constants common practice)', (ageYears, lengthCm) => {
    expectWithin(lengthAtAgeCm({ species: 'koi', ageYears }), lengthCm, 0.1);
  });

  it.each(koiMarks.rows)('meets a breeder: $shareOfFinalLength of the final length at $ageYears years', (row) => {
    const share = lengthAtAgeCm({ species: 'koi', ageYears: row.ageYears }) / KOI_FINAL_CM;
    expectWithin(share, row.shareOfFinalLength, 0.05);
  });

  it.each(goldfish.rows)('meets goldfish of $ageYears years at $lengthCm cm', (row) => {
    expectWithin(lengthAtAgeCm({ species: 'goldfish', ageYears: row.ageYears }), row.lengthCm, row.tolerance);
  });

  it('is refused for an age no fish reaches', () => {
    expect(() => lengthAtAgeCm({ species: 'koi', ageYears: 71 })).toThrow(
      'age of the fish, years: 71, outside 0 to 70.',
    );
    expect(() => lengthAtAgeCm({ species: 'koi', ageYears: -1 })).toThrow('-1');
  });
});

describe('length after some years', () => {
  it('of a koi of 25 cm after three years is 54.7 cm (derived)', () => {
    expectWithin(lengthAfterCm({ species: 'koi', lengthCm: 25, years: 3 }), 54.7, 0.1);
  });

  it('goes on along the curve: a year and a year are two years, and nobody shrinks or outgrows it', () => {
    const length = fc.double({ min: 1, max: 75, noNaN: true });
    const years = fc.double({ min: 0, max: 30, noNaN: true });
    fc.assert(
      fc.property(length, years, years, (lengthCm, first, second) => {
        const grow = (fromCm: number, over: number) => lengthAfterCm({ species: 'koi', lengthCm: fromCm, years: over });
        expectWithin(grow(grow(lengthCm, first), second), grow(lengthCm, first + second), 1e-9);
        expect(grow(lengthCm, first)).toBeGreaterThanOrEqual(lengthCm - 1e-12);
        expect(grow(lengthCm, first)).toBeLessThanOrEqual(KOI_FINAL_CM);
      }),
    );
  });

  it('starts where age does', () => {
    const second = lengthAtAgeCm({ species: 'koi', ageYears: 2 });
    const third = lengthAtAgeCm({ species: 'koi', ageYears: 3 });
    expectWithin(lengthAfterCm({ species: 'koi', lengthCm: second, years: 1 }), third, 1e-9);
  });

  it('leaves giants, turtles and other fish as they are', () => {
    const stock = [
      { species: 'koi', count: 1, lengthCm: 80 },
      { species: 'slider-turtle', count: 2, lengthCm: 20 },
      { species: 'other-fish', count: 5, lengthCm: 15 },
    ] as const;
    expect(grownStock(stock, 5)).toEqual(stock);
  });
});

describe('greatest growth by temperature', () => {
  it.each(carpRation.rows)('at $temperatureC °C is $maxGrowthPctPerDay %% a day', (row) => {
    const growth = greatestGrowth(row);
    expectWithin(growth.pctPerDay, row.maxGrowthPctPerDay, 1e-12);
    expect(growth.isMeasured).toBe(true);
  });

  it('is marked as not measured outside 12 to 30 °C, where it ends at nothing and stays level', () => {
    expect(greatestGrowth({ temperatureC: 5 })).toEqual({ pctPerDay: 0, isMeasured: false });
    expect(greatestGrowth({ temperatureC: 11 }).isMeasured).toBe(false);
    expect(greatestGrowth({ temperatureC: 34 })).toEqual({ pctPerDay: 3.32, isMeasured: false });
  });

  it('never falls with temperature', () => {
    const temperature = fc.double({ min: -1, max: 45, noNaN: true });
    fc.assert(
      fc.property(temperature, temperature, (a, b) => {
        const at = (temperatureC: number) => greatestGrowth({ temperatureC }).pctPerDay;
        expect(at(Math.max(a, b))).toBeGreaterThanOrEqual(at(Math.min(a, b)));
      }),
    );
  });
});

describe('growth in a run of days', () => {
  const yearC = Array.from({ length: 365 }, (_, day) => 12 - 12 * Math.cos((2 * Math.PI * (day - 22)) / 365));

  it('of the whole year is one year, and its parts add up to it', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 365 }), (cut) => {
        const parts = [yearC.slice(0, cut), yearC.slice(cut)];
        const years = parts.map((daysC) => growthYears({ daysC, yearC }));
        expectWithin(years[0]! + years[1]!, 1, 1e-9);
      }),
    );
  });

  it('falls into the warm half of it', () => {
    const winterC = [...yearC.slice(0, 60), ...yearC.slice(335)];
    expect(growthYears({ daysC: winterC, yearC })).toBe(0);
    expect(growthYears({ daysC: yearC.slice(121, 274), yearC })).toBeGreaterThan(0.75);
  });

  it('is nothing where it is never warm, and is refused without a whole year', () => {
    expect(growthYears({ daysC: [5, 5], yearC: new Array(365).fill(5) })).toBe(0);
    expect(() => growthYears({ daysC: [20], yearC: [20] })).toThrow('days of the year: 1, outside 365 to 366.');
  });
});
