import type { Species } from '../care/pond-facts.js';
import type { ChoiceInput, FormulaOutput, NumberInput } from './formula.js';

/** A number the reader may change. */
export function asked(
  name: string,
  symbol: string,
  meaning: string,
  unit: string,
  range: readonly [min: number, max: number, example: number],
): NumberInput {
  const [min, max, example] = range;
  return { kind: 'number', name, symbol, meaning, unit, min, max, example };
}

/** A figure of the worked example. */
export function worked(
  symbol: string,
  meaning: string,
  value: number | string,
  unit = '',
  decimals = 2,
): FormulaOutput {
  return { symbol, meaning, unit, value, decimals };
}

export const SPECIES: ChoiceInput = {
  kind: 'choice',
  name: 'species',
  symbol: 'species',
  meaning: 'Kind of fish',
  choices: [
    { value: 'koi', label: 'Koi' },
    { value: 'goldfish', label: 'Goldfish' },
    { value: 'other-fish', label: 'Other fish' },
  ],
  example: 'koi',
};

export const asSpecies = (choice: string) => choice as Exclude<Species, 'slider-turtle'>;

export const WATER = asked('temperatureC', 'T', 'Water temperature', '°C', [-1, 45, 20]);
export const FEED = asked('feedGPerDay', 'F', 'Food a day', 'g', [0, 100_000, 200]);
export const COUNT = asked('count', 'n', 'Number of fish', '', [0, 10_000, 10]);
export const LENGTH = asked('lengthCm', 'L', 'Total length', 'cm', [1, 120, 50]);
