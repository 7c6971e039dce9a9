import { describe, expect, it } from '@jest/globals';
import { FISH_FORMULAS } from '../../../src/core/formulas/fish.formulas.js';
import { expectWithin } from '../../support/expect-within.js';
import { workedExample } from '../../support/worked-example.js';

const worked = (id: string, changes: Readonly<Record<string, number | string>> = {}) => {
  const formula = FISH_FORMULAS.find((one) => one.id === id);
  if (!formula) throw new Error(`There is no formula ${id}.`);
  return workedExample(formula, changes);
};

describe('formulas of the field fish', () => {
  it.each(FISH_FORMULAS)('$id works its example', (formula) => {
    const outputs = formula.compute(workedExample.values(formula));
    expect(outputs.length).toBeGreaterThan(0);
    for (const { value } of outputs) {
      if (typeof value === 'number') expect(Number.isFinite(value)).toBe(true);
      else expect(value).not.toBe('');
    }
    expect(formula.field).toBe('fish');
  });

  it.each(FISH_FORMULAS)('$id computes at both ends of every range', (formula) => {
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
    expect(new Set(FISH_FORMULAS.map(({ id }) => id)).size).toBe(FISH_FORMULAS.length);
  });

  // Bister et al. (2000); Goolish & Adelman (1984): published. The others derived from published equations.
  it.each([
    ['fish-mass', 'W', 2071, 10],
    ['carp-relative-mass', 'Ws', 910, 4.6],
    ['fish-growth', 'L2', 54.7, 0.1],
    ['fish-growth', 'L(t)', 44.5, 0.1],
    ['turtle-as-koi', 'Wk', 1, 1e-9],
    ['feed-ration', 'F', 103, 0.5],
    ['ammonia-from-food', 'P', 6.44, 0.02],
    ['solids-from-food', 'load', 27, 0.01],
    ['turtle-food', 'Ft', 20, 1e-9],
    ['fish-oxygen-use', 'Winberg', 121, 1],
    ['stock-verdict', 'mass', 20.7, 0.05],
    ['stock-verdict', 'water', 0.69, 0.005],
  ])('%s gives %s of %f', (id, symbol, value, tolerance) => {
    expectWithin(worked(id)[symbol] as number, value, tolerance);
  });

  it('give the published figures of young carp', () => {
    expectWithin(worked('feed-kinds', { temperatureC: 24 }).m as number, 0.012, 1e-9);
    expectWithin(worked('fish-growth-by-temperature', { temperatureC: 18 }).G as number, 2.31, 1e-9);
    expect(worked('fish-growth-by-temperature', { temperatureC: 33 }).measured).toBe('no');
  });

  it('name what runs out first', () => {
    expect(worked('stock-verdict')).toMatchObject({ verdict: 'a full pond', limit: 'water' });
    expect(worked('stock-verdict', { areaM2: 10, volumeL: 60_000 })).toMatchObject({
      verdict: 'overstocked',
      limit: 'filter',
    });
    expect(worked('feed-ration', { temperatureC: 9.9, maxC: 10 })).toMatchObject({ F: 0, kind: 'none' });
  });
});
