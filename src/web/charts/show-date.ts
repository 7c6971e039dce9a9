import { type CivilDay, dayFromParts, monthOf, yearOf } from '../../core/units/civil-day.js';

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
const WEEKDAYS = ['Thu', 'Fri', 'Sat', 'Sun', 'Mon', 'Tue', 'Wed'] as const;
const LONG_WEEKDAYS = ['Thursday', 'Friday', 'Saturday', 'Sunday', 'Monday', 'Tuesday', 'Wednesday'] as const;

export function monthName(month: number): string {
  return MONTHS[month - 1] ?? '';
}

export function shortMonth(month: number): string {
  return monthName(month).slice(0, 3);
}

export function dayOfMonth(day: CivilDay): number {
  return day - dayFromParts(yearOf(day), monthOf(day), 1) + 1;
}

/** `9 Oct` */
export function shortDate(day: CivilDay): string {
  return `${dayOfMonth(day)} ${shortMonth(monthOf(day))}`;
}

/** `9 October` */
export function longDate(day: CivilDay): string {
  return `${dayOfMonth(day)} ${monthName(monthOf(day))}`;
}

/** `9 October 2026` */
export function fullDate(day: CivilDay): string {
  return `${longDate(day)} ${yearOf(day)}`;
}

/** `Fri 9 Oct` */
export function weekdayDate(day: CivilDay): string {
  return `${WEEKDAYS[((day % 7) + 7) % 7]} ${shortDate(day)}`;
}

/** `Friday 9 October` */
export function longWeekdayDate(day: CivilDay): string {
  return `${LONG_WEEKDAYS[((day % 7) + 7) % 7]} ${longDate(day)}`;
}

/** Dates further off than this carry their year. [days] */
const PLAIN_BACK_DAYS = 180;
const PLAIN_AHEAD_DAYS = 364;

/** `6–16 Oct`, or `21 Oct – 1 Nov`; a year stands only with a date that could be taken for that of another. */
export function dateRange(from: CivilDay, until: CivilDay, today: CivilDay): string {
  const isPlain = (day: CivilDay) => day >= today - PLAIN_BACK_DAYS && day <= today + PLAIN_AHEAD_DAYS;
  const dated = (day: CivilDay) => (isPlain(day) ? shortDate(day) : `${shortDate(day)} ${yearOf(day)}`);
  if (from === until) return dated(from);
  const isOneMonth = monthOf(from) === monthOf(until) && yearOf(from) === yearOf(until);
  if (isOneMonth && isPlain(from) === isPlain(until)) return `${dayOfMonth(from)}–${dated(until)}`;
  const isSaidOnce = yearOf(from) === yearOf(until) && !isPlain(until);
  return `${isSaidOnce ? shortDate(from) : dated(from)} – ${dated(until)}`;
}
