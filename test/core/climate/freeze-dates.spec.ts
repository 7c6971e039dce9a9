import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import {
  firstFreezeOn,
  freezeDates,
  freezeDatesFromHistory,
  freezeDatesOf,
  lastFreezeOn,
} from '../../../src/core/climate/freeze-dates.js';
import { InvalidValueError, OutOfRangeError } from '../../../src/core/errors.js';
import { type CivilDay, civilDay, isoDateOf } from '../../../src/core/units/civil-day.js';
import deBilt from '../../published/knmi-de-bilt-daily-1980-2019.json' with { type: 'json' };
import centralPark from '../../published/noaa-central-park-daily-normals.json' with { type: 'json' };
import { CONTINENTAL, CONTINENTAL_SOUTH, TROPICAL, twelve } from '../../support/climates.js';
import { expectWithin } from '../../support/expect-within.js';

const expectNear = (day: CivilDay | null, date: string, days: number) => {
  expect(day).not.toBeNull();
  expectWithin(day!, civilDay(date), days);
};

const newYork = freezeDates({
  minC: Float64Array.from(centralPark.rows, (row) => Number(row[2])),
  minSdC: Float64Array.from(centralPark.rows, (row) => Number(row[3])),
  latitude: 40.78,
});

describe('freeze dates', () => {
  it('of New York lie within three days of the published medians, 30 March and 20 November', () => {
    expectNear(lastFreezeOn(newYork, { year: 2021, probability: 0.5 }), '2021-03-30', 3);
    expectNear(firstFreezeOn(newYork, { year: 2021, probability: 0.5 }), '2021-11-20', 3);
  });

  it('of New York have the early and late dates of the handbook, to two days (derived)', () => {
    expectNear(lastFreezeOn(newYork, { year: 2021, probability: 0.9 }), '2021-03-17', 2);
    expectNear(lastFreezeOn(newYork, { year: 2021, probability: 0.1 }), '2021-04-14', 2);
    expectNear(firstFreezeOn(newYork, { year: 2021, probability: 0.1 }), '2021-11-01', 2);
    expectNear(firstFreezeOn(newYork, { year: 2021, probability: 0.9 }), '2021-12-04', 2);
  });

  it('of De Bilt come out of thirty years of its minima', () => {
    const rows = deBilt.rows.filter((row) => row.year >= 1990);
    const dates = freezeDatesFromHistory({
      firstDay: civilDay('1990-01-01'),
      minC: rows.flatMap((row) => row.minTenthsC).map((tenths) => tenths / 10),
      latitude: 52.1,
    });
    const meanDay = (days: Int16Array) => days.reduce((sum, day) => sum + day + 1, 0) / days.length;
    const sdOfDays = (days: Int16Array) =>
      Math.sqrt(days.reduce((sum, day) => sum + (day + 1 - meanDay(days)) ** 2, 0) / days.length);
    expect(dates.years).toBe(30);
    // The handbook counts 29 February; here a date has the same place in every year, which is 7 or 8 thirtieths less.
    expectWithin(meanDay(dates.lastFreezes), 108.7 - 8 / 30, 0.05);
    expectWithin(meanDay(dates.firstFreezes), 306.4 - 7 / 30, 0.05);
    expectWithin(sdOfDays(dates.lastFreezes), 13.9, 0.05);
    expectWithin(sdOfDays(dates.firstFreezes), 17.2, 0.05);
    expectNear(lastFreezeOn(dates, { year: 2019, probability: 0.9 }), '2019-04-04', 2);
    expectNear(lastFreezeOn(dates, { year: 2019, probability: 0.5 }), '2019-04-19', 1);
    expectNear(lastFreezeOn(dates, { year: 2019, probability: 0.1 }), '2019-05-07', 2);
    expectNear(firstFreezeOn(dates, { year: 2019, probability: 0.1 }), '2019-10-16', 2);
    expectNear(firstFreezeOn(dates, { year: 2019, probability: 0.5 }), '2019-11-02', 2);
    expectNear(firstFreezeOn(dates, { year: 2019, probability: 0.9 }), '2019-11-22', 2);
  });

  it('are not invented where it does not freeze', () => {
    const tropics = freezeDatesOf(TROPICAL);
    expect(tropics.withoutSpringFreeze).toBe(1);
    expect(lastFreezeOn(tropics, { year: 2026, probability: 0.5 })).toBeNull();
    expect(firstFreezeOn(tropics, { year: 2026, probability: 0.1 })).toBeNull();
  });

  it('count the years without a freeze: rare frost has an early date but no median', () => {
    const dates = freezeDates({ minC: twelve(9, 9, 11, 14, 17, 20, 22, 22, 20, 16, 12, 9.5), minSdC: 4, latitude: 33 });
    expect(dates.withoutAutumnFreeze).toBeGreaterThan(0.5);
    expect(dates.withoutAutumnFreeze).toBeLessThan(0.95);
    expect(firstFreezeOn(dates, { year: 2026, probability: 0.5 })).toBeNull();
    expect(firstFreezeOn(dates, { year: 2026, probability: 0.05 })).not.toBeNull();
  });

  it('turn with the hemisphere: the southern autumn of a year lies in its first half', () => {
    const north = freezeDatesOf(CONTINENTAL);
    const south = freezeDatesOf(CONTINENTAL_SOUTH);
    const autumn = firstFreezeOn(south, { year: 2026, probability: 0.5 })!;
    expect(autumn).toBeGreaterThan(civilDay('2026-03-01'));
    expect(autumn).toBeLessThan(civilDay('2026-06-30'));
    const northern = firstFreezeOn(north, { year: 2025, probability: 0.5 })!;
    expectWithin(autumn - northern, 182, 5);
    const spring = lastFreezeOn(south, { year: 2026, probability: 0.5 })!;
    expect(spring).toBeGreaterThan(civilDay('2026-08-01'));
    expect(spring).toBeLessThan(civilDay('2026-12-01'));
  });

  it('fall on the same date in leap years as in others, north and south', () => {
    for (const climate of [CONTINENTAL, CONTINENTAL_SOUTH]) {
      const dates = freezeDatesOf(climate);
      for (const freezeOn of [lastFreezeOn, firstFreezeOn]) {
        const monthDay = (year: number) => isoDateOf(freezeOn(dates, { year, probability: 0.3 })!).slice(5);
        expect(new Set([2023, 2024, 2025, 2028].map(monthDay)).size).toBe(1);
      }
    }
  });

  it('count a freeze on 29 February, and one on 31 December of a leap year', () => {
    const firstDay = civilDay('2000-01-01');
    const minC = new Float64Array(civilDay('2012-01-01') - firstDay).fill(5);
    for (const year of [2000, 2004, 2008]) {
      minC[civilDay(`${year}-02-29`) - firstDay] = -1;
      minC[civilDay(`${year}-12-31`) - firstDay] = -1;
    }
    const dates = freezeDatesFromHistory({ firstDay, minC, latitude: 45 });
    expect(Array.from(dates.lastFreezes)).toEqual([58, 58, 58]);
    expect(Array.from(dates.firstFreezes)).toEqual([364, 364, 364]);
    expectWithin(dates.withoutSpringFreeze, 0.75, 1e-9);
  });

  it('of the south are those of the north half a year on, from a real history too', () => {
    const days = civilDay('2021-01-01') - civilDay('2000-01-01');
    const cosine = (start: CivilDay, shift: number) =>
      Float64Array.from({ length: days }, (_, i) => 5 - 12 * Math.cos((2 * Math.PI * (start + i - shift)) / 365.2425));
    const firstDay = civilDay('2000-01-01');
    const north = freezeDatesFromHistory({ firstDay, minC: cosine(firstDay, 15), latitude: 45 });
    const south = freezeDatesFromHistory({ firstDay, minC: cosine(firstDay, 15 + 182), latitude: -45 });
    const median = { year: 2015, probability: 0.5 };
    expectWithin(lastFreezeOn(south, median)! - lastFreezeOn(north, median)!, 182, 2);
    expectWithin(firstFreezeOn(north, median)! - firstFreezeOn(south, median)!, 183, 2);
  });

  it('come later in spring and earlier in autumn the surer one wants to be', () => {
    const dates = freezeDatesOf(CONTINENTAL);
    const share = fc.double({ min: 0.02, max: 0.98, noNaN: true });
    fc.assert(
      fc.property(share, share, (a, b) => {
        const [low, high] = [Math.min(a, b), Math.max(a, b)];
        expect(lastFreezeOn(dates, { year: 2026, probability: low })!).toBeGreaterThanOrEqual(
          lastFreezeOn(dates, { year: 2026, probability: high })!,
        );
        expect(firstFreezeOn(dates, { year: 2026, probability: low })!).toBeLessThanOrEqual(
          firstFreezeOn(dates, { year: 2026, probability: high })!,
        );
      }),
    );
  });

  it('refuse what is no climate and no history', () => {
    expect(() => freezeDates({ minC: twelve(Number.NaN), latitude: 40 })).toThrow(OutOfRangeError);
    expect(() => freezeDates({ minC: [1, 2] as never, latitude: 40 })).toThrow(InvalidValueError);
    expect(() => freezeDates({ minC: twelve(3), latitude: 40, minSdC: -1 })).toThrow(OutOfRangeError);
    expect(() => lastFreezeOn(newYork, { year: 2026, probability: 1.5 })).toThrow(OutOfRangeError);
    const short = { firstDay: civilDay('2020-01-01'), minC: new Float64Array(1000), latitude: 52 };
    expect(() => freezeDatesFromHistory(short)).toThrow(InvalidValueError);
  });
});
