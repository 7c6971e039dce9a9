import { type CareTaskView, effectiveLatestOn } from '../../care-calendar/index.js';
import { civilDay, isoDateOf } from '../../core/units/civil-day.js';
import type { UnitSystem } from '../../core/units/show.js';
import { type AskedTask, type CareWords, longDay, type MailCaution, type TaskAnswers } from '../../reminders/index.js';

/** A task as it is put to a homeowner on a page. */
export interface TaskOnPage {
  readonly id: string;
  readonly title: string;
  readonly when: string;
  readonly amounts: readonly string[];
  readonly cautions: readonly MailCaution[];
  readonly steps: readonly string[];
  readonly why: string;
  readonly wouldChangeIf: string;
}

export interface TaskLinkModel {
  readonly crumb: string;
  readonly isDemo: boolean;
  readonly task: TaskOnPage;
  /** What has become of it, in one sentence; null while it waits. */
  readonly finished: string | null;
  readonly mayUndo: boolean;
  /** "We ask again on Friday 9 October." */
  readonly putOff: string | null;
  /** Days to ask again, for "not now". */
  readonly laterDays: readonly { readonly value: string; readonly label: string }[];
  readonly cannotWait: string | null;
}

export function taskOnPage(words: CareWords, view: CareTaskView, units: UnitSystem): TaskOnPage {
  const { taskId, ...spoken } = words.spoken(view, units);
  return { id: taskId, ...spoken };
}

export function taskLinkModel(asked: AskedTask, words: CareWords, answers: TaskAnswers): TaskLinkModel {
  const { view, pond, homeowner, today } = asked;
  const { task } = view;
  const days = answers.laterDays(asked);
  const latest = civilDay(effectiveLatestOn(task));
  const waits = task.putOffUntil !== null && civilDay(task.putOffUntil) > today;
  return {
    crumb: `${homeowner.company.name}, ${pond.name}`,
    isDemo: homeowner.company.isDemo,
    task: taskOnPage(words, view, homeowner.units),
    finished: finishedWords(asked),
    mayUndo: answers.mayUndo(asked),
    putOff: waits ? `We ask again on ${longDay(civilDay(task.putOffUntil as string))}.` : null,
    laterDays: days.map((day) => ({
      value: isoDateOf(day),
      label: day === latest ? `${longDay(day)}, the last day` : longDay(day),
    })),
    cannotWait: days.length > 0 ? null : cannotWaitWords(task.consequence === 'urgent', longDay(latest)),
  };
}

function finishedWords({ view: { task }, homeowner }: AskedTask): string | null {
  if (task.state === 'NEEDS-ACTION') return null;
  const day = task.finishedOn === null ? '' : ` on ${longDay(civilDay(task.finishedOn))}`;
  if (task.state === 'CANCELLED') return `This is no longer needed: it was taken out of the calendar${day}.`;
  return task.finishedBy === homeowner.personId ? `You marked this done${day}.` : `This was done${day}.`;
}

function cannotWaitWords(isUrgent: boolean, lastDay: string): string {
  if (isUrgent) return 'This is urgent and cannot wait. Reply to the mail or call us if you cannot do it.';
  return `This cannot wait: ${lastDay} is the last day on which it helps.`;
}
