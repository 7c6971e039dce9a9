import type { Actor } from '../accounts/index.js';
import type { PersonId, VisitId } from '../platform/ids.js';
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
  /** Set where the office corrects the record: who had done the work, and which readings give way to which. */
  readonly edit?: ClosingEdit;
}

export interface ClosingEdit {
  readonly because: string;
  readonly workBy: PersonId;
  /** Id of the reading replaced, by the id of its correction. */
  readonly replaces: ReadonlyMap<string, string>;
}

/** What the office should look at in a closing. */
export function flagsOf({ visit, actor, closing, edit }: IncomingClosing, isClockBelieved: boolean): ClosingFlag[] {
  const flags: ClosingFlag[] = [];
  if (edit) return flags;
  if (visit.state === 'COMPLETED') flags.push('amendment');
  if (visit.state === 'CANCELLED') flags.push('after-cancel');
  if (visit.technicianId !== null && visit.technicianId !== actor.personId) flags.push('other-person');
  if (closing.plannedOn && closing.plannedOn !== visit.plannedOn) flags.push('moved-meanwhile');
  if (!isClockBelieved) flags.push('clock-wrong');
  return flags;
}

/** The record without anything that may have come along with it. */
export function recordOf({ closing, edit }: IncomingClosing, flags: readonly ClosingFlag[]): ClosingRecord {
  const { parts = [], followUps = [], arrivedAt = null, leftAt = null } = closing;
  return {
    note: closing.note,
    homeownerPresent: closing.homeownerPresent,
    tasks: closing.tasks.map(({ careTaskId, outcome, doneShare, remark, actuals, doses = [], serials = [] }) => {
      const share = outcome === 'partly' ? doneShare : null;
      return { careTaskId, outcome, doneShare: share, remark, actuals, doses, serials };
    }),
    readings: closing.readings.map(({ id, quantity, value, takenAt }) => ({ id, quantity, value, takenAt })),
    parts,
    followUps,
    arrivedAt,
    leftAt,
    ...(edit && { editedBecause: edit.because }),
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
