/** The rooms of the section "How it is computed", in the order they are shown. */
export const FORMULA_FIELDS = ['water', 'fish', 'filter', 'hydraulics', 'uv', 'weather', 'heat', 'water-loss'] as const;
export type FormulaField = (typeof FORMULA_FIELDS)[number];

/** A number the reader may change in the worked example. `name` is its key in `compute`. */
export interface NumberInput {
  kind: 'number';
  name: string;
  symbol: string;
  meaning: string;
  /** As printed, "mg/L as N"; "" where there is none. */
  unit: string;
  min: number;
  max: number;
  example: number;
}

/** A closed choice, such as the species. */
export interface ChoiceInput {
  kind: 'choice';
  name: string;
  symbol: string;
  meaning: string;
  choices: readonly { value: string; label: string }[];
  example: string;
}

export type FormulaInput = NumberInput | ChoiceInput;

/** A constant or an intermediate quantity that stands in the equation but is not asked for. */
export interface FormulaSymbol {
  symbol: string;
  meaning: string;
  unit: string;
  /** Its value where it is a constant, as printed. */
  value?: string;
}

export interface FormulaOutput {
  symbol: string;
  meaning: string;
  unit: string;
  value: number | string;
  /** Digits after the point when `value` is a number. */
  decimals: number;
}

/** What `compute` reads: every input by name, already inside its range. */
export interface FormulaValues {
  number(name: string): number;
  choice(name: string): string;
}

/**
 * One formula as the reader sees it: the equation, its symbols, where it holds, where it comes from, and an example
 * worked by the very function the product calls. `compute` therefore only calls functions of `core`; it holds no sums.
 */
export interface Formula {
  /** Kebab-case, unique; the address of the entry on the page. */
  id: string;
  field: FormulaField;
  title: string;
  /** What the product prints with it, one sentence. */
  usedFor: string;
  /** One line per equation, in plain characters: "pKa = 0.09018 + 2729.92 / T". */
  equations: readonly string[];
  inputs: readonly FormulaInput[];
  symbols: readonly FormulaSymbol[];
  /** Where it holds and what happens outside. */
  validity: string;
  /** Author, year, table or equation; or "common practice", "from memory", "derived". */
  source: string;
  caution?: string;
  compute(values: FormulaValues): readonly FormulaOutput[];
}
