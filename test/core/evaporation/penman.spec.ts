import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { extraterrestrialMjPerM2Day, saturationVapourPressureKPa } from '../../../src/core/climate/fao56.js';
import {
  noWindEvaporationMmPerDay,
  openWaterEvaporationMmPerDay,
  penmanEvaporationMmPerDay,
} from '../../../src/core/evaporation/penman.js';
import tenDays from '../../published/penman-1948-ten-days.json' with { type: 'json' };
import { expectWithin } from '../../support/expect-within.js';

const PLACE = { latitude: (-0.6095 * 180) / Math.PI, elevationM: 48 };
/** The check set's own logarithmic wind profile over 1 mm of roughness; a garden pond takes 0.748. */
const CHECK_SET_WIND_FACTOR = Math.log(2 / 0.001) / Math.log(10 / 0.001);

type Row = (typeof tenDays.rows)[number];

function dayOf(row: Row) {
  const atMin = saturationVapourPressureKPa({ temperatureC: row.minC });
  const atMax = saturationVapourPressureKPa({ temperatureC: row.maxC });
  return {
    ...PLACE,
    dayOfYear: row.dayOfYear,
    airTemperatureMinC: row.minC,
    airTemperatureMaxC: row.maxC,
    solarMjPerM2Day: row.solarMjPerM2Day,
    vapourPressureKPa: (atMin * row.relativeHumidityMaxPct + atMax * row.relativeHumidityMinPct) / 200,
    windAt2mMPerS: row.windAt10mMPerS * CHECK_SET_WIND_FACTOR,
  };
}

describe('evaporation by Penman 1948', () => {
  it.each(tenDays.rows)('agrees with the check set on day $dayOfYear to 0.1 mm', (row) => {
    expectWithin(penmanEvaporationMmPerDay(dayOf(row)), row.evaporationMmPerDay, 0.1);
  });

  it('has a mean error of less than 0.04 mm over the ten days', () => {
    const errors = tenDays.rows.map((row) => Math.abs(penmanEvaporationMmPerDay(dayOf(row)) - row.evaporationMmPerDay));
    expect(errors).toHaveLength(10);
    expect(errors.reduce((sum, error) => sum + error, 0) / errors.length).toBeLessThan(0.04);
  });

  it('with the wind function of 1956 is 6.19 mm on day 60 (derived)', () => {
    const day = dayOf(tenDays.rows.find(({ dayOfYear }) => dayOfYear === 60)!);
    expectWithin(penmanEvaporationMmPerDay({ ...day, windFunction: 1956 }), 6.19, 0.02);
  });

  it('lies within 1 % of Shuttleworth’s form of it on the Uccle day of FAO-56, 5.54 mm (derived)', () => {
    const evaporation = penmanEvaporationMmPerDay({
      latitude: 50.8,
      elevationM: 100,
      dayOfYear: 187,
      airTemperatureMinC: 12.3,
      airTemperatureMaxC: 21.5,
      solarMjPerM2Day: 22.07,
      vapourPressureKPa: 1.409,
      windAt2mMPerS: 2.078,
    });
    expectWithin(evaporation, 5.54, 0.055);
  });

  it('is none on a dark, damp, frosty day, and takes fog for saturated air (derived)', () => {
    const day = dayOf(tenDays.rows[0]!);
    const frost = {
      ...day,
      airTemperatureMinC: -12,
      airTemperatureMaxC: -6,
      solarMjPerM2Day: 0,
      vapourPressureKPa: 0.29,
    };
    expect(penmanEvaporationMmPerDay({ ...frost, windAt2mMPerS: 0 })).toBe(0);
    const fog = { ...day, vapourPressureKPa: 4 };
    expect(penmanEvaporationMmPerDay({ ...fog, windAt2mMPerS: 9 })).toBe(
      penmanEvaporationMmPerDay({ ...fog, windAt2mMPerS: 0 }),
    );
  });

  it('rises with wind and is never negative', () => {
    const day = fc.record({
      latitude: fc.double({ min: -65, max: 65, noNaN: true }),
      elevationM: fc.double({ min: 0, max: 3000, noNaN: true }),
      dayOfYear: fc.integer({ min: 1, max: 365 }),
      airTemperatureMinC: fc.double({ min: -20, max: 20, noNaN: true }),
      airTemperatureMaxC: fc.double({ min: 21, max: 40, noNaN: true }),
      solarMjPerM2Day: fc.double({ min: 0, max: 30, noNaN: true }),
      vapourPressureKPa: fc.double({ min: 0.1, max: 1.1, noNaN: true }),
      windAt2mMPerS: fc.double({ min: 0, max: 10, noNaN: true }),
    });
    fc.assert(
      fc.property(day, (today) => {
        const here = penmanEvaporationMmPerDay(today);
        const windier = penmanEvaporationMmPerDay({ ...today, windAt2mMPerS: today.windAt2mMPerS + 1 });
        expect(here).toBeGreaterThanOrEqual(0);
        expect(windier).toBeGreaterThanOrEqual(here);
      }),
    );
  });

  it.each([
    [{ windAt2mMPerS: -1 }, 'wind at 2 m, m/s: -1'],
    [{ airTemperatureMaxC: Number.NaN }, 'temperature, °C: NaN'],
    [{ solarMjPerM2Day: 80 }, 'solar radiation, MJ/m2/day: 80'],
    [{ vapourPressureKPa: -1 }, 'vapour pressure, kPa: -1'],
  ])('refuses %j', (wrong, message) => {
    expect(() => penmanEvaporationMmPerDay({ ...dayOf(tenDays.rows[0]!), ...wrong })).toThrow(message);
  });
});

describe('evaporation without wind', () => {
  it.each([
    [60, 6.54],
    [61, 6.28],
    [62, 6.56],
    [63, 6.26],
    [64, 6.77],
    [65, 8.52],
    [66, 7.65],
    [67, 7.84],
    [68, 8.4],
    [69, 6.35],
  ])('keeps its value of day %d, %d mm (derived)', (dayOfYear, expected) => {
    const row = tenDays.rows.find((day) => day.dayOfYear === dayOfYear)!;
    const evaporation = noWindEvaporationMmPerDay({
      airTemperatureC: (row.minC + row.maxC) / 2,
      relativeHumidityPct: (row.relativeHumidityMinPct + row.relativeHumidityMaxPct) / 2,
      solarMjPerM2Day: row.solarMjPerM2Day,
      extraterrestrialMjPerM2Day: extraterrestrialMjPerM2Day({ ...PLACE, dayOfYear }),
    });
    expectWithin(evaporation, expected, 0.03);
  });

  it('is nothing in hard frost and in polar night, and never negative', () => {
    const dark = { relativeHumidityPct: 100, solarMjPerM2Day: 0, extraterrestrialMjPerM2Day: 0 };
    expect(noWindEvaporationMmPerDay({ ...dark, airTemperatureC: -15 })).toBe(0);
    expect(noWindEvaporationMmPerDay({ ...dark, airTemperatureC: 0 })).toBe(0);
    expectWithin(noWindEvaporationMmPerDay({ ...dark, relativeHumidityPct: 50, airTemperatureC: 0 }), 0.9, 1e-12);
    expectWithin(noWindEvaporationMmPerDay({ ...dark, relativeHumidityPct: 0, airTemperatureC: -9.4 }), 0.954, 1e-9);
    expect(noWindEvaporationMmPerDay({ ...dark, relativeHumidityPct: 0, airTemperatureC: -9.5 })).toBe(0);
    expect(() => noWindEvaporationMmPerDay({ ...dark, airTemperatureC: Number.NaN })).toThrow(
      'air temperature, °C: NaN',
    );
  });
});

describe('evaporation with what is known', () => {
  const day = dayOf(tenDays.rows[0]!);

  it('takes Penman where wind and humidity are known', () => {
    expect(openWaterEvaporationMmPerDay(day)).toBe(penmanEvaporationMmPerDay(day));
  });

  it('stays within 20 % of it without wind, on every day of the check set', () => {
    for (const row of tenDays.rows) {
      const full = penmanEvaporationMmPerDay(dayOf(row));
      const without = openWaterEvaporationMmPerDay({ ...dayOf(row), windAt2mMPerS: null });
      expectWithin(without, full, 0.2 * full);
    }
  });

  it('takes fog for saturated air without wind', () => {
    const fog = openWaterEvaporationMmPerDay({ ...day, vapourPressureKPa: 5, windAt2mMPerS: null });
    const saturated = noWindEvaporationMmPerDay({
      airTemperatureC: (day.airTemperatureMinC + day.airTemperatureMaxC) / 2,
      relativeHumidityPct: 100,
      solarMjPerM2Day: day.solarMjPerM2Day,
      extraterrestrialMjPerM2Day: extraterrestrialMjPerM2Day(day),
    });
    expect(fog).toBe(saturated);
  });

  it('counts humidity without wind', () => {
    const dry = openWaterEvaporationMmPerDay({ ...day, vapourPressureKPa: 1.0, windAt2mMPerS: null });
    const row = tenDays.rows[0]!;
    const saturation =
      (saturationVapourPressureKPa({ temperatureC: row.minC }) +
        saturationVapourPressureKPa({ temperatureC: row.maxC })) /
      2;
    const same = noWindEvaporationMmPerDay({
      airTemperatureC: (row.minC + row.maxC) / 2,
      relativeHumidityPct: 100 / saturation,
      solarMjPerM2Day: day.solarMjPerM2Day,
      extraterrestrialMjPerM2Day: extraterrestrialMjPerM2Day(day),
    });
    expectWithin(dry, same, 1e-9);
  });

  it('takes the night for the dew point without humidity', () => {
    const unknown = openWaterEvaporationMmPerDay({ ...day, vapourPressureKPa: null, windAt2mMPerS: null });
    const dew = saturationVapourPressureKPa({ temperatureC: day.airTemperatureMinC });
    expect(unknown).toBe(openWaterEvaporationMmPerDay({ ...day, vapourPressureKPa: dew, windAt2mMPerS: null }));
    expect(unknown).toBeGreaterThan(0);
  });
});
