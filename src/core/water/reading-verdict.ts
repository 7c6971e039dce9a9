import type { ReadingQuantity } from '../care/care-rule.js';
import { type Range, requireWithin } from '../errors.js';
import { ALKALINITY_ACT_BELOW_MG_CACO3_PER_L, ALKALINITY_TOP_UP_BELOW_MG_CACO3_PER_L } from './alkalinity.js';
import { largestTotalAmmoniaMgNPerL } from './ammonia.js';
import { ACCEPTED_CHLORINE_READING_MG_PER_L } from './chlorine.js';
import { NITRATE_LIMIT_MG_N_PER_L, NITRATE_TARGET_MG_N_PER_L } from './nitrate.js';
import { oxygenSaturationMgPerL } from './oxygen.js';

export type ReadingLevel = 'in-order' | 'watch' | 'act' | 'emergency';

export interface ReadingVerdict {
  readonly level: ReadingLevel;
  /** The limit that was passed, in the unit of the reading; null when in order. */
  readonly limit: number | null;
  /** On which side of the limit the reading lies; null when in order. */
  readonly direction: 'above' | 'below' | null;
  readonly unit: string;
  /** Oxygen only, and only with a temperature: share of saturation at the elevation. */
  readonly saturationShare?: number;
}

export interface Reading {
  readonly quantity: ReadingQuantity;
  /** In the stored unit of the quantity. */
  readonly value: number;
  /** Of the same sample; with it and a pH total ammonia is judged by its un-ionised part as well. [°C] */
  readonly temperatureC?: number;
  readonly ph?: number;
  /** For the saturation of oxygen; sea level when left out. [m] */
  readonly elevationM?: number;
}

interface Limit {
  readonly level: Exclude<ReadingLevel, 'in-order'>;
  readonly direction: 'above' | 'below';
  readonly limit: number;
  /** Whether the limit itself is already passed. */
  readonly isInclusive: boolean;
}

const from = (level: Limit['level'], limit: number): Limit => ({ level, direction: 'above', limit, isInclusive: true });
const above = (level: Limit['level'], limit: number): Limit => ({ ...from(level, limit), isInclusive: false });
const below = (level: Limit['level'], limit: number): Limit => ({ ...above(level, limit), direction: 'below' });

/** Limits of un-ionised ammonia (common practice; a fifth of the lowest published carp LC50 at the top). [mg/L N] */
export const UNIONISED_AMMONIA_LIMITS_MG_N_PER_L = { watch: 0.02, act: 0.05, emergency: 0.2 } as const;

/**
 * The limits of each quantity, the gravest first. Common practice throughout.
 * Quantities without a limit of their own are recorded, not judged: hardness, salinity, and what the care rules compare
 * with limits of their own (pump flow, clarity, algae, sludge, snow, top-up).
 */
const LIMITS: Readonly<Record<ReadingQuantity, readonly Limit[]>> = {
  'water-temperature': [from('emergency', 33), from('act', 30), from('watch', 28), below('watch', 4)],
  ph: [below('act', 6.5), above('act', 9), below('watch', 7), above('watch', 8.5)],
  'unionised-ammonia': [
    from('emergency', UNIONISED_AMMONIA_LIMITS_MG_N_PER_L.emergency),
    from('act', UNIONISED_AMMONIA_LIMITS_MG_N_PER_L.act),
    from('watch', UNIONISED_AMMONIA_LIMITS_MG_N_PER_L.watch),
  ],
  'total-ammonia': [above('act', 3), above('watch', 1)],
  nitrite: [from('emergency', 1), from('act', 0.3), from('watch', 0.1)],
  nitrate: [above('act', NITRATE_LIMIT_MG_N_PER_L), above('watch', NITRATE_TARGET_MG_N_PER_L)],
  alkalinity: [
    below('act', ALKALINITY_ACT_BELOW_MG_CACO3_PER_L),
    below('watch', ALKALINITY_TOP_UP_BELOW_MG_CACO3_PER_L),
  ],
  hardness: [],
  'dissolved-oxygen': [below('emergency', 4), below('act', 5), below('watch', 6)],
  // From 0.1 mg/L chloramine begins to kill aquarium fish (patent text on chloramine; utility leaflet).
  'total-chlorine': [from('emergency', 0.1), from('act', ACCEPTED_CHLORINE_READING_MG_PER_L)],
  salinity: [],
  'pump-flow': [],
  clarity: [],
  'algae-cover': [],
  'sludge-depth': [],
  'snow-depth': [],
  'weekly-top-up': [],
};

const UNITS: Readonly<Record<ReadingQuantity, string>> = {
  'water-temperature': '°C',
  ph: '-',
  'unionised-ammonia': 'mg/L N',
  'total-ammonia': 'mg/L N',
  nitrite: 'mg/L N',
  nitrate: 'mg/L N',
  alkalinity: 'mg/L CaCO3',
  hardness: 'mg/L CaCO3',
  'dissolved-oxygen': 'mg/L',
  'total-chlorine': 'mg/L Cl2',
  salinity: 'g/L',
  'pump-flow': 'L/h',
  clarity: 'cm',
  'algae-cover': '%',
  'sludge-depth': 'mm',
  'snow-depth': 'cm',
  'weekly-top-up': 'L',
};

/** Readings a person can mean; anything else is a slip of the pen or of the unit (common practice). */
const PLAUSIBLE: Readonly<Record<ReadingQuantity, Range>> = {
  'water-temperature': { min: -1, max: 40 },
  ph: { min: 4, max: 11 },
  'unionised-ammonia': { min: 0, max: 5 },
  'total-ammonia': { min: 0, max: 20 },
  nitrite: { min: 0, max: 10 },
  nitrate: { min: 0, max: 100 },
  alkalinity: { min: 0, max: 400 },
  hardness: { min: 0, max: 1000 },
  'dissolved-oxygen': { min: 0, max: 20 },
  'total-chlorine': { min: 0, max: 10 },
  salinity: { min: 0, max: 10 },
  'pump-flow': { min: 0, max: 200_000 },
  clarity: { min: 0, max: 500 },
  'algae-cover': { min: 0, max: 100 },
  'sludge-depth': { min: 0, max: 1000 },
  'snow-depth': { min: 0, max: 300 },
  'weekly-top-up': { min: 0, max: 100_000 },
};

/** The range of values a reading is accepted in, in its stored unit. */
export function plausibleRange(quantity: ReadingQuantity): Range {
  return PLAUSIBLE[quantity];
}

/** The unit a quantity is stored and judged in, e.g. `mg/L N`. */
export function readingUnit(quantity: ReadingQuantity): string {
  return UNITS[quantity];
}

/**
 * Judges one reading of a pond with fish. An implausible value throws.
 * Total ammonia is judged by itself and, where temperature and pH came with it, by its un-ionised part; the graver
 * verdict stands, and its limit is then the largest total ammonia this water may carry.
 */
export function readingVerdict(reading: Reading): ReadingVerdict {
  const { quantity, value } = reading;
  requireWithin(`${quantity}, ${readingUnit(quantity)}`, value, plausibleRange(quantity));

  const passed = gravest(LIMITS[quantity].concat(ammoniaLimitsHere(reading)), value);
  return {
    level: passed?.level ?? 'in-order',
    limit: passed?.limit ?? null,
    direction: passed?.direction ?? null,
    unit: readingUnit(quantity),
    ...oxygenShare(reading),
  };
}

/**
 * The range in which a reading of this sample is in order; null on a side without a limit, both null for a quantity
 * that is recorded only.
 */
export function inOrderRange(sample: Omit<Reading, 'value'>): { min: number | null; max: number | null } {
  const limits = LIMITS[sample.quantity].concat(ammoniaLimitsHere({ ...sample, value: 0 }));
  const on = (side: Limit['direction']) => limits.filter((one) => one.direction === side).map((one) => one.limit);
  const [lowest, highest] = [on('below'), on('above')];
  return {
    min: lowest.length > 0 ? Math.max(...lowest) : null,
    max: highest.length > 0 ? Math.min(...highest) : null,
  };
}

const GRAVITY: Readonly<Record<ReadingLevel, number>> = { 'in-order': 0, watch: 1, act: 2, emergency: 3 };

/** The gravest limit passed; of two alike the one further from the reading, which tells how far it has gone. */
function gravest(limits: readonly Limit[], value: number): Limit | undefined {
  return limits
    .filter((limit) => isPassed(limit, value))
    .sort((a, b) => GRAVITY[b.level] - GRAVITY[a.level] || Math.abs(value - b.limit) - Math.abs(value - a.limit))[0];
}

function isPassed({ direction, limit, isInclusive }: Limit, value: number): boolean {
  if (value === limit) return isInclusive;
  return direction === 'above' ? value > limit : value < limit;
}

/** Limits of total ammonia that follow from the un-ionised part at this temperature and pH. */
function ammoniaLimitsHere({ quantity, temperatureC, ph }: Reading): readonly Limit[] {
  if (quantity !== 'total-ammonia' || temperatureC === undefined || ph === undefined) return [];
  // Water under ice may read a little below zero; the fit starts at zero.
  const sample = { temperatureC: Math.max(0, temperatureC), ph };
  const limits = UNIONISED_AMMONIA_LIMITS_MG_N_PER_L;
  return (['emergency', 'act', 'watch'] as const).map((level) =>
    from(level, largestTotalAmmoniaMgNPerL({ limitMgNPerL: limits[level], ...sample })),
  );
}

function oxygenShare({ quantity, value, temperatureC, elevationM }: Reading): { saturationShare?: number } {
  if (quantity !== 'dissolved-oxygen' || temperatureC === undefined) return {};
  const saturation = oxygenSaturationMgPerL({ temperatureC: Math.max(0, temperatureC), elevationM });
  return { saturationShare: value / saturation };
}
