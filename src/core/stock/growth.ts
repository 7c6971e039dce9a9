import type { Species, StockGroup } from '../care/pond-facts.js';
import { requireWithin } from '../errors.js';

/** L = Lmax (1 - e^(-k t)). */
interface LengthByAge {
  readonly finalLengthCm: number;
  readonly growthPerYear: number;
}

/**
 * Koi: common practice, set to the published marks of a koi breeder's curve (half of the final length at 2 years, 95 %
 * at 10, 99 % at 14). Goldfish: derived, through 30 cm at 4 and 37 cm at 6 years (published source: AmP collection).
 */
const CURVES: Partial<Record<Species, LengthByAge>> = {
  koi: { finalLengthCm: 75, growthPerYear: 0.3 },
  goldfish: { finalLengthCm: 48, growthPerYear: 0.245 },
};
const AGE_RANGE_YEARS = { min: 0, max: 70 } as const;

/** Greatest growth of young carp by temperature. [°C, % of body mass per day] */
const GREATEST_GROWTH: readonly (readonly [temperatureC: number, pctPerDay: number])[] = [
  [12, 0.71],
  [18, 2.31],
  [24, 3.12],
  [30, 3.32],
];

/**
 * Length of a fish at an age, well kept. [cm]
 *   L(t) = 75 (1 - e^(-0.30 t))
 * A koi of 1, 2, 3, 5 and 10 years: 19.4, 33.8, 44.5, 58.3 and 71.3. Single fish differ by a third.
 * @param fish.ageYears 0 to 70. [years]
 * @see von Bertalanffy's equation; constants common practice for koi, derived for goldfish.
 */
export function lengthAtAgeCm(fish: { species: 'koi' | 'goldfish'; ageYears: number }): number {
  requireWithin('age of the fish, years', fish.ageYears, AGE_RANGE_YEARS);
  const { finalLengthCm, growthPerYear } = CURVES[fish.species] as LengthByAge;
  return finalLengthCm * (1 - Math.exp(-growthPerYear * fish.ageYears));
}

/**
 * Length a fish will have after some years of growing. [cm]
 *   L2 = Lmax - (Lmax - L1) e^(-k t)
 * A koi of 25 cm after 3 years: 54.7 cm. One already longer than the curve's end stays as it is, as do turtles and fish
 * of other kinds, for which no curve was found.
 * @param fish.lengthCm 1 to 120. [cm]
 * @param fish.years 0 to 70; `growthYears` turns part of a year into such years. [years]
 */
export function lengthAfterCm(fish: { species: Species; lengthCm: number; years: number }): number {
  requireWithin('length, cm', fish.lengthCm, { min: 1, max: 120 });
  requireWithin('years of growth', fish.years, AGE_RANGE_YEARS);
  const curve = CURVES[fish.species];
  if (!curve || fish.lengthCm >= curve.finalLengthCm) return fish.lengthCm;
  return curve.finalLengthCm - (curve.finalLengthCm - fish.lengthCm) * Math.exp(-curve.growthPerYear * fish.years);
}

/** The same stock after some years, every group as long as it will have grown; nobody dies and nobody is born. */
export function grownStock(stock: readonly StockGroup[], years: number): readonly StockGroup[] {
  return stock.map((group) => ({ ...group, lengthCm: lengthAfterCm({ ...group, years }) }));
}

export interface GreatestGrowth {
  /** [% of body mass per day] */
  readonly pctPerDay: number;
  /** Inside 12 to 30 °C, where it was measured. Colder it follows the line to nothing at 9.3 °C; warmer it stays level. */
  readonly isMeasured: boolean;
}

/**
 * Greatest growth of young, fully fed carp at a temperature, between the measured points on a line.
 * At 24 °C 3.12 % a day. Later work puts the best water at 20 to 24 °C and finds less at 28.
 * @param water.temperatureC -1 to 45. [°C]
 * @see Goolish & Adelman (1984), Aquaculture 36, 27-35 (published source); caution after Oyugi et al. (2012).
 */
export function greatestGrowth(water: { temperatureC: number }): GreatestGrowth {
  requireWithin('water temperature, °C', water.temperatureC, { min: -1, max: 45 });
  const first = GREATEST_GROWTH[0]!;
  const last = GREATEST_GROWTH[GREATEST_GROWTH.length - 1]!;
  const { temperatureC } = water;
  if (temperatureC > last[0]) return { pctPerDay: last[1], isMeasured: false };
  const upper = Math.max(
    1,
    GREATEST_GROWTH.findIndex(([pointC]) => pointC >= temperatureC),
  );
  const [coldC, coldPct] = GREATEST_GROWTH[upper - 1]!;
  const [warmC, warmPct] = GREATEST_GROWTH[upper]!;
  const pctPerDay = coldPct + ((warmPct - coldPct) * (temperatureC - coldC)) / (warmC - coldC);
  return { pctPerDay: Math.max(0, pctPerDay), isMeasured: temperatureC >= first[0] };
}

/**
 * How much of a year's growth falls into a run of days: fish grow in warm water only. [years]
 *   sum of G(T) over the days / mean year's sum of G(T)
 * The days of the same whole year give 1, those of a winter next to nothing.
 * @param water.daysC Daily mean water of the run. [°C]
 * @param water.yearC Daily mean water of a whole year of the same pond, 365 or 366 values. [°C]
 * @returns 0 where the year itself is too cold for growth.
 * @see Derived: the yearly curve shared out by Goolish & Adelman's growth.
 */
export function growthYears(water: { daysC: readonly number[]; yearC: readonly number[] }): number {
  requireWithin('days of the year', water.yearC.length, { min: 365, max: 366 });
  const sum = (days: readonly number[]) =>
    days.reduce((total, temperatureC) => total + greatestGrowth({ temperatureC }).pctPerDay, 0);
  const ofYear = sum(water.yearC);
  return ofYear === 0 ? 0 : sum(water.daysC) / ofYear;
}
