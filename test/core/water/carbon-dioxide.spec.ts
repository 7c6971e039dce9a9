import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { carbonDioxideLevel, carbonDioxideMgPerL } from '../../../src/core/water/carbon-dioxide.js';
import { carbonicPK1 } from '../../../src/core/water/carbonate.js';
import tucker from '../../published/tucker-carbon-dioxide-factors.json' with { type: 'json' };
import { expectWithin, expectWithinShare } from '../../support/expect-within.js';

describe('carbon dioxide', () => {
  it.each(tucker.rows)('agrees with Tucker: $id, pH $ph and $temperatureC °C', (row) => {
    expectWithin(carbonDioxideMgPerL({ ...row, alkalinityMgCaCO3PerL: 1 }), row.factor, row.tolerance);
  });

  it('P-3: of 100 mg/L alkalinity at pH 7.5 and 20 °C is 6.7 mg/L (derived)', () => {
    expectWithin(carbonDioxideMgPerL({ alkalinityMgCaCO3PerL: 100, ph: 7.5, temperatureC: 20 }), 6.7, 0.05);
  });

  it('agrees within 2.5 % with the dissociation constant another source gives', () => {
    for (let temperatureC = 5; temperatureC <= 35; temperatureC++) {
      const byConstant = (44.0095 / 50.0435) * 10 ** (carbonicPK1({ temperatureC }) - 7) * 100;
      expectWithinShare(carbonDioxideMgPerL({ alkalinityMgCaCO3PerL: 100, ph: 7, temperatureC }), byConstant, 0.025);
    }
  });

  it('falls with pH and temperature, and is in proportion to alkalinity', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 5, max: 8.3, noNaN: true }),
        fc.double({ min: 5, max: 34, noNaN: true }),
        fc.double({ min: 1, max: 200, noNaN: true }),
        (ph, temperatureC, alkalinityMgCaCO3PerL) => {
          const here = carbonDioxideMgPerL({ ph, temperatureC, alkalinityMgCaCO3PerL });
          expect(carbonDioxideMgPerL({ ph: ph + 0.1, temperatureC, alkalinityMgCaCO3PerL })).toBeLessThan(here);
          expect(carbonDioxideMgPerL({ ph, temperatureC: temperatureC + 1, alkalinityMgCaCO3PerL })).toBeLessThan(here);
          const twice = carbonDioxideMgPerL({ ph, temperatureC, alkalinityMgCaCO3PerL: 2 * alkalinityMgCaCO3PerL });
          expectWithin(twice, 2 * here, 1e-9 * here);
        },
      ),
    );
  });

  it('is watched from 10 and acted on from 20 mg/L (common practice)', () => {
    expect([9.9, 10, 19.9, 20].map(carbonDioxideLevel)).toEqual(['in-order', 'watch', 'watch', 'act']);
  });

  it.each([
    [{ temperatureC: 4 }, 'water temperature, °C: 4, outside 5 to 35.'],
    [{ ph: 8.5 }, 'pH: 8.5, outside 5 to 8.4.'],
    [{ alkalinityMgCaCO3PerL: Number.NaN }, 'alkalinity, mg/L CaCO3: NaN'],
  ])('refuses %j', (wrong, message) => {
    const sample = { temperatureC: 20, ph: 7.5, alkalinityMgCaCO3PerL: 100, ...wrong };
    expect(() => carbonDioxideMgPerL(sample)).toThrow(message);
  });
});
