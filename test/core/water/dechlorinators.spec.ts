import path from 'node:path';
import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { loadDechlorinators } from '../../../src/config/products.js';
import { InvalidValueError } from '../../../src/core/errors.js';
import { dechlorinatorDoseG } from '../../../src/core/water/chlorine.js';
import {
  labelledMgPerMgChlorine,
  oxygenTakenByExcessMgPerL,
  REAGENTS,
  type Reagent,
  reagentByFieldGuideMgPerMgChlorine,
  reagentByTheoryMgPerMgChlorine,
  reagentUsedMgPerMgChlorine,
  solutionMgPerMgChlorine,
  type ThiosulfateProduct,
} from '../../../src/core/water/dechlorinators.js';
import fieldGuide from '../../published/awwa-dechlorination-field-guide.json' with { type: 'json' };
import { expectWithin } from '../../support/expect-within.js';

describe('reagent for one part of chlorine', () => {
  it.each(fieldGuide.rows)('agrees with the AWWA field guide: $id, $reagent', (row) => {
    expect(reagentByFieldGuideMgPerMgChlorine(row.reagent as Reagent)).toBe(row.mgPerMgChlorine);
  });

  it.each<[Reagent, ThiosulfateProduct | undefined, number]>([
    ['thiosulfate-anhydrous', 'sulfate', 0.557],
    ['thiosulfate-crystals', 'sulfate', 0.875],
    ['thiosulfate-anhydrous', 'sulfur', 2.23],
    ['thiosulfate-crystals', 'sulfur', 3.5],
    ['thiosulfate-anhydrous', 'tetrathionate', 4.46],
    ['thiosulfate-crystals', undefined, 7.001],
    ['sodium-sulfite', undefined, 1.778],
    ['sodium-bisulfite', undefined, 1.468],
    ['sodium-metabisulfite', undefined, 1.341],
    ['ascorbic-acid', undefined, 2.484],
    ['sodium-ascorbate', undefined, 2.794],
    ['hydroxymethanesulfonate', undefined, 1.891],
  ])('C-5: %s, %s, is %d by its reaction (derived)', (reagent, product, expected) => {
    expectWithin(reagentByTheoryMgPerMgChlorine({ reagent, product }), expected, 0.002);
  });

  it('is used at no less than the reaction takes, save for rounding', () => {
    for (const reagent of REAGENTS) {
      if (reagent === 'hydroxymethanesulfonate') continue;
      expect(reagentUsedMgPerMgChlorine(reagent)).toBeGreaterThanOrEqual(
        reagentByTheoryMgPerMgChlorine({ reagent }) - 0.002,
      );
      const byGuide = reagentByFieldGuideMgPerMgChlorine(reagent);
      if (byGuide !== null) expect(reagentUsedMgPerMgChlorine(reagent)).toBeGreaterThanOrEqual(byGuide);
    }
  });

  it('is dosed by its label where it also binds ammonia; C-8: twelvefold for 1.5 mg/L would be 34.0 mg/L (derived)', () => {
    const theory = reagentByTheoryMgPerMgChlorine({ reagent: 'hydroxymethanesulfonate' });
    expectWithin(12 * theory * 1.5, 34.0, 0.1);
    expect(() => reagentUsedMgPerMgChlorine('hydroxymethanesulfonate')).toThrow(InvalidValueError);
  });

  it('is what the shipped list of products says', () => {
    const { products } = loadDechlorinators(path.join(process.cwd(), 'config'));
    expect(products.length).toBeGreaterThan(3);
    for (const { id, productMgPerMgChlorine } of products) {
      expect(productMgPerMgChlorine).toBe(reagentUsedMgPerMgChlorine(id as Reagent));
    }
  });
});

describe('strength of a labelled product', () => {
  it('of 100 g for 10,000 L with 2 mg/L is 5.0, and gives that dose back', () => {
    const strength = labelledMgPerMgChlorine({ productG: 100, treatsL: 10_000, chlorineMgCl2PerL: 2 });
    expectWithin(strength, 5, 1e-12);
    const doseG = dechlorinatorDoseG({ waterL: 10_000, totalChlorineMgCl2PerL: 2, productMgPerMgChlorine: strength });
    expectWithin(doseG, 100, 1e-9);
  });

  it('gives back the dose of any label', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 10, max: 1000, noNaN: true }),
        fc.double({ min: 1000, max: 20_000, noNaN: true }),
        fc.double({ min: 0.5, max: 4, noNaN: true }),
        (productG, treatsL, chlorine) => {
          fc.pre((productG * 1000) / (treatsL * chlorine) >= 0.1 && (productG * 1000) / (treatsL * chlorine) <= 100);
          const strength = labelledMgPerMgChlorine({ productG, treatsL, chlorineMgCl2PerL: chlorine });
          const dose = { waterL: treatsL, totalChlorineMgCl2PerL: chlorine, productMgPerMgChlorine: strength };
          expectWithin(dechlorinatorDoseG(dose), productG, 1e-9 * productG);
        },
      ),
    );
  });

  it('without a chlorine is read for 1 mg/L, and an absurd one is refused', () => {
    expectWithin(labelledMgPerMgChlorine({ productG: 7, treatsL: 1000 }), 7, 1e-12);
    expect(() => labelledMgPerMgChlorine({ productG: 1000, treatsL: 1 })).toThrow('strength by the label');
    expect(() => labelledMgPerMgChlorine({ productG: Number.NaN, treatsL: 1 })).toThrow('dose of the label, g: NaN');
  });

  it('of a solution is that of the reagent over its share', () => {
    expectWithin(solutionMgPerMgChlorine({ reagent: 'thiosulfate-crystals', reagentShare: 0.28 }), 25, 1e-9);
    expect(() => solutionMgPerMgChlorine({ reagent: 'sodium-sulfite', reagentShare: 0 })).toThrow(
      'reagent in the solution, share: 0',
    );
  });
});

describe('reagent left over', () => {
  it('takes 0.127 mg of oxygen for each mg of sodium sulfite, none for thiosulfate (derived)', () => {
    const excess = { excessG: 10, volumeL: 10_000 };
    expectWithin(oxygenTakenByExcessMgPerL({ ...excess, reagent: 'sodium-sulfite' }), 0.127, 0.0005);
    expect(oxygenTakenByExcessMgPerL({ ...excess, reagent: 'thiosulfate-crystals' })).toBe(0);
  });
});
