import { addDays, type CivilDay, civilDay } from '../../core/units/civil-day.js';
import { showMinutes } from '../../core/units/show.js';
import type { VisitReport } from '../../visits/index.js';
import { longWeekdayDate, weekdayDate } from '../charts/show-date.js';
import { type StopView, stopView } from './stop.view-model.js';
import type { TaskCard } from './task-card.js';

export interface RoundView {
  readonly title: string;
  readonly day: string;
  readonly sentence: string;
  /** The stop that comes next, shown large. */
  readonly next: StopView | null;
  readonly stops: readonly StopView[];
  /** Stops of earlier days that were never closed. */
  readonly leftOpen: readonly StopView[];
  readonly nextDays: readonly { readonly title: string; readonly stops: readonly StopView[] }[];
  /** Parts of today's open stops, with how many stops want each. */
  readonly load: readonly string[];
  /** What a redirect told, e.g. after a closing. */
  readonly said: string | null;
}

/** How far ahead a technician sees. */
export const ROUND_AHEAD_DAYS = 6;

export function roundView(round: {
  readonly today: CivilDay;
  readonly todayIn: (timeZone: string) => CivilDay;
  readonly reports: readonly VisitReport[];
  readonly leftOpen: readonly VisitReport[];
  readonly cardsOf: (report: VisitReport) => readonly TaskCard[];
  readonly said?: string | null;
}): RoundView {
  const { today, todayIn, reports, cardsOf } = round;
  const view = (report: VisitReport, i: number) =>
    stopView(report, { number: i + 1, today: todayIn(report.pond.pond.timeZone), cards: cardsOf(report) });
  const onDay = (day: CivilDay) => reports.filter((report) => civilDay(report.visit.plannedOn) === day);
  const stops = onDay(today).map(view);
  const open = onDay(today).filter((_, i) => stops[i]?.isOpen);
  return {
    title: longWeekdayDate(today),
    day: weekdayDate(today),
    sentence: sentenceOf(stops, open),
    next: stops.find((stop) => stop.isOpen) ?? null,
    stops,
    leftOpen: round.leftOpen.map(view),
    nextDays: daysAfter(today).flatMap((day) => {
      const ofDay = onDay(day).map(view);
      return ofDay.length > 0 ? [{ title: longWeekdayDate(day), stops: ofDay }] : [];
    }),
    load: loadOf(open.flatMap((report) => [cardsOf(report)])),
    said: round.said ?? null,
  };
}

function daysAfter(today: CivilDay): CivilDay[] {
  return Array.from({ length: ROUND_AHEAD_DAYS }, (_, i) => addDays(today, i + 1));
}

function sentenceOf(stops: readonly StopView[], open: readonly VisitReport[]): string {
  if (stops.length === 0) return 'No visit is on your round today.';
  const minutes = open.reduce((sum, report) => sum + report.visit.minutes, 0);
  const count = `${stops.length} ${stops.length === 1 ? 'visit' : 'visits'}`;
  if (open.length === 0) return `${count} today, none is left.`;
  const left = open.length === stops.length ? `${count} today` : `${open.length} of ${count} are left`;
  return `${open.length === 1 && stops.length > 1 ? `1 of ${count} is left` : left}, ${showMinutes(minutes)} of work at the ponds.`;
}

function loadOf(stops: readonly (readonly TaskCard[])[]): string[] {
  const counts = new Map<string, number>();
  for (const cards of stops) {
    for (const part of new Set(cards.flatMap((card) => card.parts))) counts.set(part, (counts.get(part) ?? 0) + 1);
  }
  return [...counts].map(([part, count]) => (count === 1 ? part : `${part}, for ${count} visits`)).sort();
}
