import { describe, expect, it } from '@jest/globals';
import { curveIndex } from '../../../src/core/climate/daily-curve.js';
import { InvalidValueError, OutOfRangeError } from '../../../src/core/errors.js';
import { forecastWater } from '../../../src/core/thermal/forecast-water.js';
import type { DailyAir } from '../../../src/core/thermal/water-forecast.js';
import { WeatherHistory } from '../../../src/core/thermal/weather-history.js';
import { addDays, type CivilDay, civilDay, dayFromParts, yearOf } from '../../../src/core/units/civil-day.js';
import deBilt from '../../published/knmi-de-bilt-daily-1980-2019.json' with { type: 'json' };
import { aGardenPond, CONTINENTAL } from '../../support/climates.js';

const aDay = (on: CivilDay, airTemperatureC: number): DailyAir => ({
  on,
  airTemperatureC,
  airTemperatureMinC: null,
  airTemperatureMaxC: null,
  solarMjPerM2: null,
  windMPerS: null,
  relativeHumidityPct: null,
});
const FORTY_YEARS = deBilt.rows.flatMap(({ year, meanTenthsC }) =>
  meanTenthsC.flatMap((tenths, i) =>
    tenths === null ? [] : [aDay(addDays(dayFromParts(year, 1, 1), i), tenths / 10)],
  ),
);
const TODAY = civilDay('2026-03-01');
const common = { pond: aGardenPond({ latitude: 52.1 }), climate: CONTINENTAL, days: 400, seed: 1 };

describe('weather from years of record', () => {
  it('is the record itself, day for day, another year in each trace', () => {
    const history = new WeatherHistory(FORTY_YEARS);
    expect(history.years).toBe(40);
    const forecast = forecastWater({ ...common, firstDay: TODAY, history: FORTY_YEARS });
    const years = new Set<number>();
    for (let trace = 0; trace < 40; trace++) {
      const airC = forecast.airC[trace * 400 + 30]!;
      const same = FORTY_YEARS.filter(
        ({ on, airTemperatureC }) =>
          curveIndex(on) === curveIndex(addDays(TODAY, 30)) && Math.abs(airTemperatureC - airC) < 1e-4,
      );
      expect(same.length).toBeGreaterThan(0);
      for (const { on } of same) years.add(yearOf(on));
    }
    expect(years.size).toBe(40);
  });

  it('gives a calendar day the same traces when run a month later', () => {
    const now = forecastWater({ ...common, firstDay: TODAY, history: FORTY_YEARS });
    const later = forecastWater({ ...common, firstDay: addDays(TODAY, 30), history: FORTY_YEARS });
    for (const trace of [0, 13, 39]) expect(later.airC[trace * 400 + 70]).toBe(now.airC[trace * 400 + 100]);
  });

  it('goes on from measured air: a warm spell fades in days instead of ending overnight', () => {
    const air = Array.from({ length: 20 }, (_, i) => aDay(addDays(TODAY, i), 20));
    const spell = forecastWater({ ...common, firstDay: TODAY, history: FORTY_YEARS, air });
    const plain = forecastWater({ ...common, firstDay: TODAY, history: FORTY_YEARS });
    const mean = (forecast: typeof spell, day: number) =>
      Array.from({ length: 40 }, (_, trace) => forecast.airC[trace * 400 + day]!).reduce((a, b) => a + b) / 40;
    expect(mean(spell, 10)).toBe(20);
    expect(mean(spell, 20)).toBeGreaterThan(mean(plain, 20) + 3);
    expect(Math.abs(mean(spell, 60) - mean(plain, 60))).toBeLessThan(0.05);
  });

  it('bridges a gap of the record by the chance process', () => {
    const gappy = FORTY_YEARS.filter(({ on }) => curveIndex(on) !== curveIndex(addDays(TODAY, 30)));
    const forecast = forecastWater({ ...common, firstDay: TODAY, history: gappy });
    expect(Array.from(forecast.waterC).every(Number.isFinite)).toBe(true);
  });

  it('refuses fewer than five whole years, and absurd air', () => {
    const four = FORTY_YEARS.filter(({ on }) => yearOf(on) < 1984);
    expect(() => new WeatherHistory(four)).toThrow(InvalidValueError);
    expect(() => new WeatherHistory([aDay(TODAY, 400)])).toThrow(OutOfRangeError);
  });
});
