import type { Caution } from '../../core/care/caution.js';
import { type CivilDay, civilDay } from '../../core/units/civil-day.js';
import { showMinutes } from '../../core/units/show.js';
import { civilDayIn, instantFrom } from '../../platform/clock.js';
import type { ReadingEntity } from '../../ponds/index.js';
import type { VisitHistory, VisitReport } from '../../visits/index.js';
import { shortDate } from '../charts/show-date.js';
import type { FormFaults } from '../forms/form-faults.js';
import { clockWords } from './clock-words.js';
import { type ClosingCard, readingFieldName, type Typed } from './closing-form.js';
import { flagWords } from './flag-words.js';
import type { PondBeforeView } from './pond-before.js';
import { MAINS_CAUTIONS } from './power-fence.js';
import type { ReadingField } from './reading-fields.js';
import { type SaidFor, type SaidReading, type Sample, sayReading } from './reading-words.js';
import { type StopView, stopView } from './stop.view-model.js';
import type { TaskCard } from './task-card.js';
import { besideField, TREND_READINGS } from './trend-words.js';
import { shown, typedReading } from './typed-reading.js';

export interface ReadingRow {
  readonly field: ReadingField;
  readonly name: string;
  readonly typed: string;
  readonly fault: string | null;
  readonly said: SaidReading | null;
  /** E.g. "Aim: 7 to 8.5. Last 7.4 on 3 Oct." */
  readonly last: string;
}

export interface VisitPageView {
  readonly stop: StopView;
  /** "1 of 5". */
  readonly position: string;
  readonly workWords: string;
  /** Of all tasks, each once, before any step. */
  readonly cautions: readonly Caution[];
  readonly cards: readonly TaskCard[];
  readonly usual: readonly ReadingRow[];
  readonly more: readonly ReadingRow[];
  readonly about: SaidFor;
  readonly typed: Typed;
  readonly faults: FormFaults;
  readonly closingId: string;
  readonly visitId: string;
  readonly mayStart: boolean;
  readonly maySetOut: boolean;
  /** Something to know before closing, e.g. that the office has cancelled it. */
  readonly notice: string | null;
  /** Closed already: this form adds to it. */
  readonly isAddition: boolean;
  readonly before: PondBeforeView;
  /** For the script: what a closing must know. */
  readonly closing: ClosingData;
}

/** What the script of the page needs to make a closing. */
export interface ClosingData {
  readonly cards: readonly ClosingCard[];
  readonly pondName: string;
  readonly plannedOn: string;
}

export function visitPageView(page: {
  readonly report: VisitReport;
  readonly cards: readonly TaskCard[];
  readonly fields: readonly ReadingField[];
  /** Readings of this pond, oldest first. */
  readonly earlier: readonly ReadingEntity[];
  readonly before: PondBeforeView;
  readonly about: SaidFor;
  readonly today: CivilDay;
  readonly place: { readonly number: number; readonly of: number };
  readonly closingId: string;
  readonly typed?: Typed;
  readonly faults?: FormFaults;
  readonly isKept?: boolean;
}): VisitPageView {
  const { report, cards, today, place, typed = {}, faults = {}, isKept = false } = page;
  const { visit } = report;
  const rows = readingRows(page);
  return {
    stop: stopView(report, { number: place.number, today, cards, isKept }),
    position: place.of > 0 ? `${place.number} of ${place.of}` : '',
    workWords: `To do, ${showMinutes(visit.minutes)}`,
    cautions: cautionsOf(cards),
    cards,
    usual: rows.filter((row) => row.field.isUsual),
    more: rows.filter((row) => !row.field.isUsual),
    about: page.about,
    typed,
    faults,
    closingId: page.closingId,
    visitId: visit.id,
    mayStart: visit.state === 'CONFIRMED',
    maySetOut: visit.state === 'CONFIRMED' && visit.onTheWayAt === null,
    notice: noticeOf(report, today),
    isAddition: visit.state === 'COMPLETED',
    before: page.before,
    closing: {
      pondName: report.pond.pond.name,
      plannedOn: visit.plannedOn,
      cards: cards.map(({ taskId, title, actuals, chemicals, needsPowerOff, serialOf, parts }) => {
        return { taskId, title, actuals, chemicals, needsPowerOff, serialOf, parts };
      }),
    },
  };
}

/** Each once; what is about mains power comes first, because hands go into the water. */
function cautionsOf(cards: readonly TaskCard[]): Caution[] {
  const each = [...new Map(cards.flatMap((card) => card.cautions).map((caution) => [caution.id, caution])).values()];
  const isMains = ({ id }: Caution) => MAINS_CAUTIONS.includes(id);
  return [...each.filter(isMains), ...each.filter((caution) => !isMains(caution))];
}

function readingRows(page: Parameters<typeof visitPageView>[0]): ReadingRow[] {
  const { fields, typed = {}, faults = {}, about, earlier } = page;
  const sample = sampleOf(fields, typed);
  const { timeZone } = page.report.pond.pond;
  return fields.map((field) => {
    const name = readingFieldName(field);
    const text = typed[name] ?? '';
    const reading = typedReading(field, text);
    const of = earlier.filter((one) => one.quantity === field.quantity).slice(-TREND_READINGS);
    return {
      field,
      name,
      typed: text,
      fault: faults[name] ?? null,
      said: reading.kind === 'value' ? sayReading(field, reading.value, sample, about) : null,
      last: besideField(
        field,
        of.map(({ value, takenAt }) => ({ value, on: shortDate(civilDayIn(instantFrom(takenAt), timeZone)) })),
        sample,
      ),
    };
  });
}

/** Temperature and pH among what was typed. */
export function sampleOf(fields: readonly ReadingField[], typed: Typed): Sample {
  const typedValue = (quantity: 'water-temperature' | 'ph') => {
    const field = fields.find((one) => one.quantity === quantity);
    const reading = field && typedReading(field, typed[readingFieldName(field)] ?? '');
    return reading?.kind === 'value' ? reading.value : undefined;
  };
  const temperatureC = typedValue('water-temperature');
  const ph = typedValue('ph');
  return { ...(temperatureC !== undefined && { temperatureC }), ...(ph !== undefined && { ph }) };
}

function noticeOf({ visit }: VisitReport, today: CivilDay): string | null {
  if (visit.state === 'CANCELLED') {
    return `The office has cancelled this visit: ${visit.cancelledBecause ?? ''} Were you there all the same? Close it: it is kept, and the office sees it.`;
  }
  if (visit.state === 'TENTATIVE') return 'This visit is not published yet. The homeowner has not been told.';
  if (visit.state === 'COMPLETED') return 'This visit is closed. What you add here is kept beside the first closing.';
  const day = civilDay(visit.plannedOn);
  if (day > today) return `This visit is on ${shortDate(day)}, not today.`;
  return null;
}

export interface ClosedView {
  readonly stop: StopView;
  readonly position: string;
  /** "Sent and kept at 9:05." */
  readonly sent: string;
  readonly remarks: readonly string[];
  readonly tasks: readonly { readonly title: string; readonly outcome: string; readonly remark: string }[];
  readonly readings: readonly { readonly label: string; readonly shown: string; readonly said: SaidReading | null }[];
  readonly notes: readonly { readonly by: string; readonly note: string }[];
  readonly addHref: string;
}

const OUTCOME_WORDS = { done: 'done', partly: 'partly done', 'not-done': 'not done, still due' } as const;

export { flagWords };

/** A closed visit, as the person who closed it sees it. */
export function closedView(page: {
  readonly history: VisitHistory;
  readonly cards: readonly TaskCard[];
  readonly fields: readonly ReadingField[];
  readonly about: SaidFor;
  readonly today: CivilDay;
  readonly place: { readonly number: number; readonly of: number };
}): ClosedView {
  const { history, cards, fields, about, place } = page;
  const { visit, pond } = history;
  const current = history.closings.filter((closing) => closing.reopenedAt === null);
  const last = current.at(-1);
  const receivedAt = last ? instantFrom(last.receivedAt).setZone(pond.pond.timeZone).toFormat('HH:mm') : '';
  const sample = sampleOfReadings(history.readings);
  return {
    stop: stopView(history, { number: place.number, today: page.today, cards }),
    position: place.of > 0 ? `${place.number} of ${place.of}` : '',
    sent: `Sent and kept at ${clockWords(receivedAt)}.`,
    remarks: [...new Set(current.flatMap((closing) => closing.record.flags ?? []))].map(flagWords),
    tasks: history.tasks.map(({ onVisit }) => ({
      title: cards.find((card) => card.taskId === onVisit.careTaskId)?.title ?? '',
      outcome: onVisit.outcome === null ? 'not said' : outcomeWords(onVisit),
      remark: onVisit.remark,
    })),
    readings: history.readings.flatMap((reading) => {
      const field = fields.find((one) => one.quantity === reading.quantity);
      if (!field) return [];
      const unit = field.unit && ` ${field.unit}`;
      const said = sayReading(field, reading.value, sample, about);
      return [{ label: field.label, shown: `${shown(field, reading.value)}${unit}`, said }];
    }),
    notes: current.flatMap(({ record, closedByName }) =>
      record.note === '' ? [] : [{ by: closedByName, note: record.note }],
    ),
    addHref: `/my-round/visits/${visit.id}?add=1`,
  };
}

export function outcomeWords(task: { outcome: keyof typeof OUTCOME_WORDS | null; doneShare: number | null }): string {
  if (task.outcome === null) return 'open';
  if (task.outcome === 'partly' && task.doneShare !== null)
    return `${Math.round(task.doneShare * 100)} % done, the rest is still due`;
  return OUTCOME_WORDS[task.outcome];
}

export function sampleOfReadings(readings: readonly ReadingEntity[]): Sample {
  const last = (quantity: string) => readings.filter((reading) => reading.quantity === quantity).at(-1)?.value;
  const temperatureC = last('water-temperature');
  const ph = last('ph');
  return { ...(temperatureC !== undefined && { temperatureC }), ...(ph !== undefined && { ph }) };
}
