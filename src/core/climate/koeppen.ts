import { OutOfRangeError, requireWithin } from '../errors.js';
import type { TwelveMonths } from './station.js';

const SUMMER_OF_NORTH = [3, 4, 5, 6, 7, 8] as const;
const WINTER_OF_NORTH = [9, 10, 11, 0, 1, 2] as const;

/** What the class hangs on, for whoever wants to see why it is one letter and not another. */
export interface ClimateFigures {
  readonly annualMeanC: number;
  readonly annualMm: number;
  readonly coldestC: number;
  readonly warmestC: number;
  readonly monthsAbove10C: number;
  readonly driestMm: number;
  readonly summerMm: readonly number[];
  readonly winterMm: readonly number[];
  /** Pth of Peel et al.: under ten times this many millimetres a year a climate is dry. */
  readonly drynessThreshold: number;
}

/**
 * Koeppen-Geiger class of twelve monthly means, e.g. `Dfa`.
 * Peel, Finlayson & McMahon (2007), Hydrol. Earth Syst. Sci. 11, 1633-1644, table 1 (published source; the class limits
 * themselves from memory). E is tested first, then B, A, C, D. Summer is the warmer of April-September and
 * October-March, so both hemispheres work alike.
 * @param normals.meanC Monthly mean temperatures, -90 to 60. [°C]
 * @param normals.precipitationMm Monthly precipitation, 0 to 5000. [mm]
 * @param options.coldLimitC Mean of the coldest month that parts C from D: 0, on older maps -3.
 */
export function koeppenClass(
  normals: { meanC: TwelveMonths; precipitationMm: TwelveMonths },
  options: { coldLimitC?: number } = {},
): string {
  const coldLimitC = options.coldLimitC ?? 0;
  requireWithin('limit between C and D climates, °C', coldLimitC, { min: -3, max: 0 });
  const figures = koeppenFigures(normals);

  if (figures.warmestC < 10) return figures.warmestC > 0 ? 'ET' : 'EF';
  const arid = aridClass(figures);
  if (arid) return arid;
  if (figures.coldestC >= 18) return tropicalClass(figures);
  const letter = figures.coldestC > coldLimitC ? 'C' : 'D';
  return letter + seasonLetter(figures) + warmthLetter(figures, letter);
}

function aridClass(figures: ClimateFigures): string | null {
  const thresholdMm = 10 * figures.drynessThreshold;
  if (figures.annualMm >= thresholdMm) return null;
  return (figures.annualMm < thresholdMm / 2 ? 'BW' : 'BS') + (figures.annualMeanC >= 18 ? 'h' : 'k');
}

/** Pth of Peel et al. */
function drynessThreshold(figures: Omit<ClimateFigures, 'drynessThreshold'>): number {
  const { annualMeanC, annualMm, summerMm, winterMm } = figures;
  if (sum(winterMm) >= 0.7 * annualMm) return 2 * annualMeanC;
  if (sum(summerMm) >= 0.7 * annualMm) return 2 * annualMeanC + 28;
  return 2 * annualMeanC + 14;
}

function tropicalClass({ driestMm, annualMm }: ClimateFigures): string {
  if (driestMm >= 60) return 'Af';
  return driestMm >= 100 - annualMm / 25 ? 'Am' : 'Aw';
}

function seasonLetter({ summerMm, winterMm }: ClimateFigures): string {
  const drySummer = Math.min(...summerMm) < 40 && Math.min(...summerMm) < Math.max(...winterMm) / 3;
  const dryWinter = Math.min(...winterMm) < Math.max(...summerMm) / 10;
  if (drySummer && dryWinter) return sum(winterMm) > sum(summerMm) ? 's' : 'w';
  if (drySummer) return 's';
  return dryWinter ? 'w' : 'f';
}

function warmthLetter({ warmestC, coldestC, monthsAbove10C }: ClimateFigures, letter: 'C' | 'D'): string {
  if (warmestC >= 22) return 'a';
  if (monthsAbove10C >= 4) return 'b';
  return letter === 'D' && coldestC < -38 ? 'd' : 'c';
}

/** The figures behind `koeppenClass`. @throws OutOfRangeError naming the value. */
export function koeppenFigures({
  meanC,
  precipitationMm,
}: {
  meanC: TwelveMonths;
  precipitationMm: TwelveMonths;
}): ClimateFigures {
  for (const value of meanC) requireWithin('monthly mean temperature, °C', value, { min: -90, max: 60 });
  for (const value of precipitationMm) requireWithin('monthly precipitation, mm', value, { min: 0, max: 5000 });
  if (meanC.length !== 12 || precipitationMm.length !== 12) {
    throw new OutOfRangeError('number of months', Math.min(meanC.length, precipitationMm.length), { min: 12, max: 12 });
  }
  const half = (months: readonly number[], values: TwelveMonths) => months.map((month) => values[month] as number);
  const northern = sum(half(SUMMER_OF_NORTH, meanC)) >= sum(half(WINTER_OF_NORTH, meanC));
  const figures = {
    annualMeanC: sum(meanC) / 12,
    annualMm: sum(precipitationMm),
    coldestC: Math.min(...meanC),
    warmestC: Math.max(...meanC),
    monthsAbove10C: meanC.filter((value) => value >= 10).length,
    driestMm: Math.min(...precipitationMm),
    summerMm: half(northern ? SUMMER_OF_NORTH : WINTER_OF_NORTH, precipitationMm),
    winterMm: half(northern ? WINTER_OF_NORTH : SUMMER_OF_NORTH, precipitationMm),
  };
  return { ...figures, drynessThreshold: drynessThreshold(figures) };
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
