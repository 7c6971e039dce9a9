import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import {
  evaporationFromPanMm,
  evaporationFromReferenceMmPerDay,
  poolEvaporationMmPerDay,
} from '../../../src/core/evaporation/other-evaporation.js';
import { expectWithin } from '../../support/expect-within.js';

describe('evaporation by other routes', () => {
  it.each([
    [22, 25, 0.1, 3.62],
    [22, 25, 1, 6.25],
    [26, 28, 1, 8.68],
  ])('of a pool of %d °C under %d °C at %d m/s is %d mm a day (derived, E05 and E06)', (water, air, windMPerS, mm) => {
    const evaporation = poolEvaporationMmPerDay({
      waterTemperatureC: water,
      airTemperatureC: air,
      relativeHumidityPct: 50,
      windMPerS,
    });
    expectWithin(evaporation, mm, 0.05);
  });

  it('of a pool is never negative and rises with wind', () => {
    const temperature = fc.double({ min: 0, max: 40, noNaN: true });
    fc.assert(
      fc.property(temperature, temperature, fc.double({ min: 0, max: 4, noNaN: true }), (water, air, windMPerS) => {
        const pool = { waterTemperatureC: water, airTemperatureC: air, relativeHumidityPct: 60 };
        const here = poolEvaporationMmPerDay({ ...pool, windMPerS });
        expect(here).toBeGreaterThanOrEqual(0);
        expect(poolEvaporationMmPerDay({ ...pool, windMPerS: windMPerS + 1 })).toBeGreaterThanOrEqual(here);
      }),
    );
  });

  it('is seven tenths of a pan, 4.50 in of 6.43, and a twentieth above reference crop water (derived)', () => {
    expectWithin(evaporationFromPanMm({ panMm: 6.43 * 25.4 }) / 25.4, 4.5, 0.005);
    expectWithin(evaporationFromPanMm({ panMm: 6.43 * 25.4 }) / 30, 3.81, 0.005);
    expectWithin(evaporationFromReferenceMmPerDay({ referenceMmPerDay: 3.9 }), 4.1, 0.01);
  });

  it('is refused for what no weather is', () => {
    const pool = { waterTemperatureC: 20, airTemperatureC: 20, relativeHumidityPct: 50, windMPerS: 1 };
    expect(() => poolEvaporationMmPerDay({ ...pool, windMPerS: 9 })).toThrow('wind over the water, m/s: 9');
    expect(() => poolEvaporationMmPerDay({ ...pool, relativeHumidityPct: 101 })).toThrow('relative humidity, %: 101');
    expect(() => evaporationFromPanMm({ panMm: -1 })).toThrow('loss of the pan, mm: -1');
    expect(() => evaporationFromReferenceMmPerDay({ referenceMmPerDay: Number.NaN })).toThrow('NaN');
  });
});
