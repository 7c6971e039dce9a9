import { taskTitle } from '../../../core/care/explain.js';
import { civilDay } from '../../../core/units/civil-day.js';
import { instantFrom } from '../../../platform/clock.js';
import type { ClosingConflict, TrailLine, VisitHistory } from '../../../visits/index.js';
import { shortDate, weekdayDate } from '../../charts/show-date.js';
import { clockWords } from '../../technician/clock-words.js';
import { outcomeWords } from '../../technician/visit-page.view-model.js';

/** What a visit left behind beside its closings: parts, follow-ups, photos, and who changed what. */
export interface LeavingsModel {
  readonly parts: readonly string[];
  readonly followUps: readonly { readonly words: string; readonly isSettled: boolean }[];
  readonly photos: readonly { readonly id: string; readonly href: string; readonly alt: string }[];
  /** Where closings say different things; the first stands until the record is corrected. */
  readonly conflicts: readonly string[];
  readonly trail: readonly { readonly when: string; readonly who: string; readonly what: string }[];
}

export function leavingsModel(history: VisitHistory): LeavingsModel {
  const { visit, photos, parts, followUps, merged, trail } = history;
  return {
    parts: parts.map(({ name, amount, unit, lot }) => {
      const ofLot = lot === '' ? '' : `, lot ${lot}`;
      return `${amount.toLocaleString('en-US')} ${unit} ${name}${ofLot}`;
    }),
    followUps: followUps.map(({ what, untilOn, settledAt }) => {
      const until = untilOn === null ? '' : `, by ${weekdayDate(civilDay(untilOn))}`;
      return { words: `${what}${until}`, isSettled: settledAt !== null };
    }),
    photos: photos.map(({ id }, i) => ({
      id,
      href: `/visits/${visit.id}/photos/${id}`,
      alt: `${i + 1} of ${photos.length}, taken on this visit`,
    })),
    conflicts: merged.conflicts.map((conflict) => conflictWords(conflict, history)),
    trail: trail.map((line) => trailLine(line, history.pond.pond.timeZone)),
  };
}

function conflictWords({ field, careTaskId, name, said }: ClosingConflict, history: VisitHistory): string {
  const care = history.tasks.find(({ onVisit }) => onVisit.careTaskId === careTaskId)?.care;
  const task = care ? `${taskTitle(care.task.planned, care.rule)}: ` : '';
  const words = said.map(({ closedBy, value }) => {
    if (field === 'homeowner-present') return `${closedBy} says ${value === true ? 'there' : 'not there'}`;
    if (field === 'done-share')
      return `${closedBy} says ${outcomeWords({ outcome: 'partly', doneShare: Number(value) })}`;
    return `${closedBy} says ${value}`;
  });
  const what =
    field === 'homeowner-present' ? 'The homeowner' : field === 'done-share' ? 'how much is done' : plain(name);
  return `${task}${what}: ${words.join('; ')}. The first stands until you correct the record.`;
}

const STEP_WORDS: Readonly<Record<TrailLine['step'], string>> = {
  planned: 'planned it',
  assigned: 'gave it to somebody',
  moved: 'moved it',
  published: 'published it',
  cancelled: 'cancelled it',
  'on-the-way': 'set out',
  started: 'arrived',
  'task-added': 'put a task on it',
  'task-taken-off': 'took a task off it',
  closed: 'closed it',
  amended: 'closed it once more',
  edited: 'corrected the record',
  reopened: 'opened it again',
  'flags-settled': 'looked at what was flagged',
  'photo-added': 'added a photo',
  'photo-removed': 'removed a photo',
};

function trailLine({ step, changedAt, changedByName, before, after, because }: TrailLine, timeZone: string) {
  const local = instantFrom(changedAt).setZone(timeZone);
  const moved = [dayWords(before), dayWords(after)];
  const from = step === 'moved' && moved[0] !== moved[1] ? ` from ${moved[0]} to ${moved[1]}` : '';
  const why = because === '' ? '' : `: ${because}`;
  return {
    when: `${shortDate(civilDay(local.toISODate() as string))}, ${clockWords(local.toFormat('HH:mm'))}`,
    who: changedByName ?? 'The program',
    what: `${STEP_WORDS[step]}${from}${why}`,
  };
}

function dayWords({ plannedOn, fromTime, toTime }: Readonly<Record<string, unknown>>): string {
  const day = typeof plannedOn === 'string' ? weekdayDate(civilDay(plannedOn)) : '';
  const times = typeof fromTime === 'string' && typeof toTime === 'string' ? `${fromTime} to ${toTime}` : '';
  return [day, times].filter(Boolean).join(', ') || 'no time';
}

function plain(name: string | null): string {
  return (name ?? '').replace(/([A-Z])/g, ' $1').toLowerCase();
}
