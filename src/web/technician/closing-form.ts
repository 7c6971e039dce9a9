import { ACTUAL_RANGES, type CloseVisit, uuidOf } from '../../visits/index.js';
import type { FormFaults } from '../forms/form-faults.js';
import type { ReadingField } from './reading-fields.js';
import type { TaskCard } from './task-card.js';
import { numberOf, typedReading } from './typed-reading.js';

/** What a form sent, by field name. */
export type Typed = Readonly<Record<string, string>>;

/** Names of the fields of one task. */
export const taskField = (taskId: string, part: 'done' | 'share' | 'remark' | 'changedL' | 'mediaShareRinsed') =>
  `task:${taskId}:${part}`;
export const readingFieldName = (field: Pick<ReadingField, 'quantity'>) => `reading:${field.quantity}`;

const UUID = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/;
const LONGEST_NOTE = 10_000;
const LONGEST_REMARK = 2_000;

/** A closing from what was typed, or a sentence for each field that cannot be used. */
export function closingFromForm(
  typed: Typed,
  about: { readonly cards: readonly TaskCard[]; readonly fields: readonly ReadingField[]; readonly now: string },
): { readonly closing: CloseVisit } | { readonly faults: FormFaults } {
  const faults: Record<string, string> = {};
  const closingId = typed.closingId ?? '';
  if (!UUID.test(closingId)) faults[''] = 'This page lost its number. Load it again, then close the visit.';
  const tasks = about.cards.map((card) => taskFromForm(typed, card, faults));
  const readings = about.fields.flatMap((field) => {
    const reading = typedReading(field, typed[readingFieldName(field)] ?? '');
    if (reading.kind === 'wrong') faults[readingFieldName(field)] = reading.sentence;
    if (reading.kind !== 'value') return [];
    const { value } = reading;
    // The same figure posted twice is one reading; another figure in the same field is another one.
    return [
      { id: uuidOf(`${closingId}\n${field.quantity}\n${value}`), quantity: field.quantity, value, takenAt: about.now },
    ];
  });
  const note = (typed.note ?? '').trim();
  if (note.length > LONGEST_NOTE) {
    faults.note = `The note has ${note.length} characters; at most ${LONGEST_NOTE} can be kept. Shorten it.`;
  }
  const isEmpty = note === '' && readings.length === 0 && tasks.every((task) => task.outcome === 'not-done');
  if (isEmpty && Object.keys(faults).length === 0 && tasks.every((task) => task.remark === '')) {
    faults.note = 'Nothing is ticked, read or written. Say in a few words why, then close the visit.';
  }
  if (Object.keys(faults).length > 0) return { faults };
  const homeownerPresent = typed.homeowner === 'yes' ? true : typed.homeowner === 'no' ? false : null;
  return { closing: { closingId, closedAt: about.now, note, homeownerPresent, tasks, readings } };
}

function taskFromForm(typed: Typed, card: TaskCard, faults: Record<string, string>): CloseVisit['tasks'][number] {
  const of = (part: Parameters<typeof taskField>[1]) => (typed[taskField(card.taskId, part)] ?? '').trim();
  const share = Number(of('share'));
  const isPartly = share > 0 && share < 1;
  const remark = of('remark');
  if (remark.length > LONGEST_REMARK) {
    faults[taskField(card.taskId, 'remark')] = `At most ${LONGEST_REMARK} characters; this has ${remark.length}.`;
  }
  const actuals: Record<string, number> = {};
  for (const field of card.actuals) {
    const text = of(field.name);
    if (text === '' || text === field.planned) continue;
    const value = numberOf(text) * field.perUnit;
    const { min, max } = ACTUAL_RANGES[field.name];
    if (value >= min && value <= max) actuals[field.name] = value;
    else {
      const range = `${min} to ${Math.round(max / field.perUnit)} ${field.unit}`;
      faults[taskField(card.taskId, field.name)] = `${field.label}: ${text} cannot be used. Write ${range}.`;
    }
  }
  return {
    careTaskId: card.taskId,
    outcome: isPartly ? 'partly' : of('done') === '' ? 'not-done' : 'done',
    doneShare: isPartly ? share : null,
    remark,
    actuals,
  };
}
