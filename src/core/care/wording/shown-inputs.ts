import { type CivilDay, isoDateOf } from '../../units/civil-day.js';
import {
  figures,
  showFlow,
  showLength,
  showMass,
  showTemperature,
  showVolume,
  type UnitSystem,
} from '../../units/show.js';
import type { Reason } from '../care-plan.js';
import type { ReadingQuantity } from '../care-rule.js';
import { filled, type Wording } from './wording.js';

/** The inputs of a reason or a finding as text by name, in the reader's units. */
export function shownInputs(
  inputs: Reason['inputs'],
  units: UnitSystem,
  wording: Wording,
): Readonly<Record<string, string>> {
  return Object.fromEntries(inputs.map((input) => [input.name, shownInput(input, units, wording)]));
}

/** One input of a reason as text: a temperature with a decimal where °C has one, a day as a date. */
export function shownInput(
  { name, value, unit }: Reason['inputs'][number],
  units: UnitSystem,
  wording: Wording,
): string {
  if (name === 'quantity') return wording.readings[value as ReadingQuantity] ?? String(value);
  if (typeof value === 'string') return value;
  switch (unit) {
    case 'day':
      return dayWords(value as CivilDay, wording);
    case '°C':
      return showTemperature(value, units, units === 'metric' && !Number.isInteger(value) ? 1 : 0);
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
    case '1/h':
      return figures(value);
    case 'kg/m3':
      return `${figures(value)} kg/m³`;
    default:
      return `${figures(value)} ${unit.replace('g N/day', 'g of nitrogen a day').replace('g O2/h', 'g an hour')}`.trim();
  }
}

/** A day as people write it, e.g. `9 Oct 2026`. */
export function dayWords(day: CivilDay, wording: Wording): string {
  const [year, month, dayOfMonth] = isoDateOf(day).split('-');
  return filled(wording.date, {
    day: String(Number(dayOfMonth)),
    month: wording.months[Number(month) - 1],
    year,
  });
}
