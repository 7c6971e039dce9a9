import {
  cmFromIn,
  ft2FromSquareMetres,
  ftFromM,
  inFromCm,
  metresFromFt,
  squareMetresFromFt2,
} from '../../../../core/units/length-units.js';
import { G_PER_LB } from '../../../../core/units/mass-units.js';
import type { UnitSystem } from '../../../../core/units/show.js';
import { litresFromUsGal, usGalFromL } from '../../../../core/units/volume-units.js';

/** What a field of the form measures; decides its unit and how it is stored. */
export type Measure =
  | 'length'
  | 'bore'
  | 'mass'
  | 'level'
  | 'elevation'
  | 'fish-length'
  | 'volume'
  | 'area'
  | 'flow'
  | 'percent'
  | 'years'
  | 'plain';

interface FormUnit {
  readonly label: string;
  readonly decimals: number;
  stored(shown: number): number;
  shown(stored: number): number;
}

const same = (label: string, decimals: number): FormUnit => ({ label, decimals, stored: (n) => n, shown: (n) => n });
const DAYS_PER_YEAR = 365.25;

const METRIC: Readonly<Record<Measure, FormUnit>> = {
  length: same('m', 2),
  bore: same('mm', 1),
  mass: same('kg', 2),
  level: same('mm', 0),
  elevation: same('m', 0),
  'fish-length': same('cm', 1),
  volume: same('L', 0),
  area: same('m²', 2),
  flow: same('L/h', 0),
  percent: { label: '%', decimals: 1, stored: (n) => n / 100, shown: (n) => n * 100 },
  years: { label: 'years', decimals: 1, stored: (n) => Math.round(n * DAYS_PER_YEAR), shown: (n) => n / DAYS_PER_YEAR },
  plain: same('', 4),
};

const US: Readonly<Record<Measure, FormUnit>> = {
  ...METRIC,
  length: { label: 'ft', decimals: 2, stored: metresFromFt, shown: ftFromM },
  bore: { label: 'in', decimals: 3, stored: (n) => cmFromIn(n) * 10, shown: (n) => inFromCm(n / 10) },
  level: { label: 'in', decimals: 2, stored: (n) => cmFromIn(n) * 10, shown: (n) => inFromCm(n / 10) },
  mass: { label: 'lb', decimals: 2, stored: (n) => (n * G_PER_LB) / 1000, shown: (n) => (n * 1000) / G_PER_LB },
  elevation: { label: 'ft', decimals: 0, stored: metresFromFt, shown: ftFromM },
  'fish-length': { label: 'in', decimals: 1, stored: cmFromIn, shown: inFromCm },
  volume: { label: 'gal', decimals: 0, stored: litresFromUsGal, shown: usGalFromL },
  area: { label: 'sq ft', decimals: 1, stored: squareMetresFromFt2, shown: ft2FromSquareMetres },
  flow: { label: 'gal/h', decimals: 0, stored: litresFromUsGal, shown: usGalFromL },
};

/** The unit of a measure as a company reads it. US gallons are meant, and the page says so once. */
export function formUnit(measure: Measure, units: UnitSystem): FormUnit {
  return (units === 'us' ? US : METRIC)[measure];
}

/** A stored value as it stands in its field, without a unit. */
export function shownInField(stored: number, measure: Measure, units: UnitSystem): string {
  const unit = formUnit(measure, units);
  return String(Number(unit.shown(stored).toFixed(unit.decimals)));
}

/**
 * A number as people type it: `2,310`, `1.8`, `1,8`, `2 310`. A comma before exactly three digits marks thousands,
 * any other single comma is a decimal sign. Null for an empty field, NaN for what is no number.
 */
export function readNumber(typed: string | undefined): number | null {
  const text = (typed ?? '')
    .trim()
    .replace(/[\s\u00a0\u202f']/g, '')
    .replace('−', '-');
  if (text === '') return null;
  if (/^[+-]?\d{1,3}(,\d{3})+(\.\d+)?$/.test(text)) return Number(text.replaceAll(',', ''));
  if (/^[+-]?\d*,\d+$/.test(text)) return Number(text.replace(',', '.'));
  return /^[+-]?(\d+\.?\d*|\.\d+)$/.test(text) ? Number(text) : Number.NaN;
}
