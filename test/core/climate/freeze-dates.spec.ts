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
import { type CivilDay, civilDay } from '../../../src/core/units/civil-day.js';
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
    expect(dates.years).toBe(30);
    expectWithin(meanDay(dates.lastFreezes), 108.7, 0.05);
    expectWithin(meanDay(dates.firstFreezes), 306.4, 0.05);
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
