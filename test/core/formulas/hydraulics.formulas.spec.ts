import { describe, expect, it } from '@jest/globals';
import { HYDRAULICS_FORMULAS } from '../../../src/core/formulas/hydraulics.formulas.js';
import examples from '../../published/pump-and-weir-examples.json' with { type: 'json' };
import { expectWithin } from '../../support/expect-within.js';
import { workedExample } from '../../support/worked-example.js';

const worked = (id: string, changes: Readonly<Record<string, number | string>> = {}) => {
  const formula = HYDRAULICS_FORMULAS.find((one) => one.id === id);
  if (!formula) throw new Error(`There is no formula ${id}.`);
  return workedExample(formula, changes);
};

describe('formulas of the field hydraulics', () => {
  it.each(HYDRAULICS_FORMULAS)('$id works its example, and at both ends of every range', (formula) => {
    expect(formula.field).toBe('hydraulics');
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
    expect(new Set(HYDRAULICS_FORMULAS.map(({ id }) => id)).size).toBe(HYDRAULICS_FORMULAS.length);
  });

  it('show the published values of friction, weir and energy', () => {
    const rehbock = examples.rows.find(({ id }) => id === 'H17')!;
    const energy = examples.rows.find(({ id }) => id === 'H14')!;
    expectWithin(worked('weir-rehbock').Q as number, rehbock.flowM3PerS! * 3.6e6, 40);
    expectWithin(worked('friction-factor').f as number, 0.0185139, 5e-6);
    const bill = worked('pump-energy', {
      powerW: energy.powerW!,
      hoursPerDay: energy.hoursPerDay!,
      days: energy.days!,
      priceMinorPerKWh: energy.priceMinorPerKWh!,
    });
    expect(bill).toMatchObject({ E: energy.energyKWh, cost: energy.costMinor });
  });

  // Derived, but for the kidney (common practice).
  it.each([
    ['plan-area', 'A', 11.25, 1e-9],
    ['depth-contours', 'V', 9.5, 1e-9],
    ['sloping-solids', 'Vs', 7.946, 0.001],
    ['sloping-solids', 'Vp', 7.944, 0.001],
    ['liner-size', 'Ll', 8, 1e-9],
    ['turnover', 'Qm', 400, 1e-9],
    ['hydraulic-power', 'P', 40.9, 0.1],
  ])('%s gives its %s', (id, symbol, expected, tolerance) => {
    expectWithin(worked(id)[symbol] as number, expected, tolerance);
  });
});
