import { addDays, type CivilDay, civilDay, isoDateOf, monthOf, yearOf } from '../../../core/units/civil-day.js';
import { dayOfMonth, monthName } from '../../charts/show-date.js';

/** Monday of the week a day lies in; day 0 of the calendar was a Thursday. */
export function mondayOf(day: CivilDay): CivilDay {
  return addDays(day, -((((day + 3) % 7) + 7) % 7));
}

/** The week of an address, or that of today where the address has none or nonsense. */
export function weekOf(typed: string | undefined, today: CivilDay): CivilDay {
  try {
    return mondayOf(typed === undefined ? today : civilDay(typed));
  } catch {
    return mondayOf(today);
  }
}

/** "Monday 5 to Sunday 11 October 2026", or with both months where they differ. */
export function weekWords(monday: CivilDay): string {
  const sunday = addDays(monday, 6);
  const from = monthOf(monday) === monthOf(sunday) ? '' : ` ${monthName(monthOf(monday))}`;
  const end = `${dayOfMonth(sunday)} ${monthName(monthOf(sunday))} ${yearOf(sunday)}`;
  return `Monday ${dayOfMonth(monday)}${from} to Sunday ${end}`;
}

export function daysOfWeek(monday: CivilDay): { from: string; to: string } {
  return { from: isoDateOf(monday), to: isoDateOf(addDays(monday, 6)) };
}
