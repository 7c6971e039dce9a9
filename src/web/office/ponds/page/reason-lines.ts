import type { Reason } from '../../../../core/care/care-plan.js';
import type { CivilDay } from '../../../../core/units/civil-day.js';
import {
  figures,
  showFlow,
  showLength,
  showMass,
  showTemperature,
  showVolume,
  type UnitSystem,
} from '../../../../core/units/show.js';
import { fullDate } from '../../../charts/show-date.js';

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

/** A value in the units of whoever reads it; days become dates. */
export function valueWords({ value, unit }: Input, units: UnitSystem): string {
  if (typeof value === 'string') return LOADS[value] ?? plain(value);
  switch (unit) {
    case 'day':
      return fullDate(value as CivilDay);
    case '°C':
      return showTemperature(value, units, units === 'metric' ? 1 : 0);
    case 'L':
      return showVolume(value, units);
    case 'L/h':
      return showFlow(value, units);
    case 'm':
      return showLength(value, units);
    case 'cm':
      return showLength(value / 100, units);
    case 'kg':
      return showMass(value * 1000, units);
    case 'g':
      return showMass(value, units);
    case 'd':
      return value === 1 ? '1 day' : `${figures(value)} days`;
    case '-':
    case '':
      return figures(value);
    default:
      return `${figures(value)} ${unit}`;
  }
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
