import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import {
  winterClassFor,
  winterClassFromDailyAir,
  winterClassFromZone,
  winterClassOf,
} from '../../../src/core/climate/winter-class.js';
import { OutOfRangeError } from '../../../src/core/errors.js';
import { civilDay } from '../../../src/core/units/civil-day.js';
import deBilt from '../../published/knmi-de-bilt-daily-1980-2019.json' with { type: 'json' };
import { aClimate, aGardenPond, CONTINENTAL, CONTINENTAL_SOUTH, TROPICAL, twelve } from '../../support/climates.js';
import { expectWithin } from '../../support/expect-within.js';

describe('winter class', () => {
  it.each([
    [0, 12, 1.2, 'W0'],
    [0, 8, 1.2, 'W1'],
    [19, 4, 1.2, 'W1'],
    [20, 3, 1.2, 'W2'],
    [250, 0.5, 1.2, 'W2'],
    [251, 0.5, 1.2, 'W3'],
    [150, 0.5, 0.6, 'W3'],
  ])(
    'of %d °C d, coldest month %d °C, %d m deep is %s',
    (freezingDegreeDaysC, coldestMonthWaterC, maxDepthM, expected) => {
      expect(winterClassOf({ freezingDegreeDaysC, coldestMonthWaterC, maxDepthM })).toBe(expected);
    },
  );

  it('never gets milder with more cold, nor with a shallower pond', () => {
    const afdd = fc.double({ min: 0, max: 2000, noNaN: true });
    const depth = fc.double({ min: 0.2, max: 4, noNaN: true });
    fc.assert(
      fc.property(afdd, afdd, depth, depth, fc.double({ min: -1, max: 9, noNaN: true }), (a, b, c, d, water) => {
        const of = (freezingDegreeDaysC: number, maxDepthM: number) =>
          winterClassOf({ freezingDegreeDaysC, maxDepthM, coldestMonthWaterC: water });
        expect(of(Math.max(a, b), c) >= of(Math.min(a, b), c)).toBe(true);
        expect(of(a, Math.min(c, d)) >= of(a, Math.max(c, d))).toBe(true);
      }),
    );
  });

  it('of De Bilt is W2 from its forty winters, about 35 °C d and 12 cm of ice', () => {
    const outlook = winterClassFromDailyAir({
      firstDay: civilDay('1980-01-01'),
      dailyMeanC: deBilt.rows.flatMap((row) => row.meanTenthsC).map((tenths) => tenths / 10),
      latitude: 52.1,
      maxDepthM: 1.2,
      coldestMonthWaterC: 2.6,
    });
    expect(outlook.winterClass).toBe('W2');
    expectWithin(outlook.freezingDegreeDaysC, 35, 0.5);
    expectWithin(outlook.iceThicknessCm, 11.8, 0.1);
    expect(outlook.designIceThicknessCm).toBeGreaterThan(18);
  });

  it('of simulated winters follows the climate, north and south alike', () => {
    const of = (climate: typeof CONTINENTAL) =>
      winterClassFor({ climate, pond: aGardenPond({ latitude: climate.latitude }), maxDepthM: 1.2, seed: 1 });
    expect(of(TROPICAL).winterClass).toBe('W0');
    const north = of(CONTINENTAL);
    const south = of(CONTINENTAL_SOUTH);
    expect(north.winterClass).toBe('W3');
    expect(south.winterClass).toBe('W3');
    expectWithin(south.freezingDegreeDaysC, north.freezingDegreeDaysC, 0.25 * north.freezingDegreeDaysC);
  });

  it('finds the frost that monthly normals hide', () => {
    const marine = aClimate(twelve(3.2, 3.4, 6.2, 9.4, 13.2, 15.8, 18, 17.6, 14.6, 10.9, 6.8, 4.2));
    const outlook = winterClassFor({ climate: marine, pond: aGardenPond(), maxDepthM: 1.2, seed: 1 });
    expect(outlook.freezingDegreeDaysC).toBeGreaterThan(10);
  });

  it.each([
    ['5b', 1, 'W3'],
    ['6b', 1, 'W3'],
    ['7a', 3, 'W2'],
    ['8b', 5, 'W2'],
    ['9a', 7, 'W1'],
    ['10a', 11, 'W0'],
    ['10a', 9, 'W1'],
  ])('of zone %s, coldest month %d °C, is %s as a last resort', (hardinessZone, coldestMonthWaterC, expected) => {
    expect(winterClassFromZone({ hardinessZone, coldestMonthWaterC })).toBe(expected);
  });

  it('is not given on fewer than ten winters, nor on absurd figures', () => {
    const short = { firstDay: civilDay('2015-01-01'), dailyMeanC: new Float64Array(1500), latitude: 50 };
    expect(() => winterClassFromDailyAir({ ...short, maxDepthM: 1, coldestMonthWaterC: 3 })).toThrow(OutOfRangeError);
    expect(() => winterClassOf({ freezingDegreeDaysC: -1, coldestMonthWaterC: 3, maxDepthM: 1 })).toThrow(
      OutOfRangeError,
    );
  });
});
