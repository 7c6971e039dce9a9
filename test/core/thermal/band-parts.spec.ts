import { describe, expect, it } from '@jest/globals';
import { InvalidValueError } from '../../../src/core/errors.js';
import { bandParts } from '../../../src/core/thermal/band-parts.js';
import { forecastWater } from '../../../src/core/thermal/forecast-water.js';
import type { DailyAir } from '../../../src/core/thermal/water-forecast.js';
import { addDays, civilDay } from '../../../src/core/units/civil-day.js';
import { aGardenPond, CONTINENTAL, TROPICAL } from '../../support/climates.js';
import { expectWithin } from '../../support/expect-within.js';

const FIRST = civilDay('2026-06-01');
const AIR: DailyAir[] = Array.from({ length: 200 }, (_, i) => ({
  on: addDays(FIRST, i - 100),
  airTemperatureC: 18,
  airTemperatureMinC: null,
  airTemperatureMaxC: null,
  solarMjPerM2: null,
  windMPerS: null,
  relativeHumidityPct: null,
}));
const common = { pond: aGardenPond(), climate: CONTINENTAL, firstDay: FIRST, days: 200, seed: 5 };
const summer = { fromIndex: 0, days: 90 };

describe('parts of the band', () => {
  it('make one, and the weather is the larger where no air is known', () => {
    const parts = bandParts(forecastWater(common), summer)!;
    expectWithin(parts.weatherShare + parts.modelShare + parts.thermometerShare, 1, 1e-9);
    expect(parts.weatherShare).toBeGreaterThan(0.3);
    expect(parts.thermometerShare).toBe(0);
    expect(parts.halfWidthC).toBeGreaterThan(1);
  });

  it('are the model alone where the air is measured', () => {
    const parts = bandParts(forecastWater({ ...common, air: AIR }), summer)!;
    expect(parts.weatherShare).toBeLessThan(0.05);
    expect(parts.modelShare).toBeGreaterThan(0.95);
  });

  it('have a thermometer only after a reading, and never more of it than of the model', () => {
    const readings = [{ on: addDays(FIRST, -1), waterTemperatureC: 20 }];
    const read = bandParts(forecastWater({ ...common, air: AIR, readings }), summer)!;
    const unread = bandParts(forecastWater({ ...common, air: AIR }), summer)!;
    expect(read.thermometerShare).toBeGreaterThan(0);
    expect(read.thermometerShare).toBeLessThan(read.modelShare);
    expect(read.halfWidthC).toBeLessThan(unread.halfWidthC);
  });

  it('add up to the width of the band, within what forty traces allow', () => {
    const forecast = forecastWater({ ...common, climate: TROPICAL, pond: aGardenPond({ latitude: 5 }), traces: 400 });
    const { weatherC2, modelC2, thermometerC2 } = forecast.band!;
    const half = (forecast.p90C[50]! - forecast.p10C[50]!) / 2;
    const sd = Math.sqrt(weatherC2[50]! + modelC2[50]! + thermometerC2[50]!);
    expectWithin(half, 1.2816 * sd, 0.12 * sd);
  });

  it('are none where the forecast carries none, and refuse days outside it', () => {
    const { band: _, ...without } = forecastWater(common);
    expect(bandParts(without, summer)).toBeNull();
    expect(() => bandParts(forecastWater(common), { fromIndex: 200, days: 1 })).toThrow(InvalidValueError);
    expect(() => bandParts(forecastWater(common), { fromIndex: 0, days: 0 })).toThrow(InvalidValueError);
  });
});
