import { InvalidValueError } from '../errors.js';
import { type CivilDay, dayFromParts, dayOfYear, daysInYear, monthOf, yearOf } from '../units/civil-day.js';
import type { TwelveMonths } from './station.js';

/** Days of a leap year: the length of every daily curve. */
export const CURVE_DAYS = 366;
const LEAP_DAY_INDEX = 59;
const MONTH_ENDS = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365] as const;
const YEAR_ANGLE = (2 * Math.PI) / 365;
const HARMONICS = 5;

/**
 * A smooth year of daily values whose monthly means are the twelve given ones, to about 0.02.
 * Harmonic series with five pairs fitted by least squares to the exact month means; against published daily normals of
 * New York it was 0.10 °C off, linear interpolation 0.35 (derived, climate handbook section 3).
 * @returns 366 values for the days of a leap year, 1 January first; 29 February lies midway ("day 59.5").
 */
export function dailyCurve(twelve: TwelveMonths): Float64Array {
  return harmonicCurve(harmonicFit(twelve, HARMONICS));
}

/** Coefficients of the mean-preserving series, for anyone who wants to see them. */
export interface HarmonicFit {
  readonly constant: number;
  readonly cosine: readonly number[];
  readonly sine: readonly number[];
}

/** The fit behind `dailyCurve`, with 1 to 5 harmonics. */
export function harmonicFit(twelve: TwelveMonths, harmonics: number): HarmonicFit {
  if (twelve.length !== 12 || !twelve.every(Number.isFinite)) {
    throw new InvalidValueError('monthly values', twelve, 'Give twelve finite numbers, January first.');
  }
  if (!Number.isInteger(harmonics) || harmonics < 1 || harmonics > 5) {
    throw new InvalidValueError('harmonics', harmonics, 'Give a whole number from 1 to 5.');
  }
  const solver = solverFor(harmonics);
  const unknowns = 2 * harmonics + 1;
  const solution = Array.from({ length: unknowns }, (_, row) =>
    twelve.reduce((total, value, month) => total + value * (solver[row * 12 + month] as number), 0),
  );
  return {
    constant: solution[0] as number,
    cosine: solution.slice(1, harmonics + 1),
    sine: solution.slice(harmonics + 1),
  };
}

/** The 366 days of a fit; `dailyCurve` is that of five harmonics. */
export function harmonicCurve(fit: HarmonicFit): Float64Array {
  const curve = new Float64Array(CURVE_DAYS);
  const cosine = cosineTable();
  for (let index = 0; index < CURVE_DAYS; index++) {
    const step = tableStep(index);
    let value = fit.constant;
    for (let k = 1; k <= fit.cosine.length; k++) {
      const at = (k * step) % TABLE_STEPS;
      value += (fit.cosine[k - 1] as number) * (cosine[at] as number);
      value += (fit.sine[k - 1] as number) * (cosine[(at + SINE_SHIFT) % TABLE_STEPS] as number);
    }
    curve[index] = value;
  }
  return curve;
}

/** Steps of a quarter day, so that a quarter turn is a whole number of them. */
const TABLE_STEPS = 1460;
const SINE_SHIFT = (TABLE_STEPS * 3) / 4;

/** Quarter-day step of the middle of the day at `index`. */
function tableStep(index: number): number {
  if (index < LEAP_DAY_INDEX) return 4 * index + 2;
  return index === LEAP_DAY_INDEX ? 4 * LEAP_DAY_INDEX : 4 * (index - 1) + 2;
}

let cosines: Float64Array | null = null;
function cosineTable(): Float64Array {
  cosines ??= Float64Array.from({ length: TABLE_STEPS }, (_, step) => Math.cos((2 * Math.PI * step) / TABLE_STEPS));
  return cosines;
}

/** Place of a day in a daily curve: 0 to 365; 29 February has a place of its own. */
export function curveIndex(day: CivilDay): number {
  const index = dayOfYear(day) - 1;
  return index >= LEAP_DAY_INDEX && daysInYear(yearOf(day)) === 365 ? index + 1 : index;
}

/** Civil day of a curve's place in a year; 28 February where the year has no leap day. */
export function dayAtCurveIndex(index: number, year: number): CivilDay {
  const first = dayFromParts(year, 1, 1);
  const shift = index >= LEAP_DAY_INDEX && daysInYear(year) === 365 ? 1 : 0;
  return (first + index - shift) as CivilDay;
}

/** Mean of a daily curve over one month, 1 to 12, of a year without leap day. */
export function monthMeanOf(curve: Float64Array, month: number): number {
  const first = dayFromParts(2025, month, 1);
  let total = 0;
  let days = 0;
  for (let day = first; monthOf(day) === month; day = (day + 1) as CivilDay) {
    total += curve[curveIndex(day)] as number;
    days++;
  }
  return total / days;
}

const solvers = new Map<number, Float64Array>();

/** Pseudo-inverse of the month-mean equations, (2K+1) x 12, row-major. Depends on nothing but K. */
function solverFor(harmonics: number): Float64Array {
  let solver = solvers.get(harmonics);
  if (!solver) {
    solver = pseudoInverse(monthMeanEquations(harmonics), 2 * harmonics + 1);
    solvers.set(harmonics, solver);
  }
  return solver;
}

/** Exact month means of 1, cos k and sin k: 12 x (2K+1), row-major. */
function monthMeanEquations(harmonics: number): Float64Array {
  const unknowns = 2 * harmonics + 1;
  const equations = new Float64Array(12 * unknowns);
  for (let month = 0; month < 12; month++) {
    const start = MONTH_ENDS[month] as number;
    const end = MONTH_ENDS[month + 1] as number;
    equations[month * unknowns] = 1;
    for (let k = 1; k <= harmonics; k++) {
      const w = k * YEAR_ANGLE;
      equations[month * unknowns + k] = (Math.sin(w * end) - Math.sin(w * start)) / (w * (end - start));
      equations[month * unknowns + harmonics + k] = (Math.cos(w * start) - Math.cos(w * end)) / (w * (end - start));
    }
  }
  return equations;
}

/** (A'A)^-1 A' of a 12 x n matrix of full rank, by Gauss-Jordan with partial pivoting. */
function pseudoInverse(a: Float64Array, n: number): Float64Array {
  const width = n + 12;
  const work = Array.from({ length: n }, (_, i) =>
    Float64Array.from({ length: width }, (_, j) => {
      if (j >= n) return a[(j - n) * n + i] as number;
      let total = 0;
      for (let row = 0; row < 12; row++) total += (a[row * n + i] as number) * (a[row * n + j] as number);
      return total;
    }),
  );
  for (let column = 0; column < n; column++) {
    let pivot = column;
    for (let row = column + 1; row < n; row++) {
      if (Math.abs(work[row]![column]!) > Math.abs(work[pivot]![column]!)) pivot = row;
    }
    [work[column], work[pivot]] = [work[pivot]!, work[column]!];
    const lead = work[column]![column]!;
    for (let j = column; j < width; j++) work[column]![j]! /= lead;
    for (let row = 0; row < n; row++) {
      const factor = work[row]![column]!;
      if (row === column || factor === 0) continue;
      for (let j = column; j < width; j++) work[row]![j]! -= factor * work[column]![j]!;
    }
  }
  return Float64Array.from({ length: n * 12 }, (_, i) => work[Math.floor(i / 12)]![n + (i % 12)]!);
}
