import { describe, expect, it } from '@jest/globals';
import { UV_FORMULAS } from '../../../src/core/formulas/uv.formulas.js';
import { expectWithin } from '../../support/expect-within.js';
import { workedExample } from '../../support/worked-example.js';

const worked = (id: string, changes: Readonly<Record<string, number | string>> = {}) => {
  const formula = UV_FORMULAS.find((one) => one.id === id);
  if (!formula) throw new Error(`There is no formula ${id}.`);
  return workedExample(formula, changes);
};

describe('formulas of the field uv', () => {
  it.each(UV_FORMULAS)('$id works its example', (formula) => {
    const outputs = formula.compute(workedExample.values(formula));
    expect(outputs.length).toBeGreaterThan(0);
    for (const { value } of outputs) {
      if (typeof value === 'number') expect(Number.isFinite(value)).toBe(true);
      else expect(value).not.toBe('');
    }
    expect(formula.field).toBe('uv');
  });

  it.each(UV_FORMULAS)('$id computes at both ends of every range', (formula) => {
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
    expect(new Set(UV_FORMULAS.map(({ id }) => id)).size).toBe(UV_FORMULAS.length);
  });

  // The limit of eye and skin: CIE 187:2010 (published). The others derived.
  it.each([
    ['uv-lamp-output', 'f', 0.9, 1e-9],
    ['uv-dose', 'water', 0.902, 0.001],
    ['uv-dose', 'dose', 6.48, 0.02],
    ['uv-dose', 'passes', 24, 1e-9],
    ['uv-lamp-life', 'renew', 365, 0],
    ['uv-lamp-life', 'left', 4200, 0],
    ['uv-eye-limit', 't', 6, 0.01],
  ])('%s gives %s of %f', (id, symbol, value, tolerance) => {
    expectWithin(worked(id)[symbol] as number, value, tolerance);
  });

  it('promise nothing of a small dose, and say which papers a larger one has behind it', () => {
    expect(worked('uv-dose').seen).toBe('nothing');
    expect(worked('uv-dose', { flowLPerH: 1000 }).seen).toMatch(/^Bullock & Stuckey \(1977\).*Tao et al\. \(2010\)/);
    expect(worked('uv-lamp-life', { seasonDays: 10, lampRatedHours: 100_000 }).renew).toBe(
      'it lasts beyond twelve years',
    );
  });
});
