import { addDays, type CivilDay, civilDay } from '../../core/units/civil-day.js';
import { showTemperature } from '../../core/units/show.js';
import type { ReadOutData } from './read-out.js';
import { longDate, weekdayDate } from './show-date.js';

const NUMBERS_SAID = 6;

/** The first and last day that can be read, counted from today. */
export function readableDays({ today, first, p50 }: ReadOutData): { readonly from: number; readonly until: number } {
  const from = civilDay(first) - civilDay(today);
  return { from, until: from + p50.length - 1 };
}

/** `26 October`, of a day counted from today. */
export function dayWords({ today }: ReadOutData, ahead: number): string {
  return longDate(dayOf(today, ahead));
}

/** `Mon 26 Oct: 50 °F, likely 47 to 54 °F; 3 and 6 in their windows`. Empty outside the forecast. */
export function readOutWords(data: ReadOutData, ahead: number): string {
  const index = ahead - readableDays(data).from;
  const [median, low, high] = [data.p50[index], data.p10[index], data.p90[index]];
  if (median === undefined || low === undefined || high === undefined) return '';
  const now = showTemperature(median / 10, data.units);
  const likely = low === high ? '' : `, likely ${low} to ${high} ${now.split(' ')[1]}`;
  const parts = [`${weekdayDate(dayOf(data.today, ahead))}: ${now}${likely}`];
  const ice = data.ice[index] ?? 0;
  if (ice > 0) parts.push(`ice in ${ice} years of 10`);
  const open = data.marks.filter(([, from, until]) => ahead >= from && ahead <= until).map(([number]) => number);
  if (open.length > 0) parts.push(windowWords(open));
  return parts.join('; ');
}

function windowWords(numbers: readonly number[]): string {
  const [only] = numbers;
  if (numbers.length === 1) return `task ${only} in its window`;
  const said = numbers.slice(0, NUMBERS_SAID);
  const more = numbers.length - said.length;
  const list = more > 0 ? `${said.join(', ')} and ${more} more` : `${said.slice(0, -1).join(', ')} and ${said.at(-1)}`;
  return `tasks ${list} in their windows`;
}

function dayOf(today: string, ahead: number): CivilDay {
  return addDays(civilDay(today), ahead);
}
