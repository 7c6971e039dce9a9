import type { Formula, FormulaOutput, FormulaValues } from '../../src/core/formulas/formula.js';

type Changes = Readonly<Record<string, number | string>>;

/** The values of a formula's own example, with some of them changed. */
function values(formula: Formula, changes: Changes = {}): FormulaValues {
  const given = new Map<string, number | string>(formula.inputs.map(({ name, example }) => [name, example]));
  for (const [name, value] of Object.entries(changes)) given.set(name, value);
  const of = (name: string) => {
    const value = given.get(name);
    if (value === undefined) throw new Error(`${formula.id} asks for ${name}, which is none of its inputs.`);
    return value;
  };
  return { number: (name) => Number(of(name)), choice: (name) => String(of(name)) };
}

/** What a formula gives for its own example, by symbol. */
export function workedExample(formula: Formula, changes: Changes = {}): Record<string, FormulaOutput['value']> {
  return Object.fromEntries(formula.compute(values(formula, changes)).map(({ symbol, value }) => [symbol, value]));
}
workedExample.values = values;
