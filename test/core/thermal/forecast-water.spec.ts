import { describe, expect, it } from '@jest/globals';
import { curveIndex, dailyCurve } from '../../../src/core/climate/daily-curve.js';
import { InvalidValueError, OutOfRangeError } from '../../../src/core/errors.js';
import { crossingDates, seasonWindow } from '../../../src/core/thermal/crossing-dates.js';
import { type ForecastRequest, forecastWater } from '../../../src/core/thermal/forecast-water.js';
import { spinUpStart } from '../../../src/core/thermal/spin-up.js';
import type { DailyAir, WaterForecast } from '../../../src/core/thermal/water-forecast.js';
import { addDays, type CivilDay, civilDay, isoDateOf } from '../../../src/core/units/civil-day.js';
import { aGardenPond, CONTINENTAL, CONTINENTAL_SOUTH, TROPICAL } from '../../support/climates.js';
import { expectWithin } from '../../support/expect-within.js';

const TODAY = civilDay('2026-03-01');

function run(changes: Partial<ForecastRequest> = {}): WaterForecast {
  return forecastWater({
    pond: aGardenPond(),
    climate: CONTINENTAL,
    firstDay: TODAY,
    days: 548,
    seed: 42,
    ...changes,
  });
}

const aDay = (on: CivilDay, airTemperatureC: number): DailyAir => ({
  on,
  airTemperatureC,
  airTemperatureMinC: null,
  airTemperatureMaxC: null,
  solarMjPerM2: null,
  windMPerS: null,
  relativeHumidityPct: null,
});
const mean = (values: ArrayLike<number>) => Array.from(values).reduce((sum, value) => sum + value, 0) / values.length;
const widthOn = (forecast: WaterForecast, day: number) => forecast.p90C[day]! - forecast.p10C[day]!;
const plain = run();

describe('water forecast', () => {
  it('has a trace by trace, day by day layout and ordered quantiles', () => {
    expect(plain.waterC).toHaveLength(548 * 40);
    expect([...plain.waterC, ...plain.airC, ...plain.iceCm].every(Number.isFinite)).toBe(true);
    for (let day = 0; day < 548; day++) {
      expect(plain.p10C[day]!).toBeLessThanOrEqual(plain.p50C[day]!);
      expect(plain.p50C[day]!).toBeLessThanOrEqual(plain.p90C[day]!);
      const traces = Array.from({ length: 40 }, (_, trace) => plain.waterC[trace * 548 + day]!).sort((a, b) => a - b);
      expectWithin(plain.p50C[day]!, (traces[19]! + traces[20]!) / 2, 1e-5);
    }
  });

  it('gives the trailing 7-day mean from the first day on', () => {
    for (const day of [6, 100, 547]) {
      for (const trace of [0, 39]) {
        const week = plain.waterC.subarray(trace * 548 + day - 6, trace * 548 + day + 1);
        expectWithin(plain.water7dMeanC[trace * 548 + day]!, mean(week), 1e-4);
      }
    }
    const earlier = run({ firstDay: addDays(TODAY, -6), days: 10 });
    expectWithin(plain.water7dMeanC[0]!, mean(earlier.waterC.subarray(0, 7)), 1e-4);
  });

  it('follows the seasons, with ice in winter and none in summer', () => {
    const on = (date: string) => civilDay(date) - TODAY;
    expect(plain.p50C[on('2026-07-20')]!).toBeGreaterThan(20);
    expect(plain.p50C[on('2027-01-20')]!).toBeLessThan(1);
    const ice = (date: string) => Array.from({ length: 40 }, (_, trace) => plain.iceCm[trace * 548 + on(date)]!);
    expect(ice('2027-01-25').filter((cm) => cm > 5).length).toBeGreaterThan(30);
    expect(Math.max(...ice('2026-07-20'))).toBe(0);
    expect(Math.max(...plain.iceCm)).toBeLessThan(80);
  });

  it('is the same for the same seed, another for another', () => {
    expect(Array.from(run().p50C)).toEqual(Array.from(plain.p50C));
    expect(Array.from(run({ seed: 43 }).p50C)).not.toEqual(Array.from(plain.p50C));
  });

  it('gives a calendar day the same traces when run thirty days later', () => {
    const later = run({ firstDay: addDays(TODAY, 30), days: 400 });
    for (let day = 0; day < 400; day += 7) {
      for (const trace of [0, 17, 39]) {
        expectWithin(later.waterC[trace * 400 + day]!, plain.waterC[trace * 548 + day + 30]!, 1e-3);
      }
    }
  });

  it('keeps the median crossing dates within a day when run thirty or ninety days later', () => {
    for (const shift of [30, 90]) {
      const later = run({ firstDay: addDays(TODAY, shift), days: 548 });
      for (const thresholdC of [10, 15]) {
        const asked = { thresholdC, direction: 'falling' as const, ...seasonWindow('falling', 45, 2026) };
        const before = crossingDates(plain, asked).p50!;
        expectWithin(crossingDates(later, asked).p50!, before, 1);
      }
    }
  });

  it('keeps the dates when the day of the run crosses the midsummer from which it starts', () => {
    const before = run({ firstDay: civilDay('2026-09-29'), days: 400 });
    const after = run({ firstDay: civilDay('2026-10-01'), days: 400 });
    expect(spinUpStart(civilDay('2026-09-29'), 45)).toBe(civilDay('2025-08-01'));
    expect(spinUpStart(civilDay('2026-10-01'), 45)).toBe(civilDay('2026-08-01'));
    expectWithin(after.p50C[0]!, before.p50C[2]!, 0.03);
  });

  it('turns with the hemisphere', () => {
    const south = run({ climate: CONTINENTAL_SOUTH, pond: aGardenPond({ latitude: -45 }) });
    const on = (date: string) => civilDay(date) - TODAY;
    expect(south.p50C[on('2027-01-20')]!).toBeGreaterThan(20);
    expect(south.p50C[on('2026-07-20')]!).toBeLessThan(1);
    const rising = crossingDates(south, { thresholdC: 10, direction: 'rising', ...seasonWindow('rising', -45, 2026) });
    expect(isoDateOf(rising.p50!)).toMatch(/^2026-(09|10)/);
    expect(spinUpStart(civilDay('2026-03-15'), -45)).toBe(civilDay('2025-02-01'));
  });

  it('has no crossing in the tropics, and says why', () => {
    const tropics = run({ climate: TROPICAL, pond: aGardenPond({ latitude: 5 }) });
    const asked = { thresholdC: 10, direction: 'falling' as const, ...seasonWindow('falling', 5, 2026) };
    expect(crossingDates(tropics, asked)).toEqual({ share: 0, p10: null, p50: null, p90: null, none: 'always-above' });
  });

  it('is narrowed by six readings, to less than two thirds', () => {
    const start = civilDay('2026-04-01');
    const normal = dailyCurve(CONTINENTAL.meanC);
    const air = Array.from({ length: 200 }, (_, i) => {
      const on = addDays(start, i);
      return aDay(on, normal[curveIndex(on)]!);
    });
    const unread = run({ firstDay: start, days: 200, air });
    const readings = [20, 45, 70, 95, 120, 145].map((day) => ({
      on: addDays(start, day),
      waterTemperatureC: unread.p50C[day]! + 1,
    }));
    const read = run({ firstDay: start, days: 200, air, readings });
    const width = (of: WaterForecast) => mean(Array.from({ length: 50 }, (_, i) => widthOn(of, 150 + i)));
    expect(read.readings!.map((verdict) => verdict.verdict)).toEqual(Array(6).fill('used'));
    expect(width(read)).toBeLessThan(0.66 * width(unread));
    expectWithin(mean(read.p50C.subarray(170, 190)) - mean(unread.p50C.subarray(170, 190)), 1, 0.3);
  });

  it('moves toward a reading after its day and never before', () => {
    const on = addDays(TODAY, 120);
    const warm = plain.p50C[120]! + 3;
    const read = run({ readings: [{ on, waterTemperatureC: warm }] });
    expect(Array.from(read.p50C.subarray(0, 121))).toEqual(Array.from(plain.p50C.subarray(0, 121)));
    expect(read.p50C[121]! - plain.p50C[121]!).toBeGreaterThan(1);
    expect(read.p50C[160]! - plain.p50C[160]!).toBeGreaterThan(0.3);
  });

  it('rejects a reading 10 °C off and stays as it was', () => {
    const air = Array.from({ length: 200 }, (_, i) => aDay(addDays(TODAY, i - 100), 12));
    const wrong = { on: addDays(TODAY, 80), waterTemperatureC: 26 };
    const read = run({ air, readings: [wrong] });
    expect(read.readings).toMatchObject([{ reading: wrong, verdict: 'rejected' }]);
    expect(Array.from(read.p50C)).toEqual(Array.from(run({ air }).p50C));
  });

  it('learns nothing of the open water from a reading under ice', () => {
    const on = civilDay('2027-01-25');
    const read = run({ readings: [{ on, waterTemperatureC: 4 }] });
    expect(read.readings).toMatchObject([{ verdict: 'under-ice' }]);
    expect(Array.from(read.p50C)).toEqual(Array.from(plain.p50C));
  });

  it('takes measured air in every trace, carries its anomaly on, and is not moved by the air of later days', () => {
    const warmSpell = Array.from({ length: 20 }, (_, i) => aDay(addDays(TODAY, i + 60), 26));
    const forecast = run({ air: warmSpell });
    for (const trace of [0, 20, 39]) expect(forecast.airC[trace * 548 + 70]).toBe(26);
    const airOn = (of: WaterForecast, day: number) =>
      mean(Array.from({ length: 40 }, (_, trace) => of.airC[trace * 548 + day]!));
    expect(airOn(forecast, 81) - airOn(plain, 81)).toBeGreaterThan(3);
    expectWithin(airOn(forecast, 130), airOn(plain, 130), 0.01);
    expect(forecast.p50C[79]!).toBeGreaterThan(plain.p50C[79]! + 4);
    expect(Array.from(forecast.p50C.subarray(0, 60))).toEqual(Array.from(plain.p50C.subarray(0, 60)));
  });

  it('is cooler with shade, wind and a waterfall in summer', () => {
    const july = civilDay('2026-07-20') - TODAY;
    const at = (changes: Parameters<typeof aGardenPond>[0]) => run({ pond: aGardenPond(changes) }).p50C[july]!;
    const base = plain.p50C[july]!;
    expect(at({ shadeShare: 0.6 })).toBeLessThan(base - 1);
    expect(at({ windAt2mMPerS: 4 })).toBeLessThan(base - 0.5);
    expect(at({ waterfallFlowLPerH: 5000 })).toBeLessThan(base - 0.5);
  });

  it('swings less in deeper water', () => {
    const swing = (meanDepthM: number) => {
      const { p50C } = run({ pond: aGardenPond({ meanDepthM }), traces: 1, offsetSdC: 0.2 });
      return mean(Array.from({ length: 90 }, (_, i) => Math.abs(p50C[i + 120]! - p50C[i + 119]!)));
    };
    expect(swing(2.5)).toBeLessThan(0.6 * swing(0.3));
  });

  it('never goes below freezing nor boils, whatever pond and seed', () => {
    for (let seed = 0; seed < 20; seed++) {
      const pond = aGardenPond({
        meanDepthM: 0.1 + 0.15 * seed,
        surfaceAreaM2: 1 + 50 * seed,
        shadeShare: 0.04 * seed,
      });
      const { waterC } = run({ seed, pond, days: 365, traces: 10 });
      expect(Math.min(...waterC)).toBeGreaterThanOrEqual(0);
      expect(Math.max(...waterC)).toBeLessThan(45);
    }
  });

  it('refuses what is no pond, no period and no reading', () => {
    expect(() => run({ pond: aGardenPond({ meanDepthM: 0 }) })).toThrow(OutOfRangeError);
    expect(() => run({ pond: aGardenPond({ windAt2mMPerS: Number.NaN }) })).toThrow(OutOfRangeError);
    expect(() => run({ pond: aGardenPond({ surfaceAreaM2: -3 }) })).toThrow(OutOfRangeError);
    expect(() => run({ days: 0 })).toThrow(OutOfRangeError);
    expect(() => run({ days: 1.5 })).toThrow(InvalidValueError);
    expect(() => run({ traces: 4000 })).toThrow(OutOfRangeError);
    expect(() => run({ readings: [{ on: TODAY, waterTemperatureC: 212 }] })).toThrow(OutOfRangeError);
    expect(() => run({ air: [aDay(TODAY, 99)] })).toThrow(OutOfRangeError);
  });
});
