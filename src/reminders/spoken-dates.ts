import { type CivilDay, isoDateOf } from '../core/units/civil-day.js';

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
];
const WEEKDAYS = ['Sunday', 'Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday'];

/** "Fri 9 Oct". */
export function shortDay(day: CivilDay): string {
  const { weekday, dayOfMonth, month } = partsOf(day);
  return `${weekday.slice(0, 3)} ${dayOfMonth} ${month.slice(0, 3)}`;
}

/** "9 Oct". */
export function shortDate(day: CivilDay): string {
  const { dayOfMonth, month } = partsOf(day);
  return `${dayOfMonth} ${month.slice(0, 3)}`;
}

/** "Friday 9 October". */
export function longDay(day: CivilDay): string {
  const { weekday, dayOfMonth, month } = partsOf(day);
  return `${weekday} ${dayOfMonth} ${month}`;
}

/** "9 October". */
export function dayAndMonth(day: CivilDay): string {
  const { dayOfMonth, month } = partsOf(day);
  return `${dayOfMonth} ${month}`;
}

/** "between 8 and 10", "between 8:30 and 10", or nothing when no time was told. */
export function arrivalWords(fromTime: string | null, toTime: string | null): string {
  if (fromTime === null || toTime === null) return '';
  return `between ${spokenTime(fromTime)} and ${spokenTime(toTime)}`;
}

/** Name of an ISO weekday, 1 Monday to 7 Sunday. */
export function weekdayName(isoWeekday: number): string {
  return WEEKDAYS[isoWeekday % 7] as string;
}

/** "a", "a and b", "a, b and c". */
export function listed(items: readonly string[]): string {
  if (items.length <= 1) return items[0] ?? '';
  return `${items.slice(0, -1).join(', ')} and ${items.at(-1)}`;
}

function spokenTime(hhMm: string): string {
  const [hour, minute] = hhMm.split(':');
  return minute === '00' ? String(Number(hour)) : `${Number(hour)}:${minute}`;
}

function partsOf(day: CivilDay): { weekday: string; dayOfMonth: number; month: string } {
  const [, month, dayOfMonth] = isoDateOf(day).split('-').map(Number) as [number, number, number];
  // 1 January 1970, day 0, was a Thursday.
  return { weekday: WEEKDAYS[(((day + 4) % 7) + 7) % 7] as string, dayOfMonth, month: MONTHS[month - 1] as string };
}
