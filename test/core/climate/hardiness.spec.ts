import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { estimateExtremeMinC, hardinessZoneMinC, hardinessZoneOf } from '../../../src/core/climate/hardiness.js';
import type { TwelveMonths } from '../../../src/core/climate/station.js';
import { InvalidValueError, OutOfRangeError } from '../../../src/core/errors.js';
import deBilt from '../../published/knmi-de-bilt-daily-1980-2019.json' with { type: 'json' };
import zones from '../../published/usda-hardiness-zones.json' with { type: 'json' };
import { expectWithin } from '../../support/expect-within.js';

const celsius = (fahrenheit: number) => ((fahrenheit - 32) * 5) / 9;

describe('hardiness zone', () => {
  it.each(zones.rows)('$zone runs from $minF °F, included, to $maxF °F, excluded', (row) => {
    expect(hardinessZoneOf({ extremeMinC: celsius(row.minF) })).toBe(row.zone);
    expect(hardinessZoneOf({ extremeMinC: celsius(row.maxF) - 0.001 })).toBe(row.zone);
    expectWithin(hardinessZoneMinC(row.zone), row.minC, 0.005);
  });

  it('begins at or below its own night, and is never colder for a milder one', () => {
    const night = fc.double({ min: -51, max: 21, noNaN: true });
    fc.assert(
      fc.property(night, night, (a, b) => {
        const [cold, mild] = [Math.min(a, b), Math.max(a, b)];
        const begins = (extremeMinC: number) => hardinessZoneMinC(hardinessZoneOf({ extremeMinC }));
        expect(begins(cold)).toBeLessThanOrEqual(cold + 1e-4);
        expect(begins(mild)).toBeGreaterThanOrEqual(begins(cold));
      }),
    );
  });

  it('ends at 1a and 13b', () => {
    expect(hardinessZoneOf({ extremeMinC: -70 })).toBe('1a');
    expect(hardinessZoneOf({ extremeMinC: 30 })).toBe('13b');
  });

  it('of De Bilt is 8a, from the mean of its yearly minima 1991 to 2019', () => {
    const years = deBilt.rows.filter((row) => row.year >= 1991);
    const mean = years.reduce((sum, row) => sum + Math.min(...row.minTenthsC) / 10, 0) / years.length;
    expectWithin(mean, -9.94, 0.005);
    expect(hardinessZoneOf({ extremeMinC: mean })).toBe('8a');
  });

  it('is estimated from the coldest month and its spread', () => {
    const minC = [-10.1, -8, -3, 3, 9, 14, 17, 16, 11, 5, -1, -7] as unknown as TwelveMonths;
    const dailySdC = [7, 6, 6, 5, 4, 4, 3, 3, 4, 5, 5, 6] as unknown as TwelveMonths;
    expectWithin(estimateExtremeMinC({ minC, dailySdC }), -29, 1e-9);
  });

  it('refuses what is no zone and no temperature', () => {
    expect(() => hardinessZoneOf({ extremeMinC: Number.NaN })).toThrow(OutOfRangeError);
    expect(() => hardinessZoneMinC('14a')).toThrow(InvalidValueError);
    expect(() => hardinessZoneMinC('7')).toThrow(InvalidValueError);
  });
});
