import type { TwelveMonths } from './station.js';

/** Twelve values by rule; month 0 is January. */
export function twelveMonths(figureOf: (month: number) => number): TwelveMonths {
  return Array.from({ length: 12 }, (_, month) => figureOf(month)) as unknown as TwelveMonths;
}

/** Value of a month, 0 to 11. */
export function ofMonth(values: TwelveMonths, month: number): number {
  return values[month] as number;
}

export function annualMean(values: TwelveMonths): number {
  return values.reduce((total: number, value) => total + value, 0) / 12;
}
