import { describe, expect, it } from '@jest/globals';
import { DomainError } from '../../../src/core/errors.js';
import type { Formula, FormulaInput, FormulaValues } from '../../../src/core/formulas/formula.js';
import { WATER_FORMULAS } from '../../../src/core/formulas/water.formulas.js';
import epaSummary from '../../published/epa-2013-ammonia-summary.json' with { type: 'json' };
import tucker from '../../published/tucker-carbon-dioxide-factors.json' with { type: 'json' };
import examples from '../../published/unionised-ammonia-examples.json' with { type: 'json' };
import { expectWithin } from '../../support/expect-within.js';

/** The values of the examples, with some of them replaced. */
function valuesOf(formula: Formula, replaced: Readonly<Record<string, number | string>> = {}): FormulaValues {
  const of = (kind: FormulaInput['kind'], name: string) => {
    const input = formula.inputs.find((one) => one.kind === kind && one.name === name);
    if (!input) throw new Error(`${formula.id} reads ${kind} ${name}, which it does not ask for`);
    return replaced[name] ?? input.example;
  };
  return { number: (name) => of('number', name) as number, choice: (name) => of('choice', name) as string };
}

function formulaOf(id: string): Formula {
  const found = WATER_FORMULAS.find((formula) => formula.id === id);
  if (!found) throw new Error(`no formula ${id}`);
  return found;
}

/** A result of an entry by its symbol, else by its meaning. */
function result(id: string, of: string, replaced: Readonly<Record<string, number | string>> = {}): number | string {
  const formula = formulaOf(id);
  const outputs = formula.compute(valuesOf(formula, replaced));
  const found = outputs.find(({ symbol }) => symbol === of) ?? outputs.find(({ meaning }) => meaning === of);
  if (!found) throw new Error(`${id} gives no ${of}`);
  return found.value;
}

/** Every input at both its ends and every choice, one at a time. */
function edgesOf(formula: Formula): readonly Readonly<Record<string, number | string>>[] {
  return formula.inputs.flatMap((input): Readonly<Record<string, number | string>>[] =>
    input.kind === 'number'
      ? [{ [input.name]: input.min }, { [input.name]: input.max }]
      : input.choices.map(({ value }) => ({ [input.name]: value })),
  );
}

describe('formulas of the water', () => {
  it('have one address each, in lower case', () => {
    const ids = WATER_FORMULAS.map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
    for (const id of ids) expect(id).toMatch(/^[a-z]+(-[a-z]+)*$/);
  });

  it.each(WATER_FORMULAS.map((formula) => [formula.id, formula] as const))(
    '%s says all there is to say',
    (_, formula) => {
      expect(formula.field).toBe('water');
      for (const text of [formula.title, formula.usedFor, formula.validity, formula.source]) {
        expect(text.length).toBeGreaterThan(3);
      }
      expect(formula.equations.length).toBeGreaterThan(0);
      const names = formula.inputs.map(({ name }) => name);
      expect(new Set(names).size).toBe(names.length);
      for (const input of formula.inputs) {
        if (input.kind === 'choice') expect(input.choices.map(({ value }) => value)).toContain(input.example);
        else expect(input.example >= input.min && input.example <= input.max).toBe(true);
      }
    },
  );

  it.each(WATER_FORMULAS.map((formula) => [formula.id, formula] as const))('%s computes its example', (_, formula) => {
    const outputs = formula.compute(valuesOf(formula));
    expect(outputs.length).toBeGreaterThan(0);
    for (const { value } of outputs) {
      if (typeof value === 'number') expect(Number.isFinite(value)).toBe(true);
      else expect(value).not.toBe('');
    }
  });

  it.each(WATER_FORMULAS.map((formula) => [formula.id, formula] as const))(
    '%s gives a number or a reason at every end of its ranges',
    (_, formula) => {
      for (const edge of edgesOf(formula)) {
        try {
          for (const { value } of formula.compute(valuesOf(formula, edge))) {
            if (typeof value === 'number')
              expect({ edge, value, isNumber: Number.isFinite(value) }).toMatchObject({ isNumber: true });
          }
        } catch (error) {
          if (!(error instanceof DomainError)) throw error;
          expect(error.message).toMatch(/outside|cannot be used/);
        }
      }
    },
  );
});

describe('examples against what is published', () => {
  it('un-ionised ammonia: that of IFAS FA-16', () => {
    const published = examples.rows.find(({ id }) => id === 'A-3')!;
    expectWithin(result('unionised-ammonia', 'NH3-N') as number, published.unionisedAmmonia, published.tolerance);
  });

  it('ammonia of a stream: the summary of the EPA', () => {
    const published = epaSummary.rows[0]!;
    expectWithin(result('ammonia-of-a-stream', 'acute') as number, published.acuteMgNPerL, 0.5);
    expectWithin(result('ammonia-of-a-stream', 'chronic') as number, published.chronicMgNPerL, 0.05);
  });

  it('carbon dioxide: the table of Tucker', () => {
    const published = tucker.rows.find(({ id }) => id === 'P-2')!;
    expectWithin(result('carbon-dioxide', 'CO2', { ph: published.ph }) as number, 100 * published.factor, 0.1);
  });
});

describe('examples against the values kept elsewhere (derived)', () => {
  it.each([
    ['oxygen-saturation', 'Cp', 9.092, 0.001],
    ['largest-total-ammonia', 'TANmax', 1.313, 0.001],
    ['aerator-transfer', 'OTR', 326, 2],
    ['air-pump-transfer', 'SOTR', 24.1, 0.1],
    ['surface-reaeration', 'flux', 9, 0.1],
    ['nitrification-oxygen', 'O2', 29.4, 0.1],
    ['dawn-oxygen-by-readings', 'D', 5.6, 0.01],
    ['dechlorinator-dose', 'm', 61.6, 0.1],
    ['dechlorinator-strength', 'k', 7.001, 0.002],
    ['labelled-strength', 'k', 5, 1e-9],
    ['chloramine-ammonia', 'N', 0.296, 0.001],
    ['bicarbonate-dose', 'm', 806, 2],
    ['alkalinity-use', 'u', 3.07, 0.01],
    ['nitrate-production', 'p', 0.4293, 0.001],
    ['nitrate-of-regular-changes', 'before', 17.03, 0.01],
    ['nitrate-of-regular-changes', 'after', 14.02, 0.01],
    ['changes-needed', 'k', 4, 0],
    ['temperature-step', 'Tmix', 20, 1e-9],
    ['salt-against-nitrite', 'm', 5.41, 0.03],
    ['volume-by-salt', 'V', 12_500, 12.5],
  ])('%s gives %s of %d', (id, of, expected, tolerance) => {
    expectWithin(result(id, of) as number, expected, tolerance);
  });

  it('say a verdict in words', () => {
    expect(result('ammonia-carried-by-filter', 'Verdict')).toBe('carried within a day');
    expect(result('mixed-ph', 'Decided by')).toBe('pH step');
  });

  it('judge a low reading of oxygen', () => {
    expect(result('reading-verdict', 'Verdict')).toBe('watch');
    expect(result('reading-verdict', 'Verdict', { value: 3.5 })).toBe('emergency');
  });
});
