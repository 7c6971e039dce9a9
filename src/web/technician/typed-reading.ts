import { celsiusFromF, fahrenheitFromC } from '../../core/units/celsius-fahrenheit.js';
import { plausibleRange } from '../../core/water/reading-verdict.js';
import type { ReadingField } from './reading-fields.js';

/** What a typed text means: nothing, a value in the stored unit, or something that cannot be. */
export type TypedReading =
  | { readonly kind: 'none' }
  | { readonly kind: 'value'; readonly value: number }
  /** `meant`: what was probably meant, as it would be typed. */
  | { readonly kind: 'wrong'; readonly sentence: string; readonly meant: string | null };

const NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)$/;
const THOUSANDS = /^[+-]?\d{1,3}(,\d{3})+(\.\d+)?$/;
/** A slipped decimal point is offered only when it lands where most ponds are. Common practice. */
const USUAL: Readonly<Partial<Record<ReadingField['quantity'], readonly [number, number]>>> = {
  ph: [6, 9.5],
  'water-temperature': [0, 33],
};

/** Reads a typed number; a comma counts as a decimal point unless it marks thousands. NaN for what is no number. */
export function numberOf(typed: string): number {
  const text = typed.trim().replace(/\s/g, '');
  if (THOUSANDS.test(text)) return Number(text.replaceAll(',', ''));
  const withPoint = text.replace(',', '.');
  return NUMBER.test(withPoint) ? Number(withPoint) : Number.NaN;
}

/** A typed text as a reading of this field, e.g. "71" as pH is wrong: "Did you mean 7.1?". */
export function typedReading(field: ReadingField, typed: string): TypedReading {
  if (typed.trim() === '') return { kind: 'none' };
  const number = numberOf(typed);
  if (Number.isNaN(number)) {
    return { kind: 'wrong', sentence: `${field.inWords} is a number, for example ${exampleOf(field)}.`, meant: null };
  }
  const value = field.toStored(number);
  if (isPlausible(field, value)) return { kind: 'value', value };

  const { min, max } = plausibleRange(field.quantity);
  const unit = field.unit && ` ${field.unit}`;
  const allowed = `${shown(field, min)} to ${shown(field, max)}${unit}`;
  const meant = probablyMeant(field, number);
  const sentence = `${field.inWords} ${typed.trim()} cannot be: ${allowed}.`;
  if (meant === null) return { kind: 'wrong', sentence, meant };
  return { kind: 'wrong', sentence: `${sentence} Did you mean ${meant}?`, meant: meant.replace(/ .*/, '') };
}

/** A stored value as the field shows it. */
export function shown(field: ReadingField, stored: number): string {
  return String(Number(field.fromStored(stored).toFixed(field.decimals)));
}

function probablyMeant(field: ReadingField, typed: number): string | null {
  if (field.quantity === 'water-temperature') {
    const isFahrenheit = field.unit === '°F';
    const other = isFahrenheit ? fahrenheitFromC(typed) : celsiusFromF(typed);
    if (isUsual(field, field.toStored(other))) {
      return `${tenths(other)} ${field.unit} (${typed} ${isFahrenheit ? '°C' : '°F'})`;
    }
  }
  const candidates = [typed / 10, typed / 100, typed * 10, -typed].map((one) => Number(one.toPrecision(6)));
  const fitting = candidates.find((one) => isUsual(field, field.toStored(one)));
  return fitting === undefined ? null : String(fitting);
}

function isUsual(field: ReadingField, stored: number): boolean {
  const [min, max] = USUAL[field.quantity] ?? [0, plausibleRange(field.quantity).max];
  return min <= stored && stored <= max;
}

function isPlausible(field: ReadingField, stored: number): boolean {
  const { min, max } = plausibleRange(field.quantity);
  return min <= stored && stored <= max;
}

function exampleOf(field: ReadingField): string {
  const [min, max] = USUAL[field.quantity] ?? [0, plausibleRange(field.quantity).max / 10];
  return shown(field, (min + max) / 2);
}

function tenths(value: number): string {
  return String(Number(value.toFixed(1)));
}
