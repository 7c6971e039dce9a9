import type { Reason } from '../../../../core/care/care-plan.js';
import { en } from '../../../../core/care/wording/en.js';
import { shownInput } from '../../../../core/care/wording/shown-inputs.js';
import type { UnitSystem } from '../../../../core/units/show.js';

export interface ReasonLine {
  readonly name: string;
  readonly value: string;
}

type Input = Reason['inputs'][number];

const NAMES: Readonly<Record<string, string>> = {
  threshold: 'Threshold',
  direction: 'Direction',
  'crossing-p10': 'Passed at the earliest',
  'crossing-p50': 'Passed most likely',
  'crossing-p90': 'Passed at the latest',
  lead: 'Lead time',
  interval: 'Every',
  'last-done': 'Last done',
  'counted-from': 'Counted from',
  'season-from': 'Season from',
  'season-until': 'Season until',
  'season-above': 'Only above',
  'season-below': 'Only below',
  'season-starts': 'Season starts',
  load: 'Load',
  limit: 'Limit',
  'run-up': 'Run up until today',
  'reached-on': 'Limit reached',
  machine: 'Machine',
  'mark-on': 'Date of it',
  'happened-on': 'Happened on',
  'taken-on': 'Read on',
};
const LOADS: Readonly<Record<string, string>> = {
  'lamp-hours': 'hours of the lamp',
  'pump-days': 'days of the pump',
  'aerator-days': 'days of the aerator',
  'filter-solids-g': 'dry solids in the filter',
  'evaporation-l': 'water evaporated',
};
/** Said in words already by the sentence above. */
const LEFT_OUT = new Set(['probability', 'when', 'of-rule']);

/** The inputs of a reason, each with its name and unit. */
export function reasonLines(reason: Reason, units: UnitSystem): ReasonLine[] {
  return reason.inputs
    .filter((input) => !LEFT_OUT.has(input.name) && !isZeroLead(input) && input.value !== '')
    .map((input) => ({ name: NAMES[input.name] ?? capital(plain(input.name)), value: valueWords(input, units) }));
}

/** Loads and choices are known by a key and said in words; the rest as everywhere. */
function valueWords(input: Input, units: UnitSystem): string {
  if (typeof input.value !== 'string' || input.name === 'quantity') return shownInput(input, units, en);
  return LOADS[input.value] ?? plain(input.value);
}

function isZeroLead({ name, value }: Input): boolean {
  return name === 'lead' && value === 0;
}

function plain(words: string): string {
  return words.replaceAll('-', ' ');
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
