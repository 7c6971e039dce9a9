import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { koeppenClass, koeppenFigures } from '../../../src/core/climate/koeppen.js';
import type { TwelveMonths } from '../../../src/core/climate/station.js';
import { OutOfRangeError } from '../../../src/core/errors.js';
import stations from '../../published/koeppen-thirteen-stations.json' with { type: 'json' };
import { expectWithin } from '../../support/expect-within.js';

const evenRain = Array.from({ length: 12 }, () => 80) as unknown as TwelveMonths;
const flat = (value: number) => Array.from({ length: 12 }, () => value) as unknown as TwelveMonths;

describe('Koeppen class', () => {
  it.each(stations.rows)('of $station is $class', (row) => {
    expect(koeppenClass({ meanC: row.meanC as never, precipitationMm: row.precipitationMm as never })).toBe(row.class);
  });

  it.each(stations.rows)('of $station hangs on the figures worked by hand (derived)', ({ figures, ...row }) => {
    const found = koeppenFigures({ meanC: row.meanC as never, precipitationMm: row.precipitationMm as never });
    const summerMm = found.summerMm.reduce((sum, mm) => sum + mm, 0);
    expectWithin(found.annualMeanC, figures.annualMeanC, 0.051);
    expectWithin(found.annualMm, figures.annualMm, 0.6);
    expectWithin(found.coldestC, figures.coldestC, 0.051);
    expectWithin(found.warmestC, figures.warmestC, 0.051);
    expectWithin(found.drynessThreshold, figures.drynessThreshold, 0.11);
    expectWithin(Math.min(...found.summerMm), figures.summerDriestMm, 0.051);
    expectWithin(Math.min(...found.winterMm), figures.winterDriestMm, 0.051);
    expectWithin(Math.max(...found.summerMm), figures.summerWettestMm, 0.051);
    expectWithin(Math.max(...found.winterMm), figures.winterWettestMm, 0.051);
    expectWithin(summerMm / found.annualMm, figures.summerShare, 0.0051);
  });

  it('calls tundra and ice by their warmest month', () => {
    expect(koeppenClass({ meanC: flat(5), precipitationMm: evenRain })).toBe('ET');
    expect(koeppenClass({ meanC: flat(-5), precipitationMm: evenRain })).toBe('EF');
  });

  it('parts C from D at 0 °C, or at -3 °C when asked as on older maps', () => {
    const meanC = [-2, 0, 5, 9, 14, 18, 20, 19, 15, 10, 5, 0] as unknown as TwelveMonths;
    expect(koeppenClass({ meanC, precipitationMm: evenRain })).toBe('Dfb');
    expect(koeppenClass({ meanC, precipitationMm: evenRain }, { coldLimitC: -3 })).toBe('Cfb');
  });

  it('names the severe winters of d only in D climates', () => {
    const meanC = [-42, -38, -25, -8, 5, 14, 17, 13, 5, -10, -30, -40] as unknown as TwelveMonths;
    expect(koeppenClass({ meanC, precipitationMm: flat(25) })).toBe('Dfd');
  });

  it('does not care on which hemisphere the year turns', () => {
    const month = fc.double({ min: -20, max: 35, noNaN: true });
    const rain = fc.double({ min: 0, max: 400, noNaN: true });
    const year = <T>(of: fc.Arbitrary<T>) => fc.array(of, { minLength: 12, maxLength: 12 });
    const shifted = (values: number[]) => [...values.slice(6), ...values.slice(0, 6)];
    fc.assert(
      fc.property(year(month), year(rain), (meanC, precipitationMm) => {
        const north = koeppenClass({ meanC, precipitationMm } as never);
        const south = koeppenClass({ meanC: shifted(meanC), precipitationMm: shifted(precipitationMm) } as never);
        // Sums in another order may differ in the last bit; equal halves have no summer.
        const halves = [3, 4, 5, 6, 7, 8].reduce((sum, i) => sum + meanC[i]!, 0) * 2 - meanC.reduce((a, b) => a + b, 0);
        fc.pre(Math.abs(halves) > 1e-6);
        expect(south).toBe(north);
      }),
    );
  });

  it('refuses what is no climate', () => {
    expect(() => koeppenClass({ meanC: flat(Number.NaN), precipitationMm: evenRain })).toThrow(OutOfRangeError);
    expect(() => koeppenClass({ meanC: flat(10), precipitationMm: flat(-1) })).toThrow(OutOfRangeError);
    expect(() => koeppenClass({ meanC: [1, 2] as never, precipitationMm: evenRain })).toThrow(OutOfRangeError);
  });
});
