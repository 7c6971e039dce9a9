import type { Actor } from '../accounts/index.js';
import type { VisitId } from '../platform/ids.js';
import type { CloseVisit, ClosingFlag, ClosingRecord } from './closing-record.js';
import type { VisitEntity } from './visit.entity.js';
import type { VisitClosingEntity } from './visit-closing.entity.js';

/** What became of a closing. The same closing sent again gets the same answer. */
export interface ClosingAnswer {
  readonly visitId: VisitId;
  /** The id under which it is kept. */
  readonly closingId: string;
  readonly closingVersion: number;
  /** `amended`: the visit was closed already, and this closing is kept beside the first. */
  readonly outcome: 'closed' | 'amended';
  readonly flags: readonly ClosingFlag[];
  readonly closedAt: string;
  readonly receivedAt: string;
}

/** A closing on its way through the unit of work that keeps it. */
export interface IncomingClosing {
  readonly actor: Actor;
  readonly visit: VisitEntity;
  readonly closing: CloseVisit;
  /** Civil date of the closing in the pond's zone. */
  readonly on: string;
  readonly closedAt: string;
  readonly receivedAt: string;
}

/** What the office should look at in a closing. */
export function flagsOf({ visit, actor }: IncomingClosing, isClockBelieved: boolean): ClosingFlag[] {
  const flags: ClosingFlag[] = [];
  if (visit.state === 'COMPLETED') flags.push('amendment');
  if (visit.state === 'CANCELLED') flags.push('after-cancel');
  if (visit.technicianId !== null && visit.technicianId !== actor.personId) flags.push('other-person');
  if (!isClockBelieved) flags.push('clock-wrong');
  return flags;
}

/** The record without anything that may have come along with it. */
export function recordOf(closing: CloseVisit, flags: readonly ClosingFlag[]): ClosingRecord {
  return {
    note: closing.note,
    homeownerPresent: closing.homeownerPresent,
    tasks: closing.tasks.map(({ careTaskId, outcome, doneShare, remark, actuals }) => {
      return { careTaskId, outcome, doneShare: outcome === 'partly' ? doneShare : null, remark, actuals };
    }),
    readings: closing.readings.map(({ id, quantity, value, takenAt }) => ({ id, quantity, value, takenAt })),
    flags,
  };
}

export function answerOf(row: VisitClosingEntity): ClosingAnswer {
  const flags = row.record.flags ?? [];
  return {
    visitId: row.visitId,
    closingId: row.id,
    closingVersion: row.closingVersion,
    outcome: flags.includes('amendment') ? 'amended' : 'closed',
    flags,
    closedAt: row.closedAt,
    receivedAt: row.receivedAt,
  };
}
