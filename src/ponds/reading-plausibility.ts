import type { ReadingQuantity } from '../core/care/care-rule.js';
import { InvalidValueError } from '../core/errors.js';
import { celsiusFromF } from '../core/units/celsius-fahrenheit.js';
import { plausibleRange } from '../core/water/reading-verdict.js';

interface Plausible {
  readonly name: string;
  readonly unit: string;
  /** What most ponds show: a slipped decimal point is offered only when it lands in here. */
  readonly usualMin: number;
  readonly usualMax: number;
}

/** Names, stored units and usual values (common practice). What is refused stands in `core/water`, for page and phone alike. */
export const PLAUSIBLE_READING: Readonly<Record<ReadingQuantity, Plausible>> = {
  'water-temperature': { name: 'water temperature', unit: '°C', usualMin: 0, usualMax: 33 },
  ph: { name: 'pH', unit: '', usualMin: 6, usualMax: 9.5 },
  'total-ammonia': { name: 'total ammonia', unit: 'mg/L as N', usualMin: 0.05, usualMax: 8 },
  nitrite: { name: 'nitrite', unit: 'mg/L as N', usualMin: 0.05, usualMax: 5 },
  nitrate: { name: 'nitrate', unit: 'mg/L as N', usualMin: 1, usualMax: 60 },
  alkalinity: { name: 'alkalinity', unit: 'mg/L CaCO3', usualMin: 20, usualMax: 350 },
  hardness: { name: 'hardness', unit: 'mg/L CaCO3', usualMin: 20, usualMax: 600 },
  'dissolved-oxygen': { name: 'dissolved oxygen', unit: 'mg/L', usualMin: 2, usualMax: 15 },
  'total-chlorine': { name: 'total chlorine', unit: 'mg/L Cl2', usualMin: 0.01, usualMax: 4 },
  salinity: { name: 'salinity', unit: 'g/L', usualMin: 0.1, usualMax: 5 },
  'pump-flow': { name: 'pump flow', unit: 'L/h', usualMin: 200, usualMax: 60_000 },
  clarity: { name: 'clarity', unit: 'cm', usualMin: 5, usualMax: 200 },
  'algae-cover': { name: 'surface under string algae', unit: '%', usualMin: 0, usualMax: 80 },
  'sludge-depth': { name: 'sludge', unit: 'mm', usualMin: 0, usualMax: 200 },
  'snow-depth': { name: 'snow on the ice', unit: 'cm', usualMin: 1, usualMax: 60 },
  'weekly-top-up': { name: 'topped up in a week', unit: 'L', usualMin: 10, usualMax: 5000 },
  'unionised-ammonia': { name: 'un-ionised ammonia', unit: 'mg/L as N', usualMin: 0.001, usualMax: 1 },
};

/**
 * Refuses a value no pond shows, and offers what was probably meant: "pH 71: allowed 4 to 11; did you mean 7.1?"
 * @throws InvalidValueError
 */
export function requirePlausible(quantity: ReadingQuantity, value: number): void {
  const sentence = implausibility(quantity, value);
  if (sentence) throw new ImplausibleReadingError(quantity, value, sentence);
}

export class ImplausibleReadingError extends InvalidValueError {
  constructor(quantity: ReadingQuantity, value: number, sentence: string) {
    super(quantity, value, sentence);
    this.message = sentence;
  }
}

/** The sentence for a value that cannot be, or null. */
export function implausibility(quantity: ReadingQuantity, value: number): string | null {
  const plausible = PLAUSIBLE_READING[quantity];
  if (!plausible) {
    const known = Object.keys(PLAUSIBLE_READING).join(', ');
    return `${String(quantity)} is not a quantity that is kept. Choose one of: ${known}.`;
  }
  const { min, max } = plausibleRange(quantity);
  if (Number.isFinite(value) && value >= min && value <= max) return null;

  const unit = plausible.unit && ` ${plausible.unit}`;
  const meant = probablyMeant(quantity, value, plausible);
  return `${plausible.name} ${value}${unit}: allowed ${min} to ${max}${unit}${meant ? `; did you mean ${meant}?` : '.'}`;
}

function probablyMeant(quantity: ReadingQuantity, value: number, plausible: Plausible): string | null {
  if (!Number.isFinite(value)) return null;
  if (quantity === 'water-temperature') {
    const fromF = Math.round(celsiusFromF(value) * 10) / 10;
    if (isUsual(fromF, plausible)) return `${fromF} °C (${value} °F)`;
  }
  const candidates = [value / 10, value / 100, value / 1000, -value];
  const fitting = candidates.find((candidate) => isUsual(candidate, plausible));
  return fitting === undefined ? null : String(Number(fitting.toPrecision(6)));
}

function isUsual(value: number, plausible: Plausible): boolean {
  return value >= plausible.usualMin && value <= plausible.usualMax;
}
