import { describe, expect, it } from '@jest/globals';
import { gaussianAt, noiseKey } from '../../../src/core/climate/counter-noise.js';
import { curveIndex, dailyCurve } from '../../../src/core/climate/daily-curve.js';
import { forecastWater } from '../../../src/core/thermal/forecast-water.js';
import type { DailyAir, PondHeat, WaterReading } from '../../../src/core/thermal/water-forecast.js';
import { addDays, type CivilDay, civilDay } from '../../../src/core/units/civil-day.js';
import { aGardenPond, CONTINENTAL } from '../../support/climates.js';

const FIRST = civilDay('2024-04-01');
const DAYS = 580;
const NORMAL = dailyCurve(CONTINENTAL.meanC);
const KEY = noiseKey(11, 0);

/** Weather of two years: normals with an anomaly that lasts about five days. */
const AIR: DailyAir[] = [];
for (let i = 0, anomaly = 0; i < DAYS; i++) {
  const on = addDays(FIRST, i);
  anomaly = 0.8 * anomaly + 2 * gaussianAt(KEY, i);
  AIR.push({
    on,
    airTemperatureC: NORMAL[curveIndex(on)]! + anomaly,
    airTemperatureMinC: null,
    airTemperatureMaxC: null,
    solarMjPerM2: null,
    windMPerS: null,
    relativeHumidityPct: null,
  });
}

const run = (pond: PondHeat, readings: readonly WaterReading[] = []) =>
  forecastWater({ pond, climate: CONTINENTAL, firstDay: FIRST, days: DAYS, seed: 3, air: AIR, readings });

/** Readings of the open water of another pond, in `days` of the run, to half a degree. */
const readingsOf = (truth: ArrayLike<number>, days: readonly number[]): WaterReading[] =>
  days.map((day) => ({ on: addDays(FIRST, day), waterTemperatureC: Math.round(2 * truth[day]!) / 2 }));
const SPREAD = [35, 70, 105, 140, 175, 205, 400, 440, 480, 520];

const told = aGardenPond({ windAt2mMPerS: 1.5, shadeShare: 0.3 });

describe('learning the exposure of a pond', () => {
  it('finds that wind and shade were told far too low, and forecasts better for it', () => {
    const real = run(aGardenPond({ windAt2mMPerS: 4, shadeShare: 0.6 })).p50C;
    const read = run(told, readingsOf(real, SPREAD));
    const unread = run(told);
    expect(read.exposure!.isLearned).toBe(true);
    expect(read.exposure!.windAt2mMPerS).toBeGreaterThanOrEqual(1.5);
    expect(read.exposure!.shadeShare).toBeGreaterThan(0.4);
    const rmse = (forecast: { p50C: ArrayLike<number> }) => {
      let squares = 0;
      for (let day = 420; day < 560; day++) squares += (forecast.p50C[day]! - real[day]!) ** 2;
      return Math.sqrt(squares / 140);
    };
    expect(rmse(read)).toBeLessThan(0.4 * rmse(unread));
  });

  it('finds that a pond told sunny lies in the shade: less sun or more wind, but never more sun', () => {
    const real = run(aGardenPond({ windAt2mMPerS: 1.5, shadeShare: 0.6 })).p50C;
    const { exposure } = run(aGardenPond({ windAt2mMPerS: 1.5, shadeShare: 0.1 }), readingsOf(real, SPREAD));
    expect(exposure!.isLearned).toBe(true);
    expect(exposure!.shadeShare).toBeGreaterThanOrEqual(0.1);
  });

  it('leaves a pond as told when its readings agree', () => {
    const real = run(told).p50C;
    expect(run(told, readingsOf(real, SPREAD)).exposure).toEqual({
      windAt2mMPerS: 1.5,
      shadeShare: 0.3,
      isLearned: false,
    });
  });

  it('leaves a steady degree to the offset, which any reading moves, instead of naming a wind for it', () => {
    const real = run(aGardenPond({ windAt2mMPerS: 4, shadeShare: 0.3 })).p50C;
    const { exposure, p50C } = run(told, readingsOf(real, SPREAD));
    expect(exposure!.isLearned).toBe(false);
    let sum = 0;
    for (let day = 420; day < 560; day++) sum += p50C[day]! - real[day]!;
    expect(Math.abs(sum / 140)).toBeLessThan(0.6);
  });

  it('takes nothing over from three readings, nor from many of one month', () => {
    const real = run(aGardenPond({ windAt2mMPerS: 4 })).p50C;
    for (const days of [
      [35, 140, 205],
      [100, 105, 110, 115, 120, 125],
    ]) {
      expect(run(told, readingsOf(real, days)).exposure!.isLearned).toBe(false);
    }
  });

  it('changes no day before the reading that decides', () => {
    const real = run(aGardenPond({ windAt2mMPerS: 4, shadeShare: 0.3 })).p50C;
    const all = run(told, readingsOf(real, SPREAD));
    const fewer = run(told, readingsOf(real, SPREAD.slice(0, 4)));
    const until = SPREAD[4]! + 1;
    expect(Array.from(all.p50C.subarray(0, until))).toEqual(Array.from(fewer.p50C.subarray(0, until)));
  });

  it('is not led astray by a reading 10 °C off', () => {
    const real = run(told).p50C;
    const readings = readingsOf(real, SPREAD);
    readings[3] = { on: readings[3]!.on as CivilDay, waterTemperatureC: readings[3]!.waterTemperatureC - 10 };
    const forecast = run(told, readings);
    expect(forecast.readings![3]!.verdict).toBe('rejected');
    expect(forecast.exposure!.isLearned).toBe(false);
  });
});
