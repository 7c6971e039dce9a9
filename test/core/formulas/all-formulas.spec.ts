import { describe, expect, it } from '@jest/globals';
import { DomainError } from '../../../src/core/errors.js';
import { ALL_FORMULAS, formulasByField } from '../../../src/core/formulas/all-formulas.js';
import { BAND_PARTS } from '../../../src/core/formulas/band-parts.js';
import { FORMULA_FIELDS, type Formula, type FormulaInput } from '../../../src/core/formulas/formula.js';
import { NOT_KNOWN } from '../../../src/core/formulas/not-known.js';
import { workedExample } from '../../support/worked-example.js';

const KEBAB = /^[a-z0-9]+(-[a-z0-9]+)*$/;

/** Addresses the page gives to its own sections. */
const OWN_ADDRESSES = ['not-known', 'rules', 'stations', 'find', 'content'];

const unusable = (formula: Formula, changes: Record<string, number | string>) => {
  try {
    const outputs = formula.compute(workedExample.values(formula, changes));
    return outputs.filter(({ value }) => (typeof value === 'number' ? !Number.isFinite(value) : value === ''));
  } catch (error) {
    // A formula may refuse a pair of figures that are each in range; it then says so.
    if (error instanceof DomainError) return [];
    throw error;
  }
};

const ends = (input: FormulaInput): (number | string)[] =>
  input.kind === 'number' ? [input.min, input.max] : input.choices.map(({ value }) => value);

describe('all formulas', () => {
  it('have each an address of its own', () => {
    const ids = [...ALL_FORMULAS.map(({ id }) => id), ...OWN_ADDRESSES, ...FORMULA_FIELDS.map((f) => `field-${f}`)];
    expect(ids.filter((id, i) => ids.indexOf(id) !== i)).toEqual([]);
    expect(ids.filter((id) => !KEBAB.test(id))).toEqual([]);
  });

  it('stand in their fields, in the order of the page', () => {
    expect(formulasByField().map(({ field }) => field)).toEqual(
      FORMULA_FIELDS.filter((field) => ALL_FORMULAS.some((formula) => formula.field === field)),
    );
    expect(formulasByField().flatMap(({ formulas }) => formulas)).toHaveLength(ALL_FORMULAS.length);
  });

  it.each(ALL_FORMULAS)('$field: $id says what it is for, where it holds and where it comes from', (formula) => {
    for (const words of [formula.title, formula.usedFor, formula.validity, formula.source]) {
      expect(words.trim().length).toBeGreaterThan(3);
    }
    expect(formula.equations.length).toBeGreaterThan(0);
    expect(formula.inputs.length).toBeGreaterThan(0);
    const names = formula.inputs.map(({ name }) => name);
    expect(new Set(names).size).toBe(names.length);
  });

  it.each(ALL_FORMULAS)('$field: $id works its example, and it lies inside its own ranges', (formula) => {
    for (const input of formula.inputs) {
      if (input.kind === 'number') {
        expect(input.example).toBeGreaterThanOrEqual(input.min);
        expect(input.example).toBeLessThanOrEqual(input.max);
      } else {
        expect(input.choices.map(({ value }) => value)).toContain(input.example);
      }
    }
    const outputs = formula.compute(workedExample.values(formula));
    expect(outputs.length).toBeGreaterThan(0);
    expect(outputs.filter(({ value }) => typeof value === 'number' && !Number.isFinite(value))).toEqual([]);
  });

  it.each(ALL_FORMULAS)('$field: $id gives a figure or a sentence at both ends of every range', (formula) => {
    for (const input of formula.inputs) {
      for (const end of ends(input)) expect(unusable(formula, { [input.name]: end })).toEqual([]);
    }
  });
});

describe('what is not known', () => {
  it.each(NOT_KNOWN)('$id has a range, a reason and a way to learn it', (line) => {
    expect(line.id).toMatch(KEBAB);
    expect(line.min).toBeLessThan(line.max);
    if (line.used !== null) {
      expect(line.used).toBeGreaterThanOrEqual(line.min);
      expect(line.used).toBeLessThanOrEqual(line.max);
    }
    for (const words of [line.title, line.why, line.learnedFrom, line.source]) {
      expect(words.length).toBeGreaterThan(5);
    }
  });

  it('are named once each, and the band has three parts', () => {
    expect(new Set(NOT_KNOWN.map(({ id }) => id)).size).toBe(NOT_KNOWN.length);
    expect(BAND_PARTS.map(({ id }) => id)).toEqual(['weather', 'model', 'thermometer']);
  });
});
