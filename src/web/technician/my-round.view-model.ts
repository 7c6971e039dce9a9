import { addDays, type CivilDay, civilDay } from '../../core/units/civil-day.js';
import type { VisitReport } from '../../visits/index.js';
import { longWeekdayDate, weekdayDate } from '../charts/show-date.js';
import { roundSentence } from './round-words.js';
import { type StopView, stopView } from './stop.view-model.js';
import type { TaskCard } from './task-card.js';

export interface RoundView {
  readonly title: string;
  readonly day: string;
  readonly sentence: string;
  /** Today's open stops: the first comes next and is shown large, the phone shows the others in turn. */
  readonly open: readonly StopView[];
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
  readonly isKept?: boolean;
}): RoundView {
  const { today, todayIn, reports, cardsOf } = round;
  const view = (report: VisitReport, i: number) =>
    stopView(report, {
      number: i + 1,
      today: todayIn(report.pond.pond.timeZone),
      cards: cardsOf(report),
      isKept: round.isKept ?? false,
    });
  const onDay = (day: CivilDay) => reports.filter((report) => civilDay(report.visit.plannedOn) === day);
  const stops = onDay(today).map(view);
  const open = onDay(today).filter((_, i) => stops[i]?.isOpen);
  return {
    title: longWeekdayDate(today),
    day: weekdayDate(today),
    sentence: roundSentence(
      stops.length,
      open.map((report) => report.visit.minutes),
    ),
    open: stops.filter((stop) => stop.isOpen),
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

function loadOf(stops: readonly (readonly TaskCard[])[]): string[] {
  const counts = new Map<string, number>();
  for (const cards of stops) {
    for (const part of new Set(cards.flatMap((card) => card.parts))) counts.set(part, (counts.get(part) ?? 0) + 1);
  }
  return [...counts].map(([part, count]) => (count === 1 ? part : `${part}, for ${count} visits`)).sort();
}
