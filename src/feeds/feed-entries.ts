import { type CareTaskView, effectiveLatestOn } from '../care-calendar/index.js';
import type { Caution } from '../core/care/caution.js';
import { taskWords } from '../core/care/explain.js';
import type { UnitSystem } from '../core/units/show.js';
import { instantFrom } from '../platform/clock.js';
import type { VisitListRow } from '../visits/index.js';
import type { CalendarFeedEntity } from './calendar-feed.entity.js';
import type { CalendarEvent, CalendarToDo } from './icalendar/calendar-text.js';

type Choices = Pick<CalendarFeedEntity, 'tasksAs' | 'alarmMinutesBefore'>;
type Entry = CalendarEvent | CalendarToDo;

/** RFC 5545 section 3.8.1.9: 1 is the highest, 9 the lowest. */
const PRIORITY = { urgent: 1, care: 5, routine: 9 } as const;

/** A homeowner's task as an entry: the caution first, then how much, how and why. */
export function taskEntry(
  view: CareTaskView,
  said: { readonly units: UnitSystem; readonly cautions: ReadonlyMap<string, Caution>; readonly host: string },
  choices: Choices,
): Entry {
  const { task, rule, pondName, dueOn } = view;
  const words = taskWords({ task: task.planned, rule, audience: 'homeowner', units: said.units });
  const cautions = rule.cautions.flatMap((id) => said.cautions.get(id) ?? []);
  const paragraphs = [
    ...cautions.map(({ firstLine, lines, defersTo }) => [`Caution: ${firstLine}`, ...lines, defersTo].join(' ')),
    words.howMuch.join(' '),
    rule.steps.map((step, index) => `${index + 1}. ${step}`).join('\n'),
    words.why === '' ? '' : `Why now: ${words.why}`,
  ];
  const common = {
    uid: `task-${task.id}@${said.host}`,
    sequence: changesSince(task.createdAt, task.updatedAt),
    createdAt: task.createdAt,
    changedAt: task.updatedAt,
    summary: `${words.title}, ${pondName}`,
    description: paragraphs.filter((paragraph) => paragraph !== '').join('\n\n'),
    categories: ['Pond care'],
    alarmMinutesBefore: choices.alarmMinutesBefore,
  };
  if (choices.tasksAs === 'event') {
    const isOver = task.state === 'CANCELLED';
    return {
      kind: 'event',
      ...common,
      summary: task.state === 'COMPLETED' ? `Done: ${common.summary}` : common.summary,
      status: isOver ? 'CANCELLED' : 'CONFIRMED',
      when: { onDay: task.finishedOn && task.state === 'COMPLETED' ? task.finishedOn : dueOn },
      takesTime: false,
      alarmMinutesBefore: task.state === 'NEEDS-ACTION' ? choices.alarmMinutesBefore : null,
    };
  }
  return {
    kind: 'to-do',
    ...common,
    status: task.state,
    startOn: earlierOf(task.earliestOn, dueOn),
    dueOn: laterOf(effectiveLatestOn(task), dueOn),
    completedAt: task.finishedOn === null ? null : task.updatedAt,
    priority: PRIORITY[task.consequence],
  };
}

/** A visit as an event, in its arrival window where one was told. */
export function visitEntry(
  row: VisitListRow,
  said: { readonly audience: CalendarFeedEntity['audience']; readonly companyName: string; readonly host: string },
  choices: Choices,
): CalendarEvent {
  const { visit, pond, taskTitles, technicianName } = row;
  const works = taskTitles.filter((title) => title !== '');
  const isTheirs = said.audience === 'homeowner';
  const who = isTheirs ? said.companyName : (technicianName ?? 'nobody yet');
  const lines = [
    isTheirs ? `${said.companyName} comes to ${pond.name}.` : `Technician: ${who}.`,
    visit.fromTime === null ? 'The time of arrival is not told yet.' : 'The time shown is the window of arrival.',
    ...works.map((title) => `- ${title}`),
    visit.state === 'CANCELLED' && visit.cancelledBecause ? `Cancelled: ${visit.cancelledBecause}` : '',
  ];
  const timed = visit.fromTime !== null && visit.toTime !== null && visit.fromTime < visit.toTime;
  return {
    kind: 'event',
    uid: `visit-${visit.id}@${said.host}`,
    sequence: visit.version,
    createdAt: visit.createdAt,
    changedAt: visit.updatedAt,
    summary: isTheirs ? `Pond visit, ${pond.name}` : `${pond.name}, ${pond.town}`,
    description: lines.filter((line) => line !== '').join('\n'),
    ...(!isTheirs && { location: pond.town }),
    categories: ['Pond visit'],
    status: visit.state === 'CANCELLED' ? 'CANCELLED' : visit.state === 'TENTATIVE' ? 'TENTATIVE' : 'CONFIRMED',
    when: timed
      ? { onDay: visit.plannedOn, fromTime: visit.fromTime!, toTime: visit.toTime!, timeZone: pond.timeZone }
      : { onDay: visit.plannedOn },
    takesTime: !isTheirs && timed,
    alarmMinutesBefore: visit.state === 'COMPLETED' ? null : choices.alarmMinutesBefore,
  };
}

/** A number that goes up whenever the row was written after it was made: seconds between the two. */
function changesSince(createdAt: string, updatedAt: string): number {
  return Math.max(0, Math.floor(instantFrom(updatedAt).diff(instantFrom(createdAt), 'seconds').seconds));
}

/** ISO dates compare as text. */
function earlierOf(a: string, b: string): string {
  return a <= b ? a : b;
}

function laterOf(a: string, b: string): string {
  return a <= b ? b : a;
}
