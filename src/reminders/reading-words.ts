import type { ReadingQuantity } from '../core/care/care-rule.js';
import { showFlow, showTemperature, type UnitSystem } from '../core/units/show.js';
import { inOrderRange, type ReadingLevel, readingVerdict } from '../core/water/reading-verdict.js';

/** A reading as a homeowner reads it. */
export interface SpokenReading {
  readonly quantity: ReadingQuantity;
  readonly name: string;
  readonly value: string;
  readonly level: ReadingLevel | 'not-judged';
  /** "in order, below 0.1 mg/L N", or what it passed: "needs action: above 0.3 mg/L N". */
  readonly meaning: string;
  /** What to do or look at, where the reading calls for it. */
  readonly advice: string | null;
}

interface Stored {
  readonly quantity: ReadingQuantity;
  /** In the stored unit. */
  readonly value: number;
}

/** With what was measured on the same occasion, ammonia and oxygen can be judged better. */
export interface SameSample {
  readonly temperatureC?: number;
  readonly ph?: number;
  readonly elevationM?: number;
}

const NAMES: Readonly<Record<ReadingQuantity, string>> = {
  'water-temperature': 'Water temperature',
  ph: 'pH (sour or alkaline)',
  'total-ammonia': 'Total ammonia',
  'unionised-ammonia': 'Un-ionised ammonia (the poisonous part)',
  nitrite: 'Nitrite',
  nitrate: 'Nitrate',
  alkalinity: 'Alkalinity (holds the pH)',
  hardness: 'Hardness',
  'dissolved-oxygen': 'Dissolved oxygen',
  'total-chlorine': 'Chlorine',
  salinity: 'Salt',
  'pump-flow': 'Pump flow',
  clarity: 'Clarity of the water',
  'algae-cover': 'Surface under string algae',
  'sludge-depth': 'Sludge',
  'snow-depth': 'Snow on the ice',
  'weekly-top-up': 'Topped up in a week',
};
const NOT_JUDGED: ReadonlySet<ReadingQuantity> = new Set([
  'hardness',
  'salinity',
  'pump-flow',
  'clarity',
  'algae-cover',
  'sludge-depth',
  'snow-depth',
  'weekly-top-up',
]);
const ADVICE: Partial<Record<ReadingQuantity, string>> = {
  'water-temperature': 'Watch the fish early in the morning, and keep the pump and the air running.',
  ph: 'Change nothing quickly: a jump of the pH harms more than a value that is a little off.',
  'total-ammonia': 'Feed less until it has come down.',
  'unionised-ammonia': 'Stop feeding until it has come down.',
  nitrite: 'Feed less until it has come down.',
  nitrate: 'The next part water change brings it down.',
  alkalinity: 'It is raised in small steps.',
  'dissolved-oxygen': 'Keep the air running day and night, and feed less.',
  'total-chlorine': 'Put nothing into the water that lives until it is gone.',
};

/** Puts a reading into words, with the sample it belongs to. */
export function spokenReading(reading: Stored, sample: SameSample, units: UnitSystem): SpokenReading {
  const { quantity, value } = reading;
  const words = { quantity, name: NAMES[quantity], value: shown(quantity, value, units) };
  if (NOT_JUDGED.has(quantity)) return { ...words, level: 'not-judged', meaning: 'noted', advice: null };

  const verdict = readingVerdict({ ...sample, ...reading });
  if (verdict.level === 'in-order' || verdict.limit === null) {
    return { ...words, level: 'in-order', meaning: inOrderWords(reading, sample, units), advice: null };
  }
  const limit = shown(quantity, verdict.limit, units);
  return {
    ...words,
    level: verdict.level,
    meaning: `${LEVEL_WORDS[verdict.level]}: ${verdict.direction} ${limit}`,
    advice: verdict.level === 'watch' ? null : (ADVICE[quantity] ?? null),
  };
}

/** "in order, below 0.1 mg/L N": never a word without its limit. */
function inOrderWords({ quantity }: Stored, sample: SameSample, units: UnitSystem): string {
  const { min, max } = inOrderRange({ quantity, ...sample });
  const [from, until] = [min, max].map((limit) => (limit === null ? null : shown(quantity, limit, units)));
  if (from && until) return `in order, between ${from} and ${until}`;
  if (until) return `in order, below ${until}`;
  return from ? `in order, above ${from}` : 'in order';
}

const LEVEL_WORDS: Readonly<Record<Exclude<ReadingLevel, 'in-order'>, string>> = {
  watch: 'watch',
  act: 'needs action',
  emergency: 'needs action now',
};

/** All readings of one occasion, each judged with the others. */
export function spokenReadings(
  readings: readonly Stored[],
  elevationM: number,
  units: UnitSystem,
): readonly SpokenReading[] {
  const last = (quantity: ReadingQuantity) => readings.findLast((one) => one.quantity === quantity)?.value;
  const sample = { temperatureC: last('water-temperature'), ph: last('ph'), elevationM };
  return readings.map((reading) => spokenReading(reading, sample, units));
}

function shown(quantity: ReadingQuantity, value: number, units: UnitSystem): string {
  if (quantity === 'water-temperature') return showTemperature(value, units);
  if (quantity === 'pump-flow') return showFlow(value, units);
  const figure = Number(value.toPrecision(3)).toString();
  return `${figure}${UNITS[quantity] ?? ''}`;
}

const UNITS: Partial<Record<ReadingQuantity, string>> = {
  'total-ammonia': ' mg/L N',
  'unionised-ammonia': ' mg/L N',
  nitrite: ' mg/L N',
  nitrate: ' mg/L N',
  alkalinity: ' mg/L CaCO3',
  hardness: ' mg/L CaCO3',
  'dissolved-oxygen': ' mg/L',
  'total-chlorine': ' mg/L Cl2',
  salinity: ' g/L',
  clarity: ' cm',
  'algae-cover': ' %',
  'sludge-depth': ' mm',
  'snow-depth': ' cm',
  'weekly-top-up': ' L',
};
