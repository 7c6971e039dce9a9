import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { saturationVapourPressureKPa } from '../../../src/core/climate/fao56.js';
import { warmerClimate } from '../../../src/core/climate/warmer-climate.js';
import { OutOfRangeError } from '../../../src/core/errors.js';
import { CONTINENTAL, TROPICAL } from '../../support/climates.js';

describe('warmerClimate', () => {
  it('moves every month by as much and leaves rain, sun and spread', () => {
    const warmer = warmerClimate(CONTINENTAL, 3);
    for (const series of ['meanC', 'maxC', 'minC'] as const)
      expect(warmer[series].map((value, month) => value - (CONTINENTAL[series][month] ?? 0))).toEqual(
        Array(12).fill(3),
      );
    const { precipitationMm, sunShare, dailySdC, betweenYearsSdC } = CONTINENTAL;
    expect(warmer).toMatchObject({ precipitationMm, sunShare, dailySdC, betweenYearsSdC });
  });

  it('keeps the relative humidity of each month', () => {
    const humidity = ({ vapourPressureHPa, meanC }: typeof CONTINENTAL) =>
      meanC.map(
        (temperatureC, month) => (vapourPressureHPa[month] ?? 0) / saturationVapourPressureKPa({ temperatureC }),
      );
    fc.assert(
      fc.property(fc.double({ min: -10, max: 10, noNaN: true }), (warmerC) => {
        const [before, after] = [humidity(CONTINENTAL), humidity(warmerClimate(CONTINENTAL, warmerC))];
        for (const [month, share] of before.entries()) expect(after[month]).toBeCloseTo(share, 9);
      }),
    );
  });

  it('names another zone and class where the cold goes', () => {
    const cold = warmerClimate(TROPICAL, -15);
    expect(cold.hardinessZone).not.toBe(TROPICAL.hardinessZone);
    expect(cold.koeppen).not.toBe(warmerClimate(TROPICAL, 1).koeppen);
  });

  it('is the climate itself at no change, and refuses another planet', () => {
    expect(warmerClimate(CONTINENTAL, 0)).toBe(CONTINENTAL);
    expect(() => warmerClimate(CONTINENTAL, 15.1)).toThrow(OutOfRangeError);
    expect(() => warmerClimate(CONTINENTAL, Number.NaN)).toThrow(OutOfRangeError);
  });
});
