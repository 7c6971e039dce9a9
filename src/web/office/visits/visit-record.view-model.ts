import type { Actor, Member } from '../../../accounts/index.js';
import type { CareTaskView } from '../../../care-calendar/index.js';
import { taskTitle } from '../../../core/care/explain.js';
import { type CivilDay, civilDay } from '../../../core/units/civil-day.js';
import { showMinutes } from '../../../core/units/show.js';
import { instantFrom } from '../../../platform/clock.js';
import { brokenWindows, isOpenlyFlagged, mayTake, type VisitHistory } from '../../../visits/index.js';
import { dateRange, longWeekdayDate, shortDate } from '../../charts/show-date.js';
import type { FormFaults } from '../../forms/form-faults.js';
import { clockWords, toldWords } from '../../technician/clock-words.js';
import type { ReadingField } from '../../technician/reading-fields.js';
import { type SaidFor, type SaidReading, sayReading } from '../../technician/reading-words.js';
import { stateWord } from '../../technician/stop.view-model.js';
import type { TaskCard } from '../../technician/task-card.js';
import { shown } from '../../technician/typed-reading.js';
import { flagWords, outcomeWords, sampleOfReadings } from '../../technician/visit-page.view-model.js';
import { type CorrectionForm, correctionForm } from './visit-correction.js';
import { type LeavingsModel, leavingsModel } from './visit-leavings.view-model.js';
import { peopleOptions } from './visit-plan.view-model.js';

export interface VisitRecordModel {
  readonly id: string;
  readonly version: number;
  readonly pond: { readonly id: string; readonly name: string; readonly address: string };
  readonly stateWord: string;
  readonly sentence: string;
  /** What needs a look: broken windows, flags of closings, nobody assigned. */
  readonly alerts: readonly string[];
  readonly facts: readonly { readonly term: string; readonly words: string }[];
  readonly tasks: readonly RecordTask[];
  readonly addable: readonly { readonly value: string; readonly label: string }[];
  readonly readings: readonly { readonly label: string; readonly shown: string; readonly said: SaidReading | null }[];
  readonly closings: readonly RecordClosing[];
  readonly may: Readonly<
    Record<'assign' | 'move' | 'publish' | 'cancel' | 'reopen' | 'addTask' | 'removeTask', boolean>
  >;
  readonly plannedOn: string;
  readonly fromTime: string;
  readonly toTime: string;
  readonly technicianId: string;
  readonly people: readonly { readonly value: string; readonly label: string }[];
  readonly leavings: LeavingsModel;
  /** Null unless the visit is closed. */
  readonly correction: CorrectionForm | null;
  /** Flags that nobody has looked at. */
  readonly isFlagged: boolean;
  readonly reportHref: string | null;
  /** By name of the form, then of the field. */
  readonly faults: { readonly form: string; readonly fields: FormFaults } | null;
  readonly typed: Readonly<Record<string, string>>;
}

interface RecordTask {
  readonly id: string;
  readonly title: string;
  readonly window: string;
  readonly quantities: readonly string[];
  readonly outcome: string;
  readonly remark: string;
}

interface RecordClosing {
  readonly title: string;
  readonly note: string;
  readonly lines: readonly string[];
  readonly flags: readonly string[];
  /** It was opened again: by whom, when, why. */
  readonly reopened: string | null;
}

export function visitRecordModel(record: {
  readonly history: VisitHistory;
  readonly cards: readonly TaskCard[];
  readonly addable: readonly CareTaskView[];
  readonly fields: readonly ReadingField[];
  readonly about: SaidFor;
  readonly people: readonly Member[];
  readonly actor: Actor;
  readonly today: CivilDay;
  readonly failed?: {
    readonly form: string;
    readonly fields: FormFaults;
    readonly typed: Readonly<Record<string, string>>;
  };
}): VisitRecordModel {
  const { history, today, failed } = record;
  const { visit, pond } = history;
  const typed = failed?.typed ?? {};
  return {
    id: visit.id,
    version: visit.version,
    pond: {
      id: pond.pond.id,
      name: pond.pond.name,
      address: [pond.pond.street, pond.pond.town, pond.pond.region].filter(Boolean).join(', '),
    },
    stateWord: stateWord(visit),
    sentence: sentenceOf(history),
    alerts: alertsOf(history, today),
    facts: factsOf(history, today),
    tasks: tasksOf(record),
    addable: record.addable.map(({ task, rule }) => ({
      value: task.id,
      label: `${taskTitle(task.planned, rule)}, ${dateRange(civilDay(task.earliestOn), civilDay(task.latestOn), today)}`,
    })),
    readings: readingsOf(record),
    closings: history.closings.map((closing) => closingOf(closing, history)),
    may: {
      assign: mayTake('be given to somebody', visit),
      move: mayTake('be moved', visit),
      publish: mayTake('be published', visit),
      cancel: mayTake('be cancelled', visit),
      reopen: mayTake('be reopened', visit),
      addTask: mayTake('take on a task', visit),
      removeTask: mayTake('let go of a task', visit),
    },
    plannedOn: typed.plannedOn ?? visit.plannedOn,
    fromTime: typed.fromTime ?? visit.fromTime ?? '',
    toTime: typed.toTime ?? visit.toTime ?? '',
    technicianId: typed.technicianId ?? visit.technicianId ?? '',
    people: peopleOptions(record.people),
    leavings: leavingsModel(history),
    correction: mayTake('be corrected', visit)
      ? correctionForm(history, record.fields, failed?.form === 'correction' ? typed : {})
      : null,
    isFlagged: history.closings.some(isOpenlyFlagged),
    reportHref: visit.state === 'COMPLETED' ? `/visits/${visit.id}/report.pdf` : null,
    faults: failed ? { form: failed.form, fields: failed.fields } : null,
    typed,
  };
}

function sentenceOf({ visit, technicianName }: VisitHistory): string {
  const day = longWeekdayDate(civilDay(visit.plannedOn));
  const told = toldWords(visit);
  const who = technicianName ?? 'nobody yet';
  const when = told === '' ? day : `${day}, ${told}`;
  switch (visit.state) {
    case 'TENTATIVE':
      return `Planned for ${when}, ${who}. The homeowner has not been told.`;
    case 'CONFIRMED':
      return `Confirmed for ${when}, ${who}.`;
    case 'IN-PROCESS':
      return `Under way since ${day}, ${who}. It is not closed.`;
    case 'COMPLETED':
      return `Done on ${day} by ${who}.`;
    case 'CANCELLED':
      return `Cancelled: ${visit.cancelledBecause ?? ''}`;
  }
}

function alertsOf(history: VisitHistory, today: CivilDay): string[] {
  const { visit, tasks, closings } = history;
  const isOpen = visit.state === 'TENTATIVE' || visit.state === 'CONFIRMED';
  const open = tasks.map(({ care }) => care).filter(({ task }) => task.state === 'NEEDS-ACTION');
  const broken = isOpen ? brokenWindows(open, visit.plannedOn) : [];
  const flags = closings.filter(isOpenlyFlagged).flatMap((closing) => closing.record.flags ?? []);
  return [
    ...broken.map(({ title, earliestOn, latestOn, visitIs }) => {
      const window = dateRange(civilDay(earliestOn), civilDay(latestOn), today);
      const side = visitIs === 'too-early' ? 'opens after this day' : 'closes before this day';
      return `${title}: its window, ${window}, ${side}.`;
    }),
    ...(isOpen && visit.technicianId === null ? ['Nobody has this visit yet. It cannot be published.'] : []),
    ...(isOpen && civilDay(visit.plannedOn) < today
      ? ['The day of this visit has passed. Move it, or cancel it.']
      : []),
    ...[...new Set(flags)].map(flagWords),
    ...leavingsModel(history).conflicts,
  ];
}

function factsOf({ visit, pond }: VisitHistory, today: CivilDay): { term: string; words: string }[] {
  const { timeZone } = pond.pond;
  const at = (instant: string | null) =>
    instant === null ? null : clockWords(instantFrom(instant).setZone(timeZone).toFormat('HH:mm, d LLL yyyy'));
  const due = dateRange(civilDay(visit.dueEarliestOn), civilDay(visit.dueLatestOn), today);
  const facts = [
    ['Work', showMinutes(visit.minutes)],
    ['Meets every window', due],
    ['Published', at(visit.publishedAt)],
    ['On the way', at(visit.onTheWayAt)],
    ['Arrived', at(visit.arrivedAt)],
    ['Closed', at(visit.closedAt)],
    ['From the office', visit.officeNote || null],
    ['Was cancelled', visit.state === 'COMPLETED' ? visit.cancelledBecause : null],
  ] as const;
  return facts.flatMap(([term, words]) => (words === null ? [] : [{ term, words }]));
}

function tasksOf({ history, cards, today }: Parameters<typeof visitRecordModel>[0]): RecordTask[] {
  const isDecided = history.visit.state === 'COMPLETED';
  return history.tasks.map(({ onVisit, care }) => {
    const card = cards.find((one) => one.taskId === care.task.id);
    const isGone = care.task.state !== 'NEEDS-ACTION' && onVisit.outcome === null;
    return {
      id: care.task.id,
      title: taskTitle(care.task.planned, care.rule),
      window: dateRange(civilDay(care.task.earliestOn), civilDay(care.task.latestOn), today),
      quantities: card?.quantities ?? [],
      outcome: isGone ? 'no longer due' : isDecided ? outcomeWords(onVisit) : '',
      remark: onVisit.remark,
    };
  });
}

function readingsOf({ history, fields, about }: Parameters<typeof visitRecordModel>[0]) {
  const sample = sampleOfReadings(history.readings);
  return history.readings.flatMap((reading) => {
    const field = fields.find((one) => one.quantity === reading.quantity);
    if (!field) return [];
    const unit = field.unit && ` ${field.unit}`;
    const said = sayReading(field, reading.value, sample, about);
    return [{ label: field.label, shown: `${shown(field, reading.value)}${unit}`, said }];
  });
}

function closingOf(closing: VisitHistory['closings'][number], history: VisitHistory): RecordClosing {
  const { record, closingVersion } = closing;
  const { timeZone } = history.pond.pond;
  const at = (instant: string) => {
    const local = instantFrom(instant).setZone(timeZone);
    return `${shortDate(civilDay(local.toISODate() as string))}, ${clockWords(local.toFormat('HH:mm'))}`;
  };
  const titles = new Map(history.tasks.map(({ care }) => [care.task.id, taskTitle(care.task.planned, care.rule)]));
  const present = record.homeownerPresent;
  return {
    title: `Version ${closingVersion}, by ${closing.closedByName}, ${at(closing.closedAt)}`,
    note: record.note,
    lines: [
      ...record.tasks.map((task) => {
        const title = titles.get(task.careTaskId) ?? 'A task that is not on the visit any more';
        return [`${title}: ${outcomeWords(task)}`, task.remark].filter((part) => part !== '').join('. ');
      }),
      `${record.readings.length === 0 ? 'No' : record.readings.length} ${record.readings.length === 1 ? 'reading' : 'readings'}.`,
      ...(record.editedBecause === undefined ? [] : [`Corrected by the office: ${record.editedBecause}`]),
      ...(present === null ? [] : [present ? 'The homeowner was there.' : 'The homeowner was not there.']),
    ],
    flags: (record.flags ?? []).map(flagWords),
    reopened:
      closing.reopenedAt === null
        ? null
        : `Opened again by ${closing.reopenedByName ?? 'the office'}, ${at(closing.reopenedAt)}: ${closing.reopenedBecause ?? ''}`,
  };
}
