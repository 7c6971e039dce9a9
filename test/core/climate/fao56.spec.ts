import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import * as fao56 from '../../../src/core/climate/fao56.js';
import * as humidity from '../../../src/core/climate/humidity.js';
import { OutOfRangeError } from '../../../src/core/errors.js';
import examples from '../../published/fao-56-examples.json' with { type: 'json' };
import { expectWithin } from '../../support/expect-within.js';

type Figures = Record<string, number>;

/** How each printed quantity is computed here. */
const COMPUTED: Record<string, (row: Figures) => number> = {
  airPressure: (row) => fao56.airPressureKPa(row as never),
  psychrometric: (row) => fao56.psychrometricKPaPerC({ pressureKPa: fao56.airPressureKPa(row as never) }),
  saturation: (row) => fao56.saturationVapourPressureKPa(row as never),
  meanSaturation: (row) => fao56.meanSaturationKPa(row as never),
  psychrometer: (row) => humidity.vapourPressureFromPsychrometerKPa(row as never),
  extremes: (row) => humidity.vapourPressureFromExtremesKPa(row as never),
  maximumHumidity: (row) => humidity.vapourPressureFromMaximumHumidityKPa(row as never),
  meanHumidity: (row) => humidity.vapourPressureFromMeanHumidityKPa(row as never),
  sunDistance: (row) => fao56.inverseSunDistance(row as never),
  declination: (row) => fao56.solarDeclinationRad(row as never),
  sunsetAngle: (row) => fao56.sunsetHourAngleRad(row as never),
  extraterrestrial: (row) => fao56.extraterrestrialMjPerM2Day(row as never),
  daylight: (row) => fao56.daylightHours(row as never),
  sunshine: solarOf,
  temperatureRange: (row) => fao56.solarFromTemperatureRange({ ...row, ...skyOf(row) } as never),
  clearSky: (row) => fao56.clearSkyMjPerM2Day({ ...row, ...skyOf(row) } as never),
  netLongwave: (row) => fao56.netLongwaveMjPerM2Day(row as never),
  netShortwave: (row) => fao56.netShortwaveMjPerM2Day(row as never),
  netRadiation: (row) => fao56.netRadiationMjPerM2Day({ ...row, albedo: fao56.GRASS_ALBEDO } as never),
  blackbody: (row) => fao56.blackbodyMjPerM2Day(row as never),
  evaporationEquivalent: (row) => fao56.evaporationEquivalentMmPerDay(row as never),
  radians: (row) => fao56.radiansOf(row as never),
  deficit: (row) => humidity.vapourPressureDeficitKPa(row as never),
  soilHeat: (row) => fao56.monthlySoilHeatMjPerM2Day(row as never),
  wind: (row) => fao56.windAt2m(row as never),
  slope: (row) => fao56.vapourPressureSlopeKPaPerC(row as never),
  evapotranspiration: (row) =>
    fao56.referenceEvapotranspirationMmPerDay({ ...row, ...skyOf(row), solarMjPerM2Day: solarOf(row) } as never),
};

function skyOf(row: Figures) {
  return { extraterrestrialMjPerM2Day: fao56.extraterrestrialMjPerM2Day(row as never) };
}

function solarOf(row: Figures): number {
  return fao56.solarFromSunshine({
    sunshineHours: row.sunshineHours as number,
    daylightHours: fao56.daylightHours(row as never),
    ...skyOf(row),
  });
}

describe('FAO-56', () => {
  it.each(examples.rows as unknown as (Figures & { quantity: string })[])(
    'agrees with example $example: $quantity is $value',
    (row) => {
      const compute = COMPUTED[row.quantity];
      expect(compute).toBeDefined();
      expectWithin(compute!(row), row.value as number, row.tolerance as number);
    },
  );

  it('has an example for every quantity it can compute', () => {
    const printed = new Set(examples.rows.map((row) => row.quantity));
    expect(Object.keys(COMPUTED).filter((quantity) => !printed.has(quantity))).toEqual([]);
  });

  it('takes the dew point for the vapour pressure (eq 14)', () => {
    expectWithin(humidity.vapourPressureFromDewPointKPa({ dewPointC: 19.5 }), 2.267, 0.0006);
  });

  it('takes the minimum for the dew point, in arid places 2 °C less (eq 48)', () => {
    expect(humidity.dewPointFromMinimumC({ minC: 14.8, isArid: false })).toBe(14.8);
    expectWithin(humidity.dewPointFromMinimumC({ minC: 14.8, isArid: true }), 12.8, 1e-12);
  });

  it('lets no more sun reach the ground than stands above it, and no less than none, on any day of any latitude', () => {
    const latitude = fc.double({ min: -90, max: 90, noNaN: true });
    fc.assert(
      fc.property(latitude, fc.integer({ min: 1, max: 366 }), fc.double({ min: 0, max: 24, noNaN: true }), (...of) => {
        const [degrees, dayOfYear, sunshineHours] = of;
        const place = { latitude: degrees, dayOfYear };
        const above = fao56.extraterrestrialMjPerM2Day(place);
        const below = fao56.solarFromSunshine({
          sunshineHours,
          daylightHours: fao56.daylightHours(place),
          extraterrestrialMjPerM2Day: above,
        });
        expect(below).toBeGreaterThanOrEqual(0);
        expect(below).toBeLessThanOrEqual(0.75 * above + 1e-9);
        expect(below).toBeLessThanOrEqual(
          fao56.clearSkyMjPerM2Day({ extraterrestrialMjPerM2Day: above, elevationM: 0 }) + 1e-9,
        );
      }),
    );
  });

  it('gives the leap day a sun between its neighbours', () => {
    const of = (dayOfYear: number) => fao56.extraterrestrialMjPerM2Day({ latitude: 45, dayOfYear });
    expect(of(60)).toBeGreaterThan(of(59));
    expect(of(60)).toBeLessThan(of(61));
    expectWithin(of(366), of(1), 0.05);
  });

  it('evaporates more from grass the windier, sunnier or drier the day', () => {
    const day = { maxC: 26, minC: 14, vapourPressureKPa: 1.4, windAt2mMPerS: 2, elevationM: 100 };
    const sun = { solarMjPerM2Day: 20, extraterrestrialMjPerM2Day: 40 };
    const of = (changes: object) => fao56.referenceEvapotranspirationMmPerDay({ ...day, ...sun, ...changes });
    expect(of({ windAt2mMPerS: 4 })).toBeGreaterThan(of({}));
    expect(of({ solarMjPerM2Day: 26 })).toBeGreaterThan(of({}));
    expect(of({ vapourPressureKPa: 0.9 })).toBeGreaterThan(of({}));
  });

  it('knows polar night and polar day', () => {
    expect(fao56.extraterrestrialMjPerM2Day({ latitude: 80, dayOfYear: 355 })).toBe(0);
    expect(fao56.daylightHours({ latitude: 80, dayOfYear: 355 })).toBe(0);
    expect(fao56.daylightHours({ latitude: 80, dayOfYear: 172 })).toBe(24);
  });

  it('mirrors the hemispheres: daylight north and south adds up to a day', () => {
    const latitude = fc.double({ min: -66, max: 66, noNaN: true });
    fc.assert(
      fc.property(latitude, fc.integer({ min: 1, max: 366 }), (degrees, dayOfYear) => {
        const both =
          fao56.daylightHours({ latitude: degrees, dayOfYear }) +
          fao56.daylightHours({ latitude: -degrees, dayOfYear });
        expectWithin(both, 24, 1e-9);
      }),
    );
  });

  it('saturates more the warmer the air, with the slope it says', () => {
    fc.assert(
      fc.property(fc.double({ min: -60, max: 50, noNaN: true }), (temperatureC) => {
        const step = 1e-3;
        const rise =
          fao56.saturationVapourPressureKPa({ temperatureC: temperatureC + step }) -
          fao56.saturationVapourPressureKPa({ temperatureC: temperatureC - step });
        const slope = fao56.vapourPressureSlopeKPaPerC({ temperatureC });
        expect(slope).toBeGreaterThan(0);
        expectWithin(rise / (2 * step), slope, 1e-3 * slope + 1e-9);
      }),
    );
  });

  it.each([
    () => fao56.airPressureKPa({ elevationM: Number.NaN }),
    () => fao56.airPressureKPa({ elevationM: 20_000 }),
    () => fao56.saturationVapourPressureKPa({ temperatureC: 400 }),
    () => fao56.extraterrestrialMjPerM2Day({ latitude: 91, dayOfYear: 1 }),
    () => fao56.extraterrestrialMjPerM2Day({ latitude: 0, dayOfYear: 0 }),
    () => fao56.solarFromSunshine({ sunshineHours: 25, daylightHours: 12, extraterrestrialMjPerM2Day: 30 }),
    () => fao56.windAt2m({ windMPerS: -1, heightM: 10 }),
    () => fao56.psychrometricKPaPerC({ pressureKPa: 0 }),
    () => fao56.blackbodyMjPerM2Day({ temperatureC: -300 }),
    () => fao56.radiansOf({ degrees: 1000 }),
    () => fao56.evaporationEquivalentMmPerDay({ radiationMjPerM2Day: Number.NaN }),
    () => humidity.vapourPressureDeficitKPa({ maxC: 20, minC: 10, vapourPressureKPa: -1 }),
    () => humidity.dewPointFromMinimumC({ minC: Number.NaN, isArid: true }),
    () => humidity.vapourPressureFromMeanHumidityKPa({ maxC: 20, minC: 10, humidityMeanPct: 101 }),
    () =>
      humidity.vapourPressureFromPsychrometerKPa({ wetBulbC: 30, dryBulbC: 20, coefficient: 0.000662, elevationM: 0 }),
  ])('refuses what no weather is (%#)', (call) => {
    expect(call).toThrow(OutOfRangeError);
  });
});
