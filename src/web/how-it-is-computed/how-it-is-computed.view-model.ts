import type { StationOrigin } from '../../config/index.js';
import type { CareRule } from '../../core/care/care-rule.js';
import type { Station } from '../../core/climate/station.js';
import { formulasByField } from '../../core/formulas/all-formulas.js';
import { BAND_PARTS, type BandPart } from '../../core/formulas/band-parts.js';
import type { Formula, FormulaField, FormulaOutput } from '../../core/formulas/formula.js';
import { NOT_KNOWN, type NotKnown } from '../../core/formulas/not-known.js';
import { type RuleCard, ruleCards } from '../office/settings/settings.view-model.js';
import { fieldName, figureWords, rangeWords, type WorkedExample, workExample } from './worked-example.js';

export const ADDRESS = '/how-it-is-computed';

export interface HowItIsComputedModel {
  readonly find: string;
  /** What the filter left, in a sentence; empty without one. */
  readonly found: string;
  readonly formulaCount: number;
  readonly fields: readonly FieldModel[];
  readonly notKnown: readonly NotKnownLine[];
  readonly bandParts: readonly BandPart[];
  readonly rules: readonly RuleCard[];
  readonly stations: StationsModel;
  readonly hasFaults: boolean;
}

export interface FieldModel {
  readonly id: string;
  readonly title: string;
  readonly entries: readonly EntryModel[];
}

export interface EntryModel {
  readonly formula: Formula;
  readonly symbols: readonly SymbolLine[];
  readonly example: WorkedExample;
  readonly outputs: readonly { readonly symbol: string; readonly meaning: string; readonly value: string }[];
}

export interface SymbolLine {
  readonly symbol: string;
  readonly meaning: string;
  readonly unit: string;
  /** Range of an input, value of a constant. */
  readonly holds: string;
}

export interface NotKnownLine {
  readonly id: string;
  readonly title: string;
  readonly why: string;
  readonly used: string;
  readonly range: string;
  readonly learnedFrom: string;
  readonly source: string;
}

export interface StationsModel {
  readonly sentence: string;
  readonly origins: readonly StationOrigin[];
  readonly gaps: readonly string[];
}

/** Sources and gaps of the station table, as its head names them. */
export interface StationSources {
  readonly origins: Readonly<Record<string, StationOrigin>>;
  readonly gaps: readonly string[];
}

const FIELD_TITLES: Readonly<Record<FormulaField, string>> = {
  water: 'Water',
  fish: 'Fish and feed',
  filter: 'Filter',
  hydraulics: 'Volume, pumps and pipes',
  uv: 'UV lamp',
  weather: 'Weather and climate',
  heat: 'Water temperature',
  'water-loss': 'Water loss and leaks',
};

export function howItIsComputedModel(given: {
  readonly fields: Readonly<Record<string, string>>;
  readonly rules: readonly CareRule[];
  readonly stations: readonly Station[];
  readonly sources: StationSources;
}): HowItIsComputedModel {
  const find = (given.fields.find ?? '').trim();
  const matches = matcher(find);
  const all = formulasByField();
  const fields = all
    .map(({ field, formulas }) => ({
      id: `field-${field}`,
      title: FIELD_TITLES[field],
      entries: formulas
        .filter((formula) => matches(wordsOfFormula(formula, FIELD_TITLES[field])))
        .map((formula) => entryOf(formula, given.fields)),
    }))
    .filter(({ entries }) => entries.length > 0);
  const notKnown = NOT_KNOWN.map(notKnownLine).filter((line) => matches(Object.values(line).join(' ')));
  const rules = ruleCards(given.rules).filter((card) => matches(wordsOfRule(card)));
  const shown = fields.reduce((sum, { entries }) => sum + entries.length, 0);
  return {
    find,
    found: find === '' ? '' : foundWords(find, { formulas: shown, notKnown: notKnown.length, rules: rules.length }),
    formulaCount: all.reduce((sum, { formulas }) => sum + formulas.length, 0),
    fields,
    notKnown,
    bandParts: BAND_PARTS,
    rules,
    stations: stationsModel(given.stations, given.sources),
    hasFaults: fields.some(({ entries }) => entries.some(({ example }) => Object.keys(example.faults).length > 0)),
  };
}

function entryOf(formula: Formula, fields: Readonly<Record<string, string>>): EntryModel {
  const example = workedOnce(formula, fields);
  return {
    formula,
    symbols: [
      ...formula.inputs.map((input) => ({
        symbol: input.symbol || 'choice',
        meaning: input.meaning,
        unit: input.kind === 'number' ? input.unit : '',
        holds: input.kind === 'number' ? rangeWords({ ...input, unit: '' }) : `${input.choices.length} choices`,
      })),
      ...formula.symbols.map(({ value, ...symbol }) => ({ ...symbol, holds: value ?? 'computed' })),
    ],
    example,
    outputs: (example.outputs ?? []).map((output) => ({
      symbol: output.symbol,
      meaning: output.meaning,
      value: outputWords(output),
    })),
  };
}

/** Examples nobody changed are worked once for all readers: some simulate thousands of years. */
const examples = new WeakMap<Formula, WorkedExample>();
function workedOnce(formula: Formula, fields: Readonly<Record<string, string>>): WorkedExample {
  const isTyped = formula.inputs.some((input) => fields[fieldName(formula, input)] !== undefined);
  if (isTyped) return workExample(formula, fields);
  const worked = examples.get(formula) ?? workExample(formula, {});
  examples.set(formula, worked);
  return worked;
}

/** A result with its unit, at the digits its formula asks for. */
export function outputWords({ value, unit, decimals }: FormulaOutput): string {
  const figure = typeof value === 'string' ? value : figureWords(value, decimals);
  return unit === '' ? figure : `${figure} ${unit}`;
}

/** Every word must be found somewhere; capitals and order do not matter. */
function matcher(find: string): (text: string) => boolean {
  const words = find.toLowerCase().split(/\s+/).filter(Boolean);
  return (text) => words.every((word) => text.toLowerCase().includes(word));
}

function wordsOfFormula(formula: Formula, fieldTitle: string): string {
  const { id, title, usedFor, equations, validity, source, caution, inputs, symbols } = formula;
  const named = [...inputs, ...symbols].map(({ symbol, meaning }) => `${symbol} ${meaning}`);
  return [fieldTitle, id, title, usedFor, ...equations, validity, source, caution ?? '', ...named].join(' ');
}

function wordsOfRule({ title, reason, source, parameters }: RuleCard): string {
  return [
    title,
    reason,
    source,
    ...parameters.map(({ name, value, provenance }) => `${name} ${value} ${provenance}`),
  ].join(' ');
}

function foundWords(find: string, counts: { formulas: number; notKnown: number; rules: number }): string {
  const parts = [
    counted(counts.formulas, 'formula', 'formulas'),
    counted(counts.notKnown, 'unknown', 'unknowns'),
    counted(counts.rules, 'care rule', 'care rules'),
  ];
  return `“${find}” stands in ${parts[0]}, ${parts[1]} and ${parts[2]}.`;
}

function counted(count: number, one: string, many: string): string {
  return `${count === 0 ? 'no' : count} ${count === 1 ? one : many}`;
}

function notKnownLine(line: NotKnown): NotKnownLine {
  const { id, title, why, learnedFrom, source, used, min, max, unit } = line;
  return {
    id: `not-known-${id}`,
    title,
    why,
    used: used === null ? 'asked of each pond' : `${figureWords(used, 0, 3)}${unit === '' ? '' : ` ${unit}`}`,
    range: rangeWords({ min, max, unit }),
    learnedFrom,
    source,
  };
}

function stationsModel(stations: readonly Station[], { origins, gaps }: StationSources): StationsModel {
  const normals = stations.filter(({ period }) => period === '1991-2020').length;
  return {
    sentence: `${stations.length} stations: ${normals} with the normals of 1991 to 2020, ${stations.length - normals} with means of 2003 to 2021, which are no normals and are not called so.`,
    origins: Object.values(origins),
    gaps,
  };
}
