import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { litresFromUsGal } from '../../../src/core/units/volume-units.js';
import {
  ACCEPTED_CHLORINE_READING_MG_PER_L,
  chlorineAfterTopUpMgPerL,
  DEFAULT_TAP_CHLORINE_MG_PER_L,
  DIRECT_FILL_RESERVE_SHARE,
  dechlorinatorDoseG,
  mayTopUpUntreated,
} from '../../../src/core/water/chlorine.js';
import doseSheets from '../../published/dose-sheets.json' with { type: 'json' };
import epaLimit from '../../published/epa-chlorine-limit.json' with { type: 'json' };
import { expectWithin } from '../../support/expect-within.js';

describe('dechlorinator dose', () => {
  it('C-3: reproduces the dose of the hatchery handbook', () => {
    const row = doseSheets.rows.find(({ id }) => id === 'C-3')!;
    const doseG = dechlorinatorDoseG({
      waterL: litresFromUsGal(row.waterUsGal),
      totalChlorineMgCl2PerL: row.chlorineMgPerL!,
      productMgPerMgChlorine: row.productMgPerMgChlorine!,
    });
    expectWithin(doseG, row.doseG!, row.toleranceG!);
  });

  it.each([
    [1000, 1.5, 0, 10.5, 0.05],
    [2000, 4.0, 0, 56.0, 0.1],
    [2000, 4.0, 0.1, 61.6, 0.1],
  ])(
    'C-1, C-2: for %d L at %d mg/L and a reserve of %d is %d g of crystals (derived)',
    (waterL, chlorine, reserveShare, expected, tolerance) => {
      const dose = { waterL, totalChlorineMgCl2PerL: chlorine, productMgPerMgChlorine: 7, reserveShare };
      expectWithin(dechlorinatorDoseG(dose), expected, tolerance);
    },
  );

  it('takes the limit of the US EPA for a tap nobody measured', () => {
    for (const row of epaLimit.rows) expect(row.limitMgCl2PerL).toBe(DEFAULT_TAP_CHLORINE_MG_PER_L);
    expect(epaLimit.rows).toHaveLength(2);
  });

  it('has a tenth of reserve where the pond is filled directly, and counts a reading below 0.02 as none', () => {
    expect(DIRECT_FILL_RESERVE_SHARE).toBe(0.1);
    expect(ACCEPTED_CHLORINE_READING_MG_PER_L).toBe(0.02);
  });

  it('for two waters together is the sum of both doses', () => {
    const litres = fc.double({ min: 0, max: 100_000, noNaN: true });
    fc.assert(
      fc.property(litres, litres, fc.double({ min: 0, max: 10, noNaN: true }), (a, b, totalChlorineMgCl2PerL) => {
        const of = (waterL: number) =>
          dechlorinatorDoseG({ waterL, totalChlorineMgCl2PerL, productMgPerMgChlorine: 7, reserveShare: 0.1 });
        expectWithin(of(a) + of(b), of(a + b), 1e-9 * Math.max(1, of(a + b)));
      }),
    );
  });

  it.each([
    [{ waterL: -1 }, 'water to be treated, L: -1'],
    [{ totalChlorineMgCl2PerL: Number.NaN }, 'total chlorine, mg/L Cl2: NaN'],
    [{ productMgPerMgChlorine: 0 }, 'product per chlorine, mg/mg: 0'],
    [{ reserveShare: 1.5 }, 'reserve, share: 1.5, outside 0 to 1.'],
  ])('refuses %j', (wrong, message) => {
    const right = { waterL: 100, totalChlorineMgCl2PerL: 1, productMgPerMgChlorine: 7, reserveShare: 0 };
    expect(() => dechlorinatorDoseG({ ...right, ...wrong })).toThrow(message);
  });
});

describe('untreated top-up', () => {
  it('of two hundredths at 4 mg/L leaves 0.08 mg/L and is not allowed', () => {
    const topUp = { topUpL: 200, volumeL: 10_000, totalChlorineMgCl2PerL: 4 };
    expectWithin(chlorineAfterTopUpMgPerL(topUp), 0.08, 1e-12);
    expect(mayTopUpUntreated(topUp)).toBe(false);
  });

  it('is allowed below 0.01 mg/L, not at 0.01 (common practice)', () => {
    expect(mayTopUpUntreated({ topUpL: 25, volumeL: 10_000, totalChlorineMgCl2PerL: 4 })).toBe(false);
    expect(mayTopUpUntreated({ topUpL: 24, volumeL: 10_000, totalChlorineMgCl2PerL: 4 })).toBe(true);
    expect(mayTopUpUntreated({ topUpL: 500, volumeL: 10_000, totalChlorineMgCl2PerL: 0 })).toBe(true);
  });

  it('closes the balance of chlorine brought in and chlorine in the pond', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 1e6, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 10, noNaN: true }),
        (volumeL, share, totalChlorineMgCl2PerL) => {
          const topUpL = share * volumeL;
          const inPondMg = volumeL * chlorineAfterTopUpMgPerL({ topUpL, volumeL, totalChlorineMgCl2PerL });
          const broughtInMg = topUpL * totalChlorineMgCl2PerL;
          expectWithin(inPondMg, broughtInMg, 1e-9 * Math.max(1, broughtInMg));
        },
      ),
    );
  });

  it('refuses more water than the pond holds', () => {
    const topUp = { topUpL: 101, volumeL: 100, totalChlorineMgCl2PerL: 1 };
    expect(() => chlorineAfterTopUpMgPerL(topUp)).toThrow('top-up, L: 101, outside 0 to 100.');
  });
});
