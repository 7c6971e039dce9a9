import { DomainError, OutOfRangeError } from '../../core/errors.js';
import type { Formula, FormulaInput, FormulaOutput, FormulaValues, NumberInput } from '../../core/formulas/formula.js';
import type { FormFaults } from '../forms/form-faults.js';
import { readNumber } from '../office/ponds/form/form-units.js';

/** A formula worked with what somebody typed, or with its own example. */
export interface WorkedExample {
  /** What stands in the fields, by the input's name: as typed, so that nothing is lost. */
  readonly typed: Readonly<Record<string, string>>;
  /** By the input's name; `''` is the example as a whole. */
  readonly faults: FormFaults;
  /** Null where a fault stands in the way. */
  readonly outputs: readonly FormulaOutput[] | null;
  /** Whether somebody changed it. */
  readonly isTyped: boolean;
}

/** Name of an input's field on the page; unique over all formulas. */
export function fieldName(formula: Formula, input: FormulaInput): string {
  return `${formula.id}.${input.name}`;
}

/**
 * Works a formula with the typed fields of the page. An input that was not sent keeps its example; one that cannot be
 * read or lies outside its range gets a sentence, and nothing is computed.
 */
export function workExample(formula: Formula, fields: Readonly<Record<string, string>>): WorkedExample {
  const typed: Record<string, string> = {};
  const faults: Record<string, string> = {};
  const values = new Map<string, number | string>();
  for (const input of formula.inputs) {
    const text = fields[fieldName(formula, input)];
    typed[input.name] = text ?? String(input.example);
    const read = text === undefined ? { value: input.example } : readInput(input, text);
    if ('fault' in read) faults[input.name] = read.fault;
    else values.set(input.name, read.value);
  }
  const isTyped = formula.inputs.some((input) => fields[fieldName(formula, input)] !== undefined);
  if (Object.keys(faults).length > 0) return { typed, faults, outputs: null, isTyped };
  return { typed, isTyped, ...compute(formula, values) };
}

function readInput(input: FormulaInput, text: string): { value: number | string } | { fault: string } {
  if (input.kind === 'choice') {
    const known = input.choices.some(({ value }) => value === text);
    return known ? { value: text } : { fault: `${input.meaning}: choose one of the list.` };
  }
  const value = readNumber(text);
  if (value === null) return { fault: `${input.meaning}: write a number from ${rangeWords(input)}.` };
  if (Number.isNaN(value)) {
    return { fault: `${input.meaning}: “${text.trim()}” is not a number. Write one from ${rangeWords(input)}.` };
  }
  if (value < input.min || value > input.max)
    return { fault: new OutOfRangeError(input.meaning, value, input).message };
  return { value };
}

/** `4 to 11`, with the unit where there is one. */
export function rangeWords({ min, max, unit }: Pick<NumberInput, 'min' | 'max' | 'unit'>): string {
  return `${figureWords(min, 0, 6)} to ${figureWords(max, 0, 6)}${unit === '' ? '' : ` ${unit}`}`;
}

/** A figure as printed: thousands marked, a real minus. */
export function figureWords(value: number, leastDecimals: number, mostDecimals = leastDecimals): string {
  const digits = { minimumFractionDigits: leastDecimals, maximumFractionDigits: mostDecimals };
  return value.toLocaleString('en-US', digits).replace('-', '−');
}

function compute(
  formula: Formula,
  values: ReadonlyMap<string, number | string>,
): Pick<WorkedExample, 'outputs' | 'faults'> {
  try {
    const outputs = formula.compute(valuesOf(formula, values));
    const unusable = outputs.find(({ value }) => typeof value === 'number' && !Number.isFinite(value));
    if (!unusable) return { outputs, faults: {} };
    return { outputs: null, faults: { '': `${unusable.meaning} cannot be worked out from these figures.` } };
  } catch (error) {
    if (error instanceof DomainError) return { outputs: null, faults: { '': error.message } };
    throw error;
  }
}

function valuesOf(formula: Formula, values: ReadonlyMap<string, number | string>): FormulaValues {
  const given = (name: string, kind: 'number' | 'string') => {
    const value = values.get(name);
    if (typeof value !== kind) throw new Error(`The formula ${formula.id} asks for ${name}, which is no such input.`);
    return value;
  };
  return {
    number: (name) => given(name, 'number') as number,
    choice: (name) => given(name, 'string') as string,
  };
}
