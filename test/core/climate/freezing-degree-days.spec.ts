import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { freezingDegreeDaysBySeason, freezingDegreeDaysC } from '../../../src/core/climate/freezing-degree-days.js';
import { OutOfRangeError } from '../../../src/core/errors.js';
import { civilDay } from '../../../src/core/units/civil-day.js';
import deBilt from '../../published/knmi-de-bilt-daily-1980-2019.json' with { type: 'json' };
import { expectWithin } from '../../support/expect-within.js';

const deBiltMeanC = deBilt.rows.flatMap((row) => row.meanTenthsC).map((tenths) => tenths / 10);

describe('freezing degree-days', () => {
  it('are the largest running sum, from which a thaw takes away', () => {
    expect(freezingDegreeDaysC([-3, -2, 4, -1, -7])).toBe(9);
    expect(freezingDegreeDaysC([-3, -2, 10, -1])).toBe(5);
    expect(freezingDegreeDaysC([5, 3, 1])).toBe(0);
  });

  it('of De Bilt are about 35 a winter, against 53 when thaws are not counted (derived)', () => {
    const seasons = freezingDegreeDaysBySeason({
      firstDay: civilDay('1980-01-01'),
      dailyMeanC: deBiltMeanC,
      latitude: 52.1,
    });
    expect(seasons).toHaveLength(39);
    expect(seasons[0]!.seasonYear).toBe(1980);
    expectWithin(seasons.reduce((sum, season) => sum + season.freezingDegreeDaysC, 0) / 39, 35, 0.5);
    const gross = deBiltMeanC.reduce((sum, meanC) => sum + Math.max(0, -meanC), 0) / 40;
    expectWithin(gross, 53, 0.5);
  });

  it('begin the southern season on 1 January', () => {
    const cold = Array.from({ length: 731 }, () => -1);
    const seasons = freezingDegreeDaysBySeason({ firstDay: civilDay('2025-01-01'), dailyMeanC: cold, latitude: -40 });
    expect(seasons.map((season) => season.seasonYear)).toEqual([2025, 2026]);
    expect(seasons[0]!.freezingDegreeDaysC).toBe(365);
  });

  it('never exceed the plain sum of frost, and grow with colder days', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: -40, max: 30, noNaN: true }), { maxLength: 200 }), (days) => {
        const net = freezingDegreeDaysC(days);
        expect(net).toBeLessThanOrEqual(days.reduce((sum, day) => sum + Math.max(0, -day), 0) + 1e-9);
        expect(freezingDegreeDaysC(days.map((day) => day - 1))).toBeGreaterThanOrEqual(net);
      }),
    );
  });

  it('pass over missing days and refuse absurd ones', () => {
    expect(freezingDegreeDaysC([-3, Number.NaN, -2])).toBe(5);
    expect(() => freezingDegreeDaysC([-300])).toThrow(OutOfRangeError);
  });
});
