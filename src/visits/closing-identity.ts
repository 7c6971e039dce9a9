import { createHash } from 'node:crypto';
import type { CloseVisit, ClosingRecord } from './closing-record.js';

/**
 * What makes two closings the same: everything a person typed. Times are left out, because a form without script gets
 * them when it is posted, and a form posted twice is one closing.
 */
export function closingText(record: Omit<ClosingRecord, 'flags'>): string {
  return JSON.stringify([
    record.note,
    record.homeownerPresent,
    record.tasks.map((task) => [
      task.careTaskId,
      task.outcome,
      task.doneShare,
      task.remark,
      Object.entries(task.actuals).sort(([a], [b]) => (a < b ? -1 : 1)),
      ...some(task.doses?.map(({ product, amountG, lot, waterL }) => [product, amountG, lot, waterL])),
      ...some(task.serials?.map(({ of, serial }) => [of, serial])),
    ]),
    record.readings.map((reading) => [reading.quantity, reading.value]),
    ...some(record.parts?.map(({ partId, name, amount, unit, lot }) => [partId, name, amount, unit, lot])),
    ...some(record.followUps?.map(({ what, untilOn }) => [what, untilOn])),
  ]);
}

/** Nothing said and a list of nothing are the same. */
function some<T>(list: readonly T[] | undefined): (readonly T[])[] {
  return list?.length ? [list] : [];
}

/**
 * Id of a closing that comes under the id of another but says something else, e.g. a form that was posted, changed and
 * posted again while the answer was lost. The same text gets the same id, so it too is kept once.
 */
export function idOfChangedClosing(closing: CloseVisit): string {
  return uuidOf(`${closing.closingId}\n${closingText(closing)}`);
}

/** A UUID of version 8 (RFC 9562, section 5.8) made of the SHA-256 of a text. */
export function uuidOf(text: string): string {
  const bytes = createHash('sha256').update(text).digest().subarray(0, 16);
  bytes[6] = ((bytes[6] as number) & 0x0f) | 0x80;
  bytes[8] = ((bytes[8] as number) & 0x3f) | 0x80;
  const hex = bytes.toString('hex');
  return `${hex.slice(0, 8)}-${hex.slice(8, 12)}-${hex.slice(12, 16)}-${hex.slice(16, 20)}-${hex.slice(20)}`;
}
