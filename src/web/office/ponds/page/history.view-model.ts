import type { CareTaskView, PlanLogEntity } from '../../../../care-calendar/index.js';
import type { CareRule } from '../../../../core/care/care-rule.js';
import { taskTitle } from '../../../../core/care/explain.js';
import { civilDay } from '../../../../core/units/civil-day.js';
import type { UnitSystem } from '../../../../core/units/show.js';
import { civilDayIn, instantFrom } from '../../../../platform/clock.js';
import { fullDate, shortDate } from '../../../charts/show-date.js';
import { isRecordedByHand } from '../happened/happened.view-model.js';
import { verdictWords } from '../leak-test/leak-words.js';
import type { PondPageData } from './pond-page-data.service.js';

export interface HistoryLine {
  readonly when: string;
  readonly title: string;
  readonly detail: string;
  /** Takes it back, on the day it was entered. */
  readonly undo: string | null;
}

const BECAUSE_WORDS = {
  done: 'done',
  'done-by-other-means': 'done by other means',
  'not-applicable': 'not applicable',
  superseded: 'superseded',
} as const;
const FINISHED_SHOWN = 12;
const KIND_WORDS: Readonly<Record<string, string>> = {
  added: 'put into the calendar',
  returned: 'back in the calendar',
  moved: 'moved',
  'moved-off-promise': 'moved away from the promised day',
  revised: 'figures worked out anew',
  cancelled: 'taken out',
  completed: 'marked done',
  reopened: 'taken back',
  held: 'day set by hand',
  released: 'day released',
  'put-off': 'put off',
  promised: 'promised',
};
const SINCE_WORDS: Readonly<Record<string, string>> = {
  'house-sold': 'The house was sold',
  'fish-added': 'Fish were added',
  commissioning: 'The pond was filled',
  'large-water-change': 'Much water was changed',
  'full-clean-out': 'The pond was cleaned out',
  'leak-test': 'The pond was tested for a leak',
  'power-failure': 'The pumps stood still',
  'algaecide-asked': 'An algaecide was asked for',
  'algaecide-applied': 'An algaecide was used',
};

/** What was done, latest first. */
export function historyLines(
  data: PondPageData,
  rules: ReadonlyMap<string, CareRule>,
  units: UnitSystem,
): HistoryLine[] {
  const { pond } = data.record;
  const finished = data.finished.slice(0, FINISHED_SHOWN).map((view) => finishedLine(view, data));
  const events = data.events
    .filter((event) => SINCE_WORDS[event.kind] !== undefined && !isOlderStateOfTest(event, data))
    .map((event) => ({
      on: event.happenedOn,
      line: {
        when: fullDate(civilDay(event.happenedOn)),
        title: SINCE_WORDS[event.kind] ?? event.kind,
        detail: eventDetail(event, data, units),
        undo: eventUndo(event, data),
      },
    }));
  const planned = data.log.map((row) => logLine(row, pond.timeZone, rules));
  return [...finished, ...events, ...planned]
    .sort((a, b) => (a.on < b.on ? 1 : a.on > b.on ? -1 : 0))
    .map(({ line }) => line);
}

type PondEvent = PondPageData['events'][number];

/** A leak test that was gone on with stands there once, with its last state. */
function isOlderStateOfTest({ id, kind }: PondEvent, { leakTests }: PondPageData): boolean {
  return kind === 'leak-test' && !leakTests.some(({ eventId }) => eventId === id);
}

/** What was written down by hand can be taken back on the same day. */
function eventUndo({ id, kind, createdAt }: PondEvent, { record: { pond }, today }: PondPageData): string | null {
  const isFresh = civilDayIn(instantFrom(createdAt), pond.timeZone) === today;
  return isFresh && isRecordedByHand(kind) ? `/ponds/${pond.id}/happened/${id}/taking-back` : null;
}

/** The note of a leak test is for the program; people read its verdict. */
function eventDetail({ id, kind, note }: PondEvent, { leakTests }: PondPageData, units: UnitSystem): string {
  if (kind !== 'leak-test') return note;
  const test = leakTests.find(({ eventId }) => eventId === id);
  return test ? verdictWords(test, units) : '';
}

interface Dated {
  /** ISO, date or instant; only for sorting. */
  readonly on: string;
  readonly line: HistoryLine;
}

function finishedLine({ task, rule, today }: CareTaskView, data: PondPageData): Dated {
  const on = task.finishedOn ?? '';
  const by = task.finishedBy === null ? '' : (data.names.get(task.finishedBy) ?? '');
  const because = task.finishedBecause === null ? 'finished' : BECAUSE_WORDS[task.finishedBecause];
  const enteredToday = civilDayIn(instantFrom(task.updatedAt), data.record.pond.timeZone) === civilDay(today);
  return {
    on: task.updatedAt,
    line: {
      when: on ? fullDate(civilDay(on)) : '',
      title: taskTitle(task.planned, rule),
      detail: [because, by].filter(Boolean).join(', '),
      undo: enteredToday ? `/ponds/${task.pondId}/tasks/${task.id}/reopening` : null,
    },
  };
}

function logLine(row: PlanLogEntity, timeZone: string, rules: ReadonlyMap<string, CareRule>): Dated {
  const moved =
    row.fromWindow && row.toWindow && row.fromWindow.due !== row.toWindow.due
      ? ` from ${shortDate(row.fromWindow.due)} to ${shortDate(row.toWindow.due)}`
      : '';
  return {
    on: row.loggedAt,
    line: {
      when: fullDate(civilDayIn(instantFrom(row.loggedAt), timeZone)),
      title: rules.get(row.ruleId)?.title ?? row.ruleId,
      detail: `${KIND_WORDS[row.kind] ?? row.kind}${moved}: ${row.because.replaceAll('-', ' ')}`,
      undo: null,
    },
  };
}
