import { describe, expect, it } from '@jest/globals';
import { WATER_LOSS_FORMULAS } from '../../../src/core/formulas/water-loss.formulas.js';
import { expectWithin } from '../../support/expect-within.js';
import { workedExample } from '../../support/worked-example.js';

const worked = (id: string, changes: Readonly<Record<string, number | string>> = {}) => {
  const formula = WATER_LOSS_FORMULAS.find((one) => one.id === id);
  if (!formula) throw new Error(`There is no formula ${id}.`);
  return workedExample(formula, changes);
};

describe('formulas of the field water-loss', () => {
  it.each(WATER_LOSS_FORMULAS)('$id works its example, and at both ends of every range', (formula) => {
    expect(formula.field).toBe('water-loss');
    const outputs = formula.compute(workedExample.values(formula));
    expect(outputs.length).toBeGreaterThan(0);
    for (const { value } of outputs)
      expect(typeof value === 'string' ? value !== '' : Number.isFinite(value)).toBe(true);
    for (const input of formula.inputs) {
      const ends = input.kind === 'number' ? [input.min, input.max] : input.choices.map(({ value }) => value);
      for (const end of ends) {
        for (const value of Object.values(workedExample(formula, { [input.name]: end }))) {
          expect(typeof value === 'string' || Number.isFinite(value)).toBe(true);
        }
      }
    }
  });

  it('have ids of their own', () => {
    expect(new Set(WATER_LOSS_FORMULAS.map(({ id }) => id)).size).toBe(WATER_LOSS_FORMULAS.length);
  });

  it('show the published day of the Penman check set to half a millimetre, its humidity taken as a mean', () => {
    expectWithin(worked('evaporation-penman').E as number, 6.8, 0.5);
  });

  it('show a leak of 72 L a day in 30 mm against a bucket’s 12 mm (derived)', () => {
    const found = worked('leak-verdict');
    expectWithin(found.xA as number, 72, 1e-9);
    expect(found.verdict).toBe('leak');
    expect(worked('leak-verdict', { fallMm: 13 }).verdict).toBe('tight');
  });

  it.each([
    ['evaporation-no-wind', 'E', 6.54, 0.05],
    ['evaporation-other', 'Ep', 3.62, 0.03],
    ['top-up', 'q', 72, 1e-9],
    ['top-up-solutes', 'C', 362, 1e-9],
  ])('%s gives its %s (derived)', (id, symbol, expected, tolerance) => {
    expectWithin(worked(id)[symbol] as number, expected, tolerance);
  });
});
