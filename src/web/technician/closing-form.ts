import type { UnitSystem } from '../../core/units/show.js';
import type { CloseVisit } from '../../visits/index.js';
import type { FormFaults } from '../forms/form-faults.js';
import { doseFor, MOST_TIMES_PLANNED } from './chemical-dose.js';
import { fenced, powerField } from './power-fence.js';
import type { ReadingField } from './reading-fields.js';
import type { ActualField, TaskCard } from './task-card.js';
import { numberOf, typedReading } from './typed-reading.js';

/** What a form sent, by field name. */
export type Typed = Readonly<Record<string, string>>;

type TaskPart = 'done' | 'share' | 'remark' | 'serial' | ActualField['name'];
type ChemicalPart = 'volume' | 'amount' | 'lot';

/** Names of the fields of one task. */
export const taskField = (taskId: string, part: TaskPart) => `task:${taskId}:${part}`;
export const chemicalField = (taskId: string, index: number, part: ChemicalPart) => `task:${taskId}:${part}:${index}`;
export const readingFieldName = (field: Pick<ReadingField, 'quantity'>) => `reading:${field.quantity}`;

/** Where the water for a product is typed: once, when the task asks for the litres changed anyway. */
export function volumeField(card: Pick<TaskCard, 'taskId' | 'actuals'>, index: number, basisOf: string): string {
  const isAsked = basisOf === 'new-water' && card.actuals.some((field) => field.name === 'changedL');
  return isAsked ? taskField(card.taskId, 'changedL') : chemicalField(card.taskId, index, 'volume');
}

/** What a closing must know of a task; the phone carries it in the page. */
export type ClosingCard = Pick<
  TaskCard,
  'taskId' | 'title' | 'actuals' | 'chemicals' | 'needsPowerOff' | 'serialOf' | 'parts'
>;

export interface ClosingAbout {
  readonly cards: readonly ClosingCard[];
  readonly fields: readonly ReadingField[];
  /** ISO 8601, when it was closed. */
  readonly now: string;
  readonly units: UnitSystem;
  /** The day of the visit as the page had it, a civil date. */
  readonly plannedOn: string;
  /** Id of a reading, a part, a follow-up; the same thing sent twice must get the same. */
  readonly idOf: (thing: string) => string;
}

const UUID = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/;
const LONGEST_NOTE = 10_000;
const LONGEST_REMARK = 2_000;
const LONGEST_LOT = 60;
const LONGEST_LINE = 200;
const MOST_DOSE_G = 100_000;

/** A closing from what was typed, or a sentence for each field that cannot be used. Runs on the phone and here. */
export function closingFromForm(
  typed: Typed,
  about: ClosingAbout,
): { readonly closing: CloseVisit } | { readonly faults: FormFaults } {
  const faults: Record<string, string> = {};
  const closingId = typed.closingId ?? '';
  if (!UUID.test(closingId)) faults[''] = 'This page lost its number. Load it again, then close the visit.';
  requirePowerTold(typed, about.cards, faults);
  const tasks = about.cards.map((card) => taskFromForm(typed, card, about, faults));
  const readings = about.fields.flatMap((field) => {
    const reading = typedReading(field, typed[readingFieldName(field)] ?? '');
    if (reading.kind === 'wrong') faults[readingFieldName(field)] = reading.sentence;
    if (reading.kind !== 'value') return [];
    const { value } = reading;
    const takenAt = instantOf(typed[takenAtField(field)]) ?? about.now;
    return [{ id: about.idOf(`${field.quantity}\n${value}`), quantity: field.quantity, value, takenAt }];
  });
  const note = (typed.note ?? '').trim();
  if (note.length > LONGEST_NOTE) {
    faults.note = `The note has ${note.length} characters; at most ${LONGEST_NOTE} can be kept. Shorten it.`;
  }
  const parts = partsFromForm(typed, about, faults);
  const followUps = followUpsFromForm(typed, about, faults);
  const isEmpty =
    note === '' &&
    parts.length + followUps.length === 0 &&
    readings.length === 0 &&
    tasks.every((task) => task.outcome === 'not-done');
  if (isEmpty && Object.keys(faults).length === 0 && tasks.every((task) => task.remark === '')) {
    faults.note = 'Nothing is ticked, read or written. Say in a few words why, then close the visit.';
  }
  if (Object.keys(faults).length > 0) return { faults };
  const homeownerPresent = typed.homeowner === 'yes' ? true : typed.homeowner === 'no' ? false : null;
  const arrivedAt = instantOf(typed.arrivedAt);
  return {
    closing: {
      ...{ closingId, closedAt: about.now, note, homeownerPresent, tasks, readings, parts, followUps },
      // Only a phone says when somebody came; then the closing is when they left.
      ...{ arrivedAt, leftAt: arrivedAt === null ? null : about.now, plannedOn: about.plannedOn },
    },
  };
}

/** Name under which the phone notes when a reading was typed. */
export const takenAtField = (field: Pick<ReadingField, 'quantity'>) => `taken:${field.quantity}`;

/** When the phone noted something; null without a usable note. */
function instantOf(noted = ''): string | null {
  return /^\d{4}-\d\d-\d\dT/.test(noted) && !Number.isNaN(Date.parse(noted)) ? noted : null;
}

/** Work done without power is closed only with both ticks around it. */
function requirePowerTold(typed: Typed, cards: readonly ClosingCard[], faults: Record<string, string>): void {
  for (const { fence, cards: inside } of fenced(cards)) {
    if (fence === null || !inside.some((card) => isWorkedOn(typed, card))) continue;
    if (!typed[powerField(fence, 'off')]) {
      faults[powerField(fence, 'off')] = 'Was the power off and tried before hands went in? Tick it.';
    }
    if (!typed[powerField(fence, 'on')]) {
      faults[powerField(fence, 'on')] = 'Is the power on again and each device tested, or off on purpose? Tick it.';
    }
  }
}

function isWorkedOn(typed: Typed, { taskId }: ClosingCard): boolean {
  return Boolean(typed[taskField(taskId, 'done')] || typed[taskField(taskId, 'share')]);
}

function taskFromForm(
  typed: Typed,
  card: ClosingCard,
  about: ClosingAbout,
  faults: Record<string, string>,
): CloseVisit['tasks'][number] {
  const of = (part: TaskPart) => (typed[taskField(card.taskId, part)] ?? '').trim();
  const share = Number(of('share'));
  const isPartly = share > 0 && share < 1;
  const remark = of('remark');
  if (remark.length > LONGEST_REMARK) {
    faults[taskField(card.taskId, 'remark')] = `At most ${LONGEST_REMARK} characters; this has ${remark.length}.`;
  }
  const isWorked = isPartly || of('done') !== '';
  const serial = of('serial').slice(0, LONGEST_LOT);
  return {
    careTaskId: card.taskId,
    outcome: isPartly ? 'partly' : isWorked ? 'done' : 'not-done',
    doneShare: isPartly ? share : null,
    remark,
    actuals: actualsFromForm(typed, card, faults),
    doses: isWorked ? dosesFromForm(typed, card, about, faults) : [],
    serials: isWorked && serial !== '' ? [{ of: card.serialOf ?? 'other', serial }] : [],
  };
}

function actualsFromForm(typed: Typed, card: ClosingCard, faults: Record<string, string>): Record<string, number> {
  const actuals: Record<string, number> = {};
  for (const field of card.actuals) {
    const text = (typed[taskField(card.taskId, field.name)] ?? '').trim();
    if (text === '' || text === field.planned) continue;
    const value = numberOf(text) * field.perUnit;
    const { min, max } = field;
    if (value >= min && value <= max) actuals[field.name] = value;
    else {
      const range = `${min} to ${Math.round(max / field.perUnit)} ${field.unit}`;
      faults[taskField(card.taskId, field.name)] = `${field.label}: ${text} cannot be used. Write ${range}.`;
    }
  }
  return actuals;
}

type Doses = NonNullable<CloseVisit['tasks'][number]['doses']>;

/** What was put in, for which water, of which lot. Left as planned, the planned dose is what went in. */
function dosesFromForm(typed: Typed, card: ClosingCard, about: ClosingAbout, faults: Record<string, string>): Doses {
  return card.chemicals.flatMap((dose, index) => {
    const volumeName = volumeField(card, index, dose.quantity.basis.of);
    const amountName = chemicalField(card.taskId, index, 'amount');
    const lotName = chemicalField(card.taskId, index, 'lot');
    const volume = (typed[volumeName] ?? '').trim() || dose.plannedVolume;
    const waterL = numberOf(volume) * dose.perUnit;
    if (waterL === 0) return [];
    const sized = doseFor(dose, waterL, about.units);
    if (sized === null) {
      const most = `${MOST_TIMES_PLANNED} times the planned ${dose.plannedVolume} ${dose.unit}`;
      faults[volumeName] ??= `${volume} cannot be used. Write 0 for none, or at most ${most}.`;
      return [];
    }
    const typedAmount = (typed[amountName] ?? '').trim();
    const amountG = typedAmount === '' ? sized.amountG : numberOf(typedAmount);
    if (!(amountG >= 0 && amountG <= MOST_DOSE_G)) {
      faults[amountName] = `${typedAmount} cannot be used. Write grams, 0 to ${MOST_DOSE_G.toLocaleString('en-US')}.`;
      return [];
    }
    const lot = (typed[lotName] ?? '').trim();
    if (lot.length > LONGEST_LOT) faults[lotName] = `At most ${LONGEST_LOT} characters.`;
    return [{ product: dose.product, amountG, lot, waterL }];
  });
}

/** How many parts a visit's page has lines for. */
export const PART_LINES = 3;
export const partField = (line: number, part: 'name' | 'amount') => `part:${line}:${part}`;
const MOST_OF_A_PART = 1_000;

function partsFromForm(
  typed: Typed,
  about: ClosingAbout,
  faults: Record<string, string>,
): NonNullable<CloseVisit['parts']> {
  return Array.from({ length: PART_LINES }, (_, line) => line).flatMap((line) => {
    const name = (typed[partField(line, 'name')] ?? '').trim();
    if (name === '') return [];
    const amount = numberOf((typed[partField(line, 'amount')] ?? '').trim() || '1');
    if (name.length > LONGEST_LINE) faults[partField(line, 'name')] = `At most ${LONGEST_LINE} characters.`;
    if (!(amount > 0 && amount <= MOST_OF_A_PART)) {
      faults[partField(line, 'amount')] = `Write how many, more than 0 and at most ${MOST_OF_A_PART}.`;
    }
    const careTaskId = about.cards.find((card) => card.parts.includes(name))?.taskId ?? null;
    const id = about.idOf(`part\n${line}\n${name}\n${amount}`);
    return [{ id, partId: null, name, amount, unit: 'piece', careTaskId, lot: '' }];
  });
}

function followUpsFromForm(
  typed: Typed,
  about: ClosingAbout,
  faults: Record<string, string>,
): NonNullable<CloseVisit['followUps']> {
  const what = (typed.followUp ?? '').trim();
  if (what.length > LONGEST_REMARK) faults.followUp = `At most ${LONGEST_REMARK} characters; this has ${what.length}.`;
  return what === '' ? [] : [{ id: about.idOf(`follow-up\n${what}`), what, untilOn: null, careTaskId: null }];
}
