import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { airPumpStandardGPerH, fieldTransferGPerH, surfaceTransferGPerDay } from '../../../src/core/water/aeration.js';
import { oxygenSaturationMgPerL } from '../../../src/core/water/oxygen.js';
import { fallDeficitRatio, waterfallExchange } from '../../../src/core/water/waterfall-aeration.js';
import weir from '../../published/butts-evans-weir-aeration.json' with { type: 'json' };
import { expectWithin, expectWithinShare } from '../../support/expect-within.js';

const kilogram = { standardGPerH: 1000 };

describe('aerator in the field', () => {
  it('D-30: under standard conditions delivers its catalogue figure', () => {
    const rated = { ...kilogram, temperatureC: 20, dissolvedOxygenMgPerL: 0, alpha: 1, beta: 1 };
    expectWithin(fieldTransferGPerH(rated), 1000, 1e-9);
  });

  it.each([
    ['D-31', 25, 0, 326],
    ['D-32', 30, 1600, 124],
    ['D-33', 10, 0, 447],
  ])(
    '%s: at %d °C and %d m, water of 5 mg/L, delivers %d g of a kilogram (derived)',
    (_, temperatureC, elevationM, g) => {
      expectWithin(fieldTransferGPerH({ ...kilogram, temperatureC, elevationM, dissolvedOxygenMgPerL: 5 }), g, 2);
    },
  );

  it('D-34: 60 L/min at 0.8 m and 3 % a metre is 24.1 g/h, in the field of D-31 7.9 g/h (derived)', () => {
    const standardGPerH = airPumpStandardGPerH({ airLPerMin: 60, depthM: 0.8, efficiencyPctPerM: 3 });
    expectWithinShare(standardGPerH, 24.1, 0.01);
    expectWithinShare(fieldTransferGPerH({ standardGPerH, temperatureC: 25, dissolvedOxygenMgPerL: 5 }), 7.9, 0.01);
  });

  it('delivers less the more oxygen there is, and drives it out above what water can hold', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 38, noNaN: true }),
        fc.double({ min: 0, max: 15, noNaN: true }),
        fc.double({ min: 0, max: 3000, noNaN: true }),
        (temperatureC, dissolvedOxygenMgPerL, elevationM) => {
          const water = { ...kilogram, temperatureC, elevationM };
          const here = fieldTransferGPerH({ ...water, dissolvedOxygenMgPerL });
          expect(fieldTransferGPerH({ ...water, dissolvedOxygenMgPerL: dissolvedOxygenMgPerL + 1 })).toBeLessThan(here);
          const full = 0.98 * oxygenSaturationMgPerL({ temperatureC, elevationM });
          expect(Math.sign(here)).toBe(Math.sign(full - dissolvedOxygenMgPerL));
        },
      ),
    );
  });

  it.each([
    [{ standardGPerH: -1 }, 'standard transfer, g/h: -1'],
    [{ dissolvedOxygenMgPerL: Number.NaN }, 'dissolved oxygen, mg/L: NaN'],
    [{ alpha: 2 }, 'alpha of the aerator: 2, outside 0.3 to 1.1.'],
    [{ temperatureC: 41 }, 'water temperature, °C: 41'],
  ])('refuses %j', (wrong, message) => {
    const right = { ...kilogram, temperatureC: 20, dissolvedOxygenMgPerL: 5 };
    expect(() => fieldTransferGPerH({ ...right, ...wrong })).toThrow(message);
  });
});

describe('open surface', () => {
  it.each([
    ['calm', 0.3, 9],
    ['breezy', 1, 30],
  ])('of 10 m², %s, gains little at 3 mg/L below full: %d m/day, %d g a day (derived)', (_, velocity, expected) => {
    const dissolvedOxygenMgPerL = oxygenSaturationMgPerL({ temperatureC: 20 }) - 3;
    const surface = { temperatureC: 20, surfaceAreaM2: 10, transferVelocityMPerDay: velocity };
    expectWithin(surfaceTransferGPerDay({ ...surface, dissolvedOxygenMgPerL }), expected, 1e-9);
  });

  it('gains nothing under ice', () => {
    const iced = { temperatureC: 1, surfaceAreaM2: 10, transferVelocityMPerDay: 0, dissolvedOxygenMgPerL: 5 };
    expect(surfaceTransferGPerDay(iced)).toBe(0);
  });
});

describe('waterfall', () => {
  it('leaves 1 / 1.31 of the deficit after half a metre at 25 °C (derived)', () => {
    expectWithin(fallDeficitRatio({ fallHeightM: 0.5, temperatureC: 25 }), 1.31, 0.005);
  });

  it('of 6,000 L/h brings 1.42 g/h for each mg/L missing there (derived)', () => {
    const fall = waterfallExchange({ fallHeightM: 0.5, temperatureC: 25, flowLPerH: 6000, elevationM: 500 });
    expectWithin(fall.perDeficitM3PerH, 6 * (1 - 1 / 1.3088), 0.002);
    expectWithin(fall.towardsMgPerL, oxygenSaturationMgPerL({ temperatureC: 25, elevationM: 500 }), 1e-12);
  });

  it.each(weir.rows)('takes every $of the source names: $name', (row) => {
    const fall = { fallHeightM: 1, temperatureC: 20, [row.of]: row.value };
    const other = row.of === 'purity' ? 0.8 : 1;
    expectWithin(fallDeficitRatio(fall), 1 + 0.38 * row.value * other * 0.89 * 1.92, 1e-9);
  });

  it('makes good a share of the deficit between none and all, more with height', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.05, max: 2.9, noNaN: true }),
        fc.double({ min: 0, max: 39, noNaN: true }),
        (fallHeightM, temperatureC) => {
          const flowLPerH = 5000;
          const { perDeficitM3PerH } = waterfallExchange({ fallHeightM, temperatureC, flowLPerH });
          expect(perDeficitM3PerH).toBeGreaterThan(0);
          expect(perDeficitM3PerH).toBeLessThan(5);
          const higher = waterfallExchange({ fallHeightM: fallHeightM + 0.1, temperatureC, flowLPerH });
          expect(higher.perDeficitM3PerH).toBeGreaterThan(perDeficitM3PerH);
        },
      ),
    );
  });

  it('refuses a cliff', () => {
    expect(() => fallDeficitRatio({ fallHeightM: 4, temperatureC: 20 })).toThrow(
      'height of the fall, m: 4, outside 0.05 to 3.',
    );
  });
});
