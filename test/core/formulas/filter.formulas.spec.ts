import { describe, expect, it } from '@jest/globals';
import { FILTER_FORMULAS } from '../../../src/core/formulas/filter.formulas.js';
import staged from '../../published/staged-stocking.json' with { type: 'json' };
import { expectWithin } from '../../support/expect-within.js';
import { workedExample } from '../../support/worked-example.js';

const worked = (id: string, changes: Readonly<Record<string, number | string>> = {}) => {
  const formula = FILTER_FORMULAS.find((one) => one.id === id);
  if (!formula) throw new Error(`There is no formula ${id}.`);
  return workedExample(formula, changes);
};

describe('formulas of the field filter', () => {
  it.each(FILTER_FORMULAS)('$id works its example', (formula) => {
    const outputs = formula.compute(workedExample.values(formula));
    expect(outputs.length).toBeGreaterThan(0);
    for (const { value } of outputs) {
      if (typeof value === 'number') expect(Number.isFinite(value)).toBe(true);
      else expect(value).not.toBe('');
    }
    expect(formula.field).toBe('filter');
  });

  it.each(FILTER_FORMULAS)('$id computes at both ends of every range', (formula) => {
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
    expect(new Set(FILTER_FORMULAS.map(({ id }) => id)).size).toBe(FILTER_FORMULAS.length);
  });

  it.each([
    ['nitrification-capacity', 'Am', 60, 1e-9],
    ['nitrification-capacity', 'r', 0.421, 0.002],
    ['media-needed', 'A', 21.5, 0.215],
    ['media-needed', 'O2', 29.4, 0.1],
    ['filter-ripening', 'ripe', 35, 1e-6],
    ['filter-ripening', 'planned', 42, 1e-9],
    ['stocking-in-parts', 'parts', 5, 0],
    ['stocking-in-parts', 'part', 2, 1e-9],
    ['stocking-in-parts', 'first', 42, 0],
    ['stocking-in-parts', 'last', 98, 0],
    ['rinse-interval', 't', 5.93, 0.01],
    ['rinse-capacity-learned', 'C', 5.6, 1e-9],
  ])('%s gives %s of %f (derived)', (id, symbol, value, tolerance) => {
    expectWithin(worked(id)[symbol] as number, value, tolerance);
  });

  it('start a stocking with the fifth of Hager et al. (2021), six to eight weeks on', () => {
    const [{ firstShareOfCapacity, fromWeeks, toWeeks }] = staged.rows as [(typeof staged.rows)[number]];
    const { part, first } = worked('stocking-in-parts', { plannedKg: 12, capacityKg: 12 });
    expectWithin(part as number, firstShareOfCapacity * 12, 1e-9);
    expect(first as number).toBeGreaterThanOrEqual(7 * fromWeeks);
    expect(first as number).toBeLessThanOrEqual(7 * toWeeks);
  });

  it('keep the rinse to 21 days for koi in warm water', () => {
    const little = { mediaVolumeL: 200, feedGPerDay: 5 };
    expect(worked('rinse-interval', little).kept).toBe(21);
    expect(worked('rinse-interval', { ...little, fish: 'none' }).kept).toBe(42);
    expect(worked('stocking-in-parts', { temperatureC: 12 }).first).toBe('the water stays too cold');
    expectWithin(worked('filter-ripening', { start: 'inoculated' }).ripe as number, 17.5, 0.2);
  });
});
