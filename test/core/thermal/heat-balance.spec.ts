import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { extraterrestrialMjPerM2Day } from '../../../src/core/climate/fao56.js';
import { OutOfRangeError } from '../../../src/core/errors.js';
import {
  equilibriumOf,
  exchangeWPerM2K,
  heatForcing,
  netHeatWPerM2,
  type PondWeather,
  smallPondFactor,
  solarRatio,
  timeScaleDays,
  waterAfter,
} from '../../../src/core/thermal/heat-balance.js';
import {
  clearSkyEmissivity,
  saturationHPa,
  tabledSaturationHPa,
  tabledSkyEmissivity,
} from '../../../src/core/thermal/saturation.js';
import { expectWithin } from '../../support/expect-within.js';

/** Check rows of the climate handbook, section 7.2 (derived): weather, then H(Ta), Te, K(Te) and the time scale of 1 m. */
const CHECK_ROWS = [
  {
    ta: 20,
    ea: 15,
    u: 2,
    rs: 250,
    latitude: 45,
    day: 172,
    ra: 485.09,
    factor: 1,
    shade: 0,
    h: 121.176,
    te: 24.94,
    k: 26.535,
    tau: 1.83,
  },
  {
    ta: 20,
    ea: 15,
    u: 2,
    rs: 250,
    latitude: 45,
    day: 172,
    ra: 485.09,
    factor: 1.36,
    shade: 0.3,
    h: 26.439,
    te: 20.904,
    k: 29.689,
    tau: 1.63,
  },
  {
    ta: 5,
    ea: 6.5,
    u: 2,
    rs: 80,
    latitude: 45,
    day: 60,
    ra: 242.82,
    factor: 1,
    shade: 0,
    h: 10.774,
    te: 5.716,
    k: 15.173,
    tau: 3.19,
  },
  {
    ta: 30,
    ea: 20,
    u: 1.5,
    rs: 300,
    latitude: 33.4,
    day: 196,
    ra: 471.42,
    factor: 1,
    shade: 0,
    h: 52.955,
    te: 31.739,
    k: 31.356,
    tau: 1.55,
  },
  {
    ta: -5,
    ea: 3,
    u: 3,
    rs: 60,
    latitude: 47,
    day: 15,
    ra: 123.92,
    factor: 1,
    shade: 0,
    h: -32.843,
    te: -7.463,
    k: 13.035,
    tau: 3.72,
  },
];

const weatherOf = (row: (typeof CHECK_ROWS)[number]): PondWeather => ({
  airTemperatureC: row.ta,
  vapourPressureHPa: row.ea,
  windAt2mMPerS: row.u,
  solarWPerM2: row.rs,
  extraterrestrialWPerM2: (extraterrestrialMjPerM2Day({ latitude: row.latitude, dayOfYear: row.day }) * 1e6) / 86_400,
  shadeShare: row.shade,
  windFunctionFactor: row.factor,
});
const netAt = (temperatureC: number, weather: PondWeather) => {
  const { gainWPerM2, windFunctionWPerM2HPa, linearWPerM2K } = heatForcing(weather);
  return netHeatWPerM2(temperatureC, gainWPerM2, windFunctionWPerM2HPa, linearWPerM2K);
};
const MILD = weatherOf(CHECK_ROWS[0]!);

const anyWeather = fc.record({
  airTemperatureC: fc.double({ min: -40, max: 45, noNaN: true }),
  vapourPressureHPa: fc.double({ min: 0.1, max: 30, noNaN: true }),
  windAt2mMPerS: fc.double({ min: 0, max: 10, noNaN: true }),
  solarWPerM2: fc.double({ min: 0, max: 350, noNaN: true }),
  extraterrestrialWPerM2: fc.double({ min: 350, max: 500, noNaN: true }),
  shadeShare: fc.double({ min: 0, max: 0.9, noNaN: true }),
  windFunctionFactor: fc.double({ min: 1, max: 1.5, noNaN: true }),
});

describe('heat balance', () => {
  it.each(CHECK_ROWS)('at $ta °C, $ea hPa, $u m/s has H $h, Te $te, K $k (derived)', (row) => {
    const weather = weatherOf(row);
    expectWithin(weather.extraterrestrialWPerM2, row.ra, 0.02);
    expectWithin(netAt(row.ta, weather), row.h, 0.004);
    const { equilibriumTemperatureC, heatExchangeWPerM2K } = equilibriumOf(weather);
    expectWithin(equilibriumTemperatureC, row.te, 0.0006);
    expectWithin(heatExchangeWPerM2K, row.k, 0.0015);
    expectWithin(timeScaleDays({ depthM: 1, heatExchangeWPerM2K }), row.tau, 0.006);
  });

  it('has the intermediates of the first row (derived)', () => {
    expectWithin(solarRatio(250, 485.09), 0.68716, 0.00001);
    expectWithin(Math.sqrt((1 - 0.68716) / 0.65), 0.69375, 0.00001);
    expectWithin(clearSkyEmissivity(20, 15), 0.81095, 0.00001);
  });

  it('takes 0.9 m from 15 to 19.53 °C in one day of the first row (derived, with K at Te)', () => {
    const { equilibriumTemperatureC, heatExchangeWPerM2K } = equilibriumOf(MILD);
    const memory = Math.exp((-heatExchangeWPerM2K * 86_400) / (4.186e6 * 0.9));
    expectWithin(equilibriumTemperatureC + (15 - equilibriumTemperatureC) * memory, 19.531, 0.001);
  });

  it('uses K at the midpoint: a little slower where the water is colder than its equilibrium', () => {
    const { equilibriumTemperatureC, forcing } = equilibriumOf(MILD);
    const after = waterAfter({ waterTemperatureC: 15, equilibriumTemperatureC, forcing, effectiveDepthM: 0.9 });
    expect(after).toBeLessThan(19.531);
    expect(after).toBeGreaterThan(19);
  });

  it('is at rest at its equilibrium', () => {
    fc.assert(
      fc.property(anyWeather, (weather) => {
        const { equilibriumTemperatureC } = equilibriumOf(weather);
        expectWithin(netAt(equilibriumTemperatureC, weather), 0, 0.01);
      }),
    );
  });

  it('loses the more the warmer the water, by the slope K', () => {
    fc.assert(
      fc.property(anyWeather, fc.double({ min: -20, max: 40, noNaN: true }), (weather, waterC) => {
        const { windFunctionWPerM2HPa, linearWPerM2K } = heatForcing(weather);
        const slope = (netAt(waterC - 0.01, weather) - netAt(waterC + 0.01, weather)) / 0.02;
        const exchange = exchangeWPerM2K(waterC, windFunctionWPerM2HPa, linearWPerM2K);
        expectWithin(slope, exchange, 1e-4 * exchange);
      }),
    );
  });

  it('lies higher with more sun, and lower with more shade', () => {
    fc.assert(
      fc.property(anyWeather, (weather) => {
        const at = (changes: Partial<PondWeather>) => equilibriumOf({ ...weather, ...changes }).equilibriumTemperatureC;
        expect(at({ shadeShare: 0.95 })).toBeLessThanOrEqual(at({ shadeShare: weather.shadeShare }) + 1e-6);
      }),
    );
  });

  it('never overshoots, however shallow the pond and long the step', () => {
    const depth = fc.double({ min: 0.05, max: 20, noNaN: true });
    fc.assert(
      fc.property(
        anyWeather,
        depth,
        fc.double({ min: 0, max: 40, noNaN: true }),
        (weather, effectiveDepthM, waterTemperatureC) => {
          const { equilibriumTemperatureC, forcing } = equilibriumOf(weather);
          const after = waterAfter({
            waterTemperatureC,
            equilibriumTemperatureC,
            forcing,
            effectiveDepthM,
            seconds: 3_000_000,
          });
          expect(after).toBeGreaterThanOrEqual(Math.min(waterTemperatureC, equilibriumTemperatureC) - 1e-9);
          expect(after).toBeLessThanOrEqual(Math.max(waterTemperatureC, equilibriumTemperatureC) + 1e-9);
        },
      ),
    );
  });

  it('warms a walled pond from its walls', () => {
    const walled = equilibriumOf({ ...MILD, skyViewShare: 0.6 }).equilibriumTemperatureC;
    expect(walled).toBeGreaterThan(equilibriumOf(MILD).equilibriumTemperatureC);
  });

  it.each([
    [20, 1.36],
    [100, 1.26],
    [1000, 1.12],
    [10_000, 1],
    [200_000, 1],
  ])('gives %d m² a wind factor of %d (derived; no less than 1 on lakes)', (surfaceAreaM2, factor) => {
    expectWithin(smallPondFactor({ surfaceAreaM2 }), factor, 0.006);
  });

  it('looks up what it would compute', () => {
    for (let temperatureC = -60; temperatureC < 60; temperatureC += 0.37) {
      expectWithin(tabledSaturationHPa(temperatureC), saturationHPa(temperatureC), 2.5e-4);
      const emissivity = clearSkyEmissivity(temperatureC, saturationHPa(temperatureC));
      expectWithin(tabledSkyEmissivity(temperatureC), emissivity, 1e-6);
    }
  });

  it.each([
    { airTemperatureC: Number.NaN },
    { airTemperatureC: 90 },
    { vapourPressureHPa: -1 },
    { windAt2mMPerS: 200 },
    { solarWPerM2: 5000 },
    { shadeShare: 1.2 },
  ])('refuses %o', (changes) => {
    expect(() => heatForcing({ ...MILD, ...changes })).toThrow(OutOfRangeError);
  });
});
