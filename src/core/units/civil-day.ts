import { InvalidValueError } from '../errors.js';

/**
 * A civil date without zone or time of day, as the number of days since 1970-01-01 in the proleptic
 * Gregorian calendar. Day differences are differences of numbers; zones and instants belong to the shell.
 */
export type CivilDay = number & { readonly __brand: 'CivilDay' };

const MS_PER_DAY = 86_400_000;
const ISO_DATE = /^(\d{4})-(\d{2})-(\d{2})$/;

/** The day of an ISO 8601 calendar date, e.g. `civilDay('2026-11-25')` is 20782. */
export function civilDay(isoDate: string): CivilDay {
  const parts = ISO_DATE.exec(isoDate);
  if (parts) {
    const day = dayFromParts(Number(parts[1]), Number(parts[2]), Number(parts[3]));
    if (isoDateOf(day) === isoDate) return day;
  }
  throw new InvalidValueError('date', isoDate, 'Write a calendar date as YYYY-MM-DD, for example 2026-11-25.');
}

/** The day of a year, month (1 to 12) and day of the month; a day past the month's end runs into the next month. */
export function dayFromParts(year: number, month: number, dayOfMonth: number): CivilDay {
  return (Date.UTC(year, month - 1, dayOfMonth) / MS_PER_DAY) as CivilDay;
}

/** ISO 8601 text of a day, e.g. `2026-11-25`. */
export function isoDateOf(day: CivilDay): string {
  return new Date(day * MS_PER_DAY).toISOString().slice(0, 10);
}

export function addDays(day: CivilDay, days: number): CivilDay {
  return (day + days) as CivilDay;
}

export function yearOf(day: CivilDay): number {
  return new Date(day * MS_PER_DAY).getUTCFullYear();
}

/** Month, 1 to 12. */
export function monthOf(day: CivilDay): number {
  return new Date(day * MS_PER_DAY).getUTCMonth() + 1;
}

/** Day of the year, 1 to 365 or 366. */
export function dayOfYear(day: CivilDay): number {
  return day - dayFromParts(yearOf(day), 1, 1) + 1;
}

export function daysInYear(year: number): number {
  return dayFromParts(year + 1, 1, 1) - dayFromParts(year, 1, 1);
}
