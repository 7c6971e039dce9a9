import type { ReadingQuantity } from '../../core/care/care-rule.js';
import { celsiusFromF, fahrenheitFromC } from '../../core/units/celsius-fahrenheit.js';
import { mgNPerLFrom, mgPerLFromN } from '../../core/units/nitrogen-species.js';
import type { UnitSystem } from '../../core/units/show.js';
import { litresFromUsGal, usGalFromL } from '../../core/units/volume-units.js';

/** One reading as it is typed: its words, its unit, and the way to the stored unit. Shared by the page and its script. */
export interface ReadingField {
  readonly quantity: ReadingQuantity;
  readonly label: string;
  /** In a sentence, e.g. "pH 71". */
  readonly inWords: string;
  /** Fixed for the person; empty for pH. */
  readonly unit: string;
  readonly decimals: number;
  readonly toStored: (typed: number) => number;
  readonly fromStored: (stored: number) => number;
  /** On the page at once; the others are behind "More readings". */
  readonly isUsual: boolean;
}

const asTyped = (value: number): number => value;
const plain = { toStored: asTyped, fromStored: asTyped } as const;

/** The readings of a visit, in the order in which they are taken. */
export function readingFields(units: UnitSystem): readonly ReadingField[] {
  return [
    temperature(units),
    { quantity: 'ph', label: 'pH', inWords: 'pH', unit: '', decimals: 2, ...plain, isUsual: true },
    usual('total-ammonia', 'Total ammonia, as N', 'total ammonia', 'mg/L', 3),
    usual('nitrite', 'Nitrite, as N', 'nitrite', 'mg/L', 3),
    more('alkalinity', 'Alkalinity (KH)', 'alkalinity', 'mg/L CaCO₃', 0),
    nitrate(),
    more('dissolved-oxygen', 'Oxygen', 'oxygen', 'mg/L', 1),
    more('total-chlorine', 'Total chlorine', 'total chlorine', 'mg/L', 3),
    more('salinity', 'Salt', 'salt', 'g/L', 2),
    flow(units),
    more('clarity', 'Clear down to', 'clarity', 'cm', 0),
    more('algae-cover', 'Surface under string algae', 'string algae', '%', 0),
    more('sludge-depth', 'Sludge, mean of five points', 'sludge', 'mm', 0),
  ];
}

function usual(
  quantity: ReadingQuantity,
  label: string,
  inWords: string,
  unit: string,
  decimals: number,
): ReadingField {
  return { quantity, label, inWords, unit, decimals, ...plain, isUsual: true };
}

function more(quantity: ReadingQuantity, label: string, inWords: string, unit: string, decimals: number): ReadingField {
  return { ...usual(quantity, label, inWords, unit, decimals), isUsual: false };
}

function temperature(units: UnitSystem): ReadingField {
  const field = usual('water-temperature', 'Water', 'water', units === 'us' ? '°F' : '°C', 1);
  return units === 'us' ? { ...field, toStored: celsiusFromF, fromStored: fahrenheitFromC } : field;
}

/** Kits for nitrate speak of NO3; stored is "as N". */
function nitrate(): ReadingField {
  return {
    ...more('nitrate', 'Nitrate, as NO₃', 'nitrate', 'mg/L', 0),
    toStored: (mgPerL) => mgNPerLFrom({ mgPerL, basis: 'no3' }),
    fromStored: (mgNPerL) => mgPerLFromN({ mgNPerL, basis: 'no3' }),
  };
}

function flow(units: UnitSystem): ReadingField {
  const field = more('pump-flow', 'Pump flow', 'pump flow', units === 'us' ? 'gal/h' : 'L/h', 0);
  return units === 'us' ? { ...field, toStored: litresFromUsGal, fromStored: usGalFromL } : field;
}
