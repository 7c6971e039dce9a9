import { effectiveLatestOn } from '../../care-calendar/index.js';
import { taskTitle } from '../../core/care/explain.js';
import { type CivilDay, civilDay, isoDateOf } from '../../core/units/civil-day.js';
import type { UnitSystem } from '../../core/units/show.js';
import { civilDayIn, instantFrom } from '../../platform/clock.js';
import {
  type CareWords,
  DIGEST_HOURS,
  dayAndMonth,
  type Homeowner,
  inSentence,
  listed,
  longDay,
  type MailVisit,
  type SpokenReading,
  shortDay,
  spokenReadings,
  waterWords,
  weekdayName,
} from '../../reminders/index.js';
import type { YearWheelFigures } from '../charts/year-wheel.js';
import { type NumberedTask, numbered } from '../office/ponds/calendar-marks.js';
import { dailyWater, feedSpans, trendWords, yearInWords } from '../office/ponds/year.view-model.js';
import type { WhyNotLine } from '../why-not/why-not.view-model.js';
import type { MyPond } from './my-pond.reader.js';
import { type TaskOnPage, taskOnPage } from './task-link.view-model.js';

export interface MyPondModel {
  readonly crumb: string;
  readonly isDemo: boolean;
  readonly heading: string;
  readonly lead: string;
  readonly ponds: readonly PondPart[];
  readonly wishes: WishesPart;
  readonly units: UnitSystem;
}

export interface PondPart {
  readonly id: string;
  readonly name: string;
  readonly asked: readonly TaskOnPage[];
  readonly routine: readonly { readonly title: string; readonly amounts: readonly string[] }[];
  readonly nothingToDo: string | null;
  readonly wheel: YearWheelFigures | null;
  readonly yearWords: readonly string[];
  readonly comingUp: readonly NumberedTask[];
  readonly whyNot: readonly WhyNotLine[];
  readonly conflicts: readonly string[];
  readonly visits: readonly MailVisit[];
  readonly readings: readonly (SpokenReading & { readonly takenOn: string })[];
  readonly lastVisit: { readonly words: string; readonly works: string; readonly visitId: string } | null;
}

export interface WishesPart {
  readonly words: string;
  readonly weekday: string;
  readonly hour: string;
  readonly weekdays: readonly { readonly value: string; readonly label: string }[];
  readonly hours: readonly { readonly value: string; readonly label: string }[];
  /** ISO dates, or empty. */
  readonly quietFrom: string;
  readonly quietUntil: string;
  readonly isStopped: boolean;
}

const COMING_UP = 8;

export function myPondModel(
  homeowner: Homeowner,
  ponds: readonly MyPond[],
  words: CareWords,
  today: CivilDay,
): MyPondModel {
  const { company, units, name } = homeowner;
  const parts = ponds.map((pond) => pondPart(pond, units, words));
  return {
    crumb: `${company.name}, for ${name}`,
    isDemo: company.isDemo,
    heading: ponds.length === 1 ? 'My pond this week' : 'My ponds this week',
    lead: leadOf(parts, ponds, units),
    ponds: parts,
    wishes: wishesPart(homeowner, today),
    units,
  };
}

function leadOf(parts: readonly PondPart[], ponds: readonly MyPond[], units: UnitSystem): string {
  const asked = parts.flatMap((part) => part.asked);
  const what =
    asked.length === 0
      ? 'Nothing waits for you this week.'
      : asked.length === 1
        ? `One thing to do: ${inSentence(asked[0]!.title)}.`
        : `${asked.length} things to do: ${listed(asked.map(({ title }) => inSentence(title)))}.`;
  const [only] = ponds;
  const water = ponds.length === 1 && only?.outcome ? (waterWords(only.outcome.outlook, only.today, units) ?? '') : '';
  const visit = parts.flatMap((part) => part.visits)[0];
  return [what, water, visit ? `Next visit: ${visit.when}.` : ''].filter(Boolean).join(' ');
}

function pondPart(my: MyPond, units: UnitSystem, words: CareWords): PondPart {
  const { pond, today, calendar, week } = my;
  const ahead = calendar.filter(({ task }) => !task.routineLine && civilDay(effectiveLatestOn(task)) >= today);
  const marks = numbered(
    ahead.map(({ task, rule, dueOn }) => ({
      planned: task.planned,
      title: taskTitle(task.planned, rule),
      earliest: civilDay(task.heldDueOn ?? task.earliestOn),
      due: civilDay(dueOn),
      latest: civilDay(effectiveLatestOn(task)),
    })),
    today,
  );
  return {
    id: pond.id,
    name: pond.name,
    asked: week.asked.map((view) => taskOnPage(words, view, units)),
    routine: week.routine.map((view) => {
      const { title, amounts } = words.spoken(view, units);
      return { title, amounts };
    }),
    nothingToDo: week.asked.length === 0 ? nothingWords(marks) : null,
    ...yearParts(my, marks, units),
    comingUp: marks.slice(0, COMING_UP),
    whyNot: my.whyNot,
    conflicts: my.conflicts,
    visits: my.visits,
    readings: readingParts(my, units),
    lastVisit: my.lastVisit && {
      visitId: my.lastVisit.visitId,
      words: [dayAndMonth(my.lastVisit.spoken.day), my.lastVisit.spoken.technicianName].filter(Boolean).join(', '),
      works: listed(
        my.lastVisit.spoken.done.filter(({ outcome }) => outcome !== 'not done').map(({ title }) => inSentence(title)),
      ),
    },
  };
}

function nothingWords(marks: readonly NumberedTask[]): string {
  const next = marks.find(({ doneBy }) => doneBy === 'homeowner');
  return next
    ? `Next for you: ${inSentence(next.title)}, about ${shortDay(next.due)}.`
    : 'Your tasks appear here when their time comes.';
}

function yearParts(
  { pond, outcome, today, hasFish }: MyPond,
  marks: readonly NumberedTask[],
  units: UnitSystem,
): Pick<PondPart, 'wheel' | 'yearWords'> {
  if (!outcome) return { wheel: null, yearWords: [] };
  const { outlook } = outcome;
  const feed = feedSpans(outlook, today, hasFish);
  // The last of the four sentences speaks to the office about its crew.
  const yearWords = yearInWords({ outlook, today, units, feed, crew: { visits: 0, minutes: 0 } }).slice(0, -1);
  return {
    yearWords,
    wheel: {
      id: `w${pond.id.slice(-6)}`,
      pondName: pond.name,
      today,
      latitude: pond.latitude,
      units,
      water: dailyWater(outlook),
      feed,
      marks,
      readOut: 'own',
      hubWords: `and ${trendWords(outlook, today)}`,
    },
  };
}

/** Readings of one day belong together and are judged together. */
function readingParts({ readings, pond }: MyPond, units: UnitSystem): PondPart['readings'] {
  const byDay = new Map<CivilDay, MyPond['readings'][number][]>();
  for (const reading of readings) {
    const day = civilDayIn(instantFrom(reading.takenAt), pond.timeZone);
    byDay.set(day, [...(byDay.get(day) ?? []), reading]);
  }
  return [...byDay]
    .sort(([a], [b]) => b - a)
    .flatMap(([day, some]) =>
      spokenReadings(some, pond.elevationM, units).map((spoken) => ({ ...spoken, takenOn: dayAndMonth(day) })),
    );
}

function wishesPart({ wish, isStopped, quiet: wished }: Homeowner, today: CivilDay): WishesPart {
  const quiet = wished !== null && wished.until >= today ? wished : null;
  const pause = quiet === null ? '' : ` None from ${longDay(quiet.from)} to ${longDay(quiet.until)}.`;
  const hours = Array.from({ length: DIGEST_HOURS.max - DIGEST_HOURS.min + 1 }, (_, i) => DIGEST_HOURS.min + i);
  // An hour the office chose may lie outside; it stays until the homeowner chooses another.
  const all = hours.includes(wish.hour) ? hours : [wish.hour, ...hours].sort((a, b) => a - b);
  return {
    words: isStopped
      ? 'Mail is stopped.'
      : `${weekdayName(wish.weekday)}s at ${clock(wish.hour)}, one mail a week.${pause}`,
    weekday: String(wish.weekday),
    hour: String(wish.hour),
    weekdays: [1, 2, 3, 4, 5, 6, 7].map((day) => ({ value: String(day), label: weekdayName(day) })),
    hours: all.map((hour) => ({ value: String(hour), label: clock(hour) })),
    quietFrom: quiet === null ? '' : isoDateOf(quiet.from),
    quietUntil: quiet === null ? '' : isoDateOf(quiet.until),
    isStopped,
  };
}

function clock(hour: number): string {
  return `${hour}:00`;
}

/** The words of the last act, for the line on top. */
export function didWords(did: string | undefined, day: CivilDay | null): string | null {
  switch (did) {
    case 'done':
      return 'Noted as done. The calendar counts from today on.';
    case 'undone':
      return 'Taken back: it is not done yet.';
    case 'later':
      return day === null ? 'We ask again later.' : `We ask again on ${longDay(day)}.`;
    case 'temperature':
      return 'The temperature is noted. The dates follow the water.';
    case 'said':
      return 'Passed on to the office. They answer by phone or mail.';
    case 'wishes':
      return 'Your wishes are noted.';
    default:
      return null;
  }
}
