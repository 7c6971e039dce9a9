import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { CURVE_DAYS } from '../../../src/core/climate/daily-curve.js';
import type { SiteClimate } from '../../../src/core/climate/station.js';
import { forecastWater } from '../../../src/core/thermal/forecast-water.js';
import type { DailyAir, PondHeat } from '../../../src/core/thermal/water-forecast.js';
import { addDays, civilDay } from '../../../src/core/units/civil-day.js';
import { aClimate, aGardenPond, CONTINENTAL, twelve } from '../../support/climates.js';

const FIRST = civilDay('2025-05-01');
const DAYS = 120;

const anyPond = fc.record({
  meanDepthM: fc.double({ min: 0.2, max: 4, noNaN: true }),
  surfaceAreaM2: fc.double({ min: 2, max: 50_000, noNaN: true }),
  shadeShare: fc.double({ min: 0, max: 0.9, noNaN: true }),
  windAt2mMPerS: fc.double({ min: 0, max: 6, noNaN: true }),
});
const airOf = (valueC: (i: number) => number, more: Partial<DailyAir> = {}): DailyAir[] =>
  Array.from({ length: DAYS }, (_, i) => ({
    on: addDays(FIRST, i),
    airTemperatureC: valueC(i),
    airTemperatureMinC: null,
    airTemperatureMaxC: null,
    solarMjPerM2: null,
    windMPerS: null,
    relativeHumidityPct: null,
    ...more,
  }));
const run = (pond: Partial<PondHeat>, air: DailyAir[], climate: SiteClimate = CONTINENTAL) =>
  forecastWater({ pond: aGardenPond(pond), climate, firstDay: FIRST, days: DAYS, seed: 9, traces: 6, air });

describe('the water forecast, for any pond', () => {
  it('is nowhere colder for warmer air', () => {
    const anomaly = fc.array(fc.double({ min: -8, max: 8, noNaN: true }), { minLength: DAYS, maxLength: DAYS });
    const warming = fc.double({ min: 0.1, max: 8, noNaN: true });
    fc.assert(
      fc.property(anyPond, anomaly, warming, (pond, anomalies, warmerC) => {
        const cool = run(
          pond,
          airOf((i) => 14 + anomalies[i]!),
        );
        const warm = run(
          pond,
          airOf((i) => 14 + anomalies[i]! + warmerC),
        );
        for (let day = 0; day < DAYS; day++) {
          expect(warm.p50C[day]!).toBeGreaterThanOrEqual(cool.p50C[day]! - 1e-6);
        }
      }),
      { numRuns: 25 },
    );
  });

  it('is nowhere colder for more sun or less shade, and nowhere warmer for cold rain', () => {
    fc.assert(
      fc.property(anyPond, fc.double({ min: 0.05, max: 0.4, noNaN: true }), (pond, moreShade) => {
        const air = airOf((i) => 12 + 6 * Math.sin(i / 9));
        const shaded = run({ ...pond, shadeShare: Math.min(0.95, pond.shadeShare + moreShade) }, air);
        const dull = run(
          pond,
          airOf((i) => 12 + 6 * Math.sin(i / 9), { solarMjPerM2: 4 }),
        );
        const bright = run(
          pond,
          airOf((i) => 12 + 6 * Math.sin(i / 9), { solarMjPerM2: 25 }),
        );
        const dry = run(pond, air);
        for (let day = 0; day < DAYS; day++) {
          expect(dry.p50C[day]!).toBeGreaterThanOrEqual(shaded.p50C[day]! - 1e-6);
          // Thick cloud warms the sky: only in the open does more sun always win.
          if (pond.shadeShare < 0.3 && day > 20) expect(bright.p50C[day]!).toBeGreaterThan(dull.p50C[day]!);
        }
      }),
      { numRuns: 25 },
    );
  });

  it('is cooled by rain and more by snow into open water', () => {
    const dry = run(
      { shadeShare: 0 },
      airOf(() => 15),
    );
    const rain = run(
      { shadeShare: 0 },
      airOf(() => 15, { precipitationMm: 20 }),
    );
    expect(rain.p50C[60]!).toBeLessThan(dry.p50C[60]!);
    expect(rain.p50C[60]!).toBeGreaterThan(dry.p50C[60]! - 1.5);
    const cold = run(
      { shadeShare: 0 },
      airOf((i) => (i < 60 ? 12 : -1)),
    );
    const snow = run(
      { shadeShare: 0 },
      airOf((i) => (i < 60 ? 12 : -1), { precipitationMm: 5 }),
    );
    expect(snow.p50C[63]!).toBeLessThan(cold.p50C[63]!);
  });

  it('stays finite, at or above freezing and below boiling, whatever columns are given', () => {
    const column = (min: number, max: number) => fc.option(fc.double({ min, max, noNaN: true }));
    const day = fc.record({
      airTemperatureC: fc.double({ min: -60, max: 55, noNaN: true }),
      solarMjPerM2: column(0, 45),
      windMPerS: column(0, 60),
      relativeHumidityPct: column(0, 100),
      precipitationMm: column(0, 2000),
    });
    const falls = fc.double({ min: 0, max: 50_000, noNaN: true });
    fc.assert(
      fc.property(anyPond, falls, fc.array(day, { minLength: DAYS, maxLength: DAYS }), (pond, flow, days) => {
        const air = airOf(() => 0).map((one, i) => ({ ...one, ...days[i]! }));
        const { waterC, iceCm } = run({ ...pond, waterfallFlowLPerH: flow }, air);
        for (const value of waterC) expect(value >= 0 && value < 60).toBe(true);
        for (const value of iceCm) expect(value >= 0 && value < 300).toBe(true);
      }),
      { numRuns: 40 },
    );
  });

  it('mirrors half a year later in the south, within a degree of the sun’s nearer pass', () => {
    const north = aClimate(twelve(-2, 0, 5, 11, 16, 21, 23, 22, 17, 11, 5, 0));
    const shifted = (months: ArrayLike<number>) =>
      twelve(...Array.from({ length: 12 }, (_, m) => months[(m + 6) % 12]!));
    const south: SiteClimate = {
      ...north,
      latitude: -45,
      meanC: shifted(north.meanC),
      maxC: shifted(north.maxC),
      minC: shifted(north.minC),
      vapourPressureHPa: shifted(north.vapourPressureHPa),
      betweenYearsSdC: shifted(north.betweenYearsSdC),
      dailySdC: shifted(north.dailySdC),
    };
    const common = { seed: 4, traces: 200, days: CURVE_DAYS };
    const up = forecastWater({ ...common, pond: aGardenPond(), climate: north, firstDay: civilDay('2025-01-01') });
    const pond = aGardenPond({ latitude: -45 });
    const down = forecastWater({ ...common, pond, climate: south, firstDay: civilDay('2025-07-02') });
    let sum = 0;
    for (let day = 0; day < 360; day++) sum += Math.abs(up.p50C[day]! - down.p50C[day]!);
    expect(sum / 360).toBeLessThan(0.8);
  });
});
