import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { metresFromFt } from '../../../src/core/units/length-units.js';
import { airPressureAtm, oxygenSaturationMgPerL, oxygenSaturationShare } from '../../../src/core/water/oxygen.js';
import airPressure from '../../published/air-pressure-by-elevation.json' with { type: 'json' };
import en25814 from '../../published/en-25814-oxygen-saturation.json' with { type: 'json' };
import saltCorrection from '../../published/en-25814-salt-correction.json' with { type: 'json' };
import meterManual from '../../published/oxygen-meter-manual-elevation.json' with { type: 'json' };
import textbook from '../../published/textbook-oxygen-saturation.json' with { type: 'json' };
import saltFactors from '../../published/usgs-dotables-salinity-factors.json' with { type: 'json' };
import { expectWithin, expectWithinShare } from '../../support/expect-within.js';

const MMHG_PER_ATM = 760;

describe('oxygen saturation', () => {
  it.each(en25814.rows)('D-1: agrees with EN 25814 at $temperatureC °C', (row) => {
    expectWithin(oxygenSaturationMgPerL(row), row.oxygenSaturationMgPerL, row.toleranceMgPerL);
  });

  it.each(textbook.rows)('D-2: agrees with the textbook to 0.001 at $temperatureC °C', (row) => {
    expectWithin(oxygenSaturationMgPerL(row), row.oxygenSaturationMgPerL, 0.001);
  });

  it.each(saltFactors.rows)('D-11: agrees with the USGS factor at $temperatureC °C and $salinityGPerL g/kg', (row) => {
    const fresh = oxygenSaturationMgPerL({ temperatureC: row.temperatureC });
    expectWithin(oxygenSaturationMgPerL(row) / fresh, row.factor, 0.0001);
  });

  it.each(saltCorrection.rows)(
    'D-3: agrees with the salt correction of EN 25814 at $temperatureC °C and 5 g/kg',
    (row) => {
      const fresh = oxygenSaturationMgPerL({ temperatureC: row.temperatureC });
      const salted = oxygenSaturationMgPerL({ temperatureC: row.temperatureC, salinityGPerL: 5 });
      expectWithinShare(salted, fresh - 5 * row.correctionPerGPerKg, 0.005);
    },
  );

  it.each(meterManual.rows)('D-4 to D-7: agrees with the meter manual at $temperatureC °C and $elevationM m', (row) => {
    expectWithin(oxygenSaturationMgPerL(row), row.oxygenSaturationMgPerL, row.toleranceMgPerL);
  });

  it.each([
    [20, 7.458],
    [25, 6.766],
    [30, 6.173],
  ])('D-9: keeps its value at 1600 m and %d °C (derived)', (temperatureC, expected) => {
    expectWithin(oxygenSaturationMgPerL({ temperatureC, elevationM: 1600 }), expected, 0.002);
  });

  it('D-10: gives 6.0 mg/L at 28 °C as 76.6 % (derived)', () => {
    expectWithin(oxygenSaturationShare({ dissolvedOxygenMgPerL: 6, temperatureC: 28 }), 0.766, 0.002);
  });

  it('keeps its column from 0 to 40 °C (derived)', () => {
    const column = [
      14.621, 14.216, 13.83, 13.461, 13.108, 12.771, 12.448, 12.139, 11.843, 11.56, 11.288, 11.027, 10.777, 10.537,
      10.306, 10.084, 9.87, 9.665, 9.467, 9.276, 9.092, 8.915, 8.744, 8.578, 8.418, 8.263, 8.114, 7.968, 7.828, 7.691,
      7.559, 7.43, 7.305, 7.183, 7.065, 6.949, 6.837, 6.727, 6.62, 6.515, 6.413,
    ];
    column.forEach((expected, temperatureC) => {
      expectWithin(oxygenSaturationMgPerL({ temperatureC }), expected, 0.001);
    });
  });

  it.each([
    [10, 10.93],
    [20, 8.83],
    [30, 7.35],
  ])('D-3: keeps its value at %d °C and 5 g/L (derived)', (temperatureC, expected) => {
    expectWithin(oxygenSaturationMgPerL({ temperatureC, salinityGPerL: 5 }), expected, 0.01);
  });

  it('falls with temperature, with salt and with height', () => {
    const temperature = fc.double({ min: 0, max: 39, noNaN: true });
    const salinity = fc.double({ min: 0, max: 35, noNaN: true });
    const elevation = fc.double({ min: -400, max: 5000, noNaN: true });
    fc.assert(
      fc.property(temperature, salinity, elevation, (temperatureC, salinityGPerL, elevationM) => {
        const here = oxygenSaturationMgPerL({ temperatureC, salinityGPerL, elevationM });
        expect(oxygenSaturationMgPerL({ temperatureC: temperatureC + 1, salinityGPerL, elevationM })).toBeLessThan(
          here,
        );
        expect(oxygenSaturationMgPerL({ temperatureC, salinityGPerL: salinityGPerL + 1, elevationM })).toBeLessThan(
          here,
        );
        expect(oxygenSaturationMgPerL({ temperatureC, salinityGPerL, elevationM: elevationM + 10 })).toBeLessThan(here);
      }),
    );
  });

  it.each([
    [{ temperatureC: 41 }, 'water temperature, °C: 41, outside 0 to 40.'],
    [{ temperatureC: Number.NaN }, 'water temperature, °C: NaN'],
    [{ temperatureC: 20, salinityGPerL: -1 }, 'salinity, g/L: -1'],
    [{ temperatureC: 20, elevationM: 9000 }, 'elevation, m: 9000'],
  ])('refuses %j', (sample, message) => {
    expect(() => oxygenSaturationMgPerL(sample)).toThrow(message);
  });
});

describe('air pressure', () => {
  it.each(airPressure.rows)('D-8: agrees with the course sheet at $elevationFt ft', (row) => {
    const pressureMmHg = airPressureAtm({ elevationM: metresFromFt(row.elevationFt) }) * MMHG_PER_ATM;
    expectWithin(pressureMmHg, row.pressureMmHg, 1);
  });

  it('D-9: is one atmosphere at sea level and 0.8243 at 1600 m (derived)', () => {
    expect(airPressureAtm({ elevationM: 0 })).toBe(1);
    expectWithin(airPressureAtm({ elevationM: 1600 }), 0.8243, 0.0001);
  });
});
