import { type CivilDay, dayFromParts, monthOf, yearOf } from '../units/civil-day.js';

const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
] as const;

/** A date of every year in words, "14 October"; `otherwise` where there is none. */
export function dayAndMonth(day: CivilDay | null, otherwise: string): string {
  if (day === null) return otherwise;
  return `${day - dayFromParts(yearOf(day), monthOf(day), 1) + 1} ${MONTHS[monthOf(day) - 1]}`;
}

/** The twelve months as a choice of an example. */
export const MONTH_CHOICES = MONTHS.map((label, month) => ({ value: String(month + 1), label }));
