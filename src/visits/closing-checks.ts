import type { ReadingQuantity } from '../core/care/care-rule.js';
import { InvalidValueError, requireWithin } from '../core/errors.js';
import { civilDay } from '../core/units/civil-day.js';
import { ACTUAL_RANGES } from '../core/visits/task-actuals.js';
import { plausibleRange } from '../core/water/reading-verdict.js';
import { instantFrom, instantText } from '../platform/clock.js';
import type { CloseVisit, TaskOutcome } from './closing-record.js';

const UUID = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/;
const OUTCOMES: readonly TaskOutcome[] = ['done', 'partly', 'not-done'];
const LONGEST_NOTE = 10_000;
const LONGEST_REMARK = 2_000;
const MOST_TASKS = 60;
const MOST_READINGS = 60;
const MOST_PARTS = 60;
const MOST_FOLLOW_UPS = 20;
const LONGEST_LINE = 200;
const LONGEST_NUMBER = 80;
const LONGEST_UNIT = 20;
const MOST_OF_A_PART = 100_000;
/** A tonne of salt for a large pond. [g] */
const MOST_OF_A_DOSE_G = 1_000_000;

/**
 * Refuses what cannot be kept as it is; the sender mends it and sends it again.
 * @throws InvalidValueError, OutOfRangeError
 */
export function requireUsableClosing(closing: CloseVisit): void {
  requireUuid('closingId', closing.closingId);
  requireInstant('closedAt', closing.closedAt);
  requireLength('note', closing.note, LONGEST_NOTE);
  requireWithin('number of tasks', closing.tasks.length, { min: 0, max: MOST_TASKS });
  requireWithin('number of readings', closing.readings.length, { min: 0, max: MOST_READINGS });
  closing.tasks.forEach((task, i) => {
    const field = `tasks/${i}`;
    if (!OUTCOMES.includes(task.outcome)) {
      throw new InvalidValueError(`${field}/outcome`, task.outcome, `Say one of: ${OUTCOMES.join(', ')}.`);
    }
    if (task.outcome === 'partly') requireShare(`${field}/doneShare`, task.doneShare);
    requireLength(`${field}/remark`, task.remark, LONGEST_REMARK);
    for (const [name, value] of Object.entries(task.actuals)) {
      if (!Object.hasOwn(ACTUAL_RANGES, name)) {
        const known = Object.keys(ACTUAL_RANGES).join(', ');
        throw new InvalidValueError(`${field}/actuals/${name}`, value, `Known actual figures are ${known}.`);
      }
      requireWithin(`${field}/actuals/${name}`, value, ACTUAL_RANGES[name as keyof typeof ACTUAL_RANGES]);
    }
  });
  requireUsableLeavings(closing);
  closing.readings.forEach((reading, i) => {
    requireUuid(`readings/${i}/id`, reading.id);
    requireInstant(`readings/${i}/takenAt`, reading.takenAt);
    requireWithin(`readings/${i}/${reading.quantity}`, reading.value, rangeOf(reading.quantity, i));
  });
  requireOnce(
    'readings',
    closing.readings.map((reading) => reading.id),
  );
  requireOnce(
    'tasks',
    closing.tasks.map((task) => task.careTaskId),
  );
}

/** Parts, follow-ups, doses, serials and times on site: all of them may be missing, as older phones leave them out. */
function requireUsableLeavings(closing: CloseVisit): void {
  const { parts = [], followUps = [], arrivedAt, leftAt, plannedOn } = closing;
  requireWithin('number of parts', parts.length, { min: 0, max: MOST_PARTS });
  requireWithin('number of follow-ups', followUps.length, { min: 0, max: MOST_FOLLOW_UPS });
  parts.forEach((part, i) => {
    requireUuid(`parts/${i}/id`, part.id);
    requireText(`parts/${i}/name`, part.name, LONGEST_LINE);
    requireText(`parts/${i}/unit`, part.unit, LONGEST_UNIT);
    requireLength(`parts/${i}/lot`, part.lot, LONGEST_NUMBER);
    requireAmount(`parts/${i}/amount`, part.amount, MOST_OF_A_PART);
  });
  followUps.forEach((followUp, i) => {
    requireUuid(`followUps/${i}/id`, followUp.id);
    requireText(`followUps/${i}/what`, followUp.what, LONGEST_REMARK);
    if (followUp.untilOn !== null) civilDay(followUp.untilOn);
  });
  closing.tasks.forEach(({ doses = [], serials = [] }, i) => {
    doses.forEach((dose, j) => {
      requireText(`tasks/${i}/doses/${j}/product`, dose.product, LONGEST_LINE);
      requireLength(`tasks/${i}/doses/${j}/lot`, dose.lot, LONGEST_NUMBER);
      requireAmount(`tasks/${i}/doses/${j}/amountG`, dose.amountG, MOST_OF_A_DOSE_G);
      if (dose.waterL !== null) requireWithin(`tasks/${i}/doses/${j}/waterL`, dose.waterL, ACTUAL_RANGES.changedL);
    });
    serials.forEach((one, j) => {
      requireText(`tasks/${i}/serials/${j}/serial`, one.serial, LONGEST_NUMBER);
    });
  });
  for (const [field, at] of Object.entries({ arrivedAt, leftAt })) if (at) requireInstant(field, at);
  if (plannedOn) civilDay(plannedOn);
  for (const [field, list] of Object.entries({ parts, followUps })) {
    requireOnce(
      field,
      list.map(({ id }) => id),
    );
  }
}

/** A phone's clock may be wrong by so much before it is not believed. */
const CLOCK_SLACK_MINUTES = 10;

/**
 * The claimed time where the phone's clock can be right: not after receipt, and not before the visit was planned.
 * Else the time of receipt.
 */
export function believableInstant(
  claimed: string,
  between: { notBefore: string; receivedAt: string },
): { at: string; isBelieved: boolean } {
  const at = instantText(instantFrom(claimed));
  const earliest = instantText(instantFrom(between.notBefore).minus({ minutes: CLOCK_SLACK_MINUTES }));
  const latest = instantText(instantFrom(between.receivedAt).plus({ minutes: CLOCK_SLACK_MINUTES }));
  const isBelieved = earliest <= at && at <= latest;
  return { at: isBelieved && at < between.receivedAt ? at : between.receivedAt, isBelieved };
}

function rangeOf(quantity: ReadingQuantity, index: number) {
  const range = plausibleRange(quantity);
  if (!range) throw new InvalidValueError(`readings/${index}/quantity`, quantity, 'This quantity is not kept.');
  return range;
}

function requireUuid(field: string, value: string): void {
  if (!UUID.test(value)) throw new InvalidValueError(field, value, 'Send a UUID, lower case.');
}

function requireInstant(field: string, value: string): void {
  try {
    instantFrom(value);
  } catch {
    const advice = 'Send date and time as ISO 8601, for example 2026-11-25T09:30:00Z.';
    throw new InvalidValueError(field, value, advice);
  }
}

function requireLength(field: string, text: string, longest: number): void {
  if (text.length <= longest) return;
  const advice = `It has ${text.length} characters; at most ${longest} can be kept. Shorten it.`;
  throw new InvalidValueError(field, `${text.slice(0, 40)}…`, advice);
}

function requireText(field: string, text: string, longest: number): void {
  if (text.trim() === '') throw new InvalidValueError(field, text, 'Write something here, or leave the line out.');
  requireLength(field, text, longest);
}

function requireAmount(field: string, amount: number, most: number): void {
  requireWithin(field, amount, { min: 0, max: most });
  if (amount === 0) throw new InvalidValueError(field, amount, 'Say how much, more than 0, or leave the line out.');
}

function requireShare(field: string, share: number | null): void {
  if (share === null || !(share > 0 && share < 1)) {
    throw new InvalidValueError(field, share, 'Say which share is done, more than 0 and less than 1.');
  }
}

function requireOnce(field: string, ids: readonly string[]): void {
  const twice = ids.find((id, i) => ids.indexOf(id) !== i);
  if (twice !== undefined) throw new InvalidValueError(field, twice, 'Send each once.');
}
