import type { ReadingQuantity } from '../core/care/care-rule.js';

export type TaskOutcome = 'done' | 'partly' | 'not-done';

/** What a technician typed when closing a visit. */
export interface ClosingRecord {
  readonly note: string;
  readonly homeownerPresent: boolean | null;
  readonly tasks: readonly {
    readonly careTaskId: string;
    readonly outcome: TaskOutcome;
    /** 0 to 1, for `partly`. */
    readonly doneShare: number | null;
    readonly remark: string;
    /** Actual state, e.g. litres changed, media share rinsed, lamp hours of the new lamp. */
    readonly actuals: Readonly<Record<string, number>>;
    /** What was put into the water. */
    readonly doses?: readonly GivenDose[];
    /** Numbers read off what was fitted. */
    readonly serials?: readonly FittedSerial[];
  }[];
  readonly readings: readonly {
    /** Made on the phone. */
    readonly id: string;
    readonly quantity: ReadingQuantity;
    readonly value: number;
    readonly takenAt: string;
  }[];
  readonly parts?: readonly UsedPart[];
  readonly followUps?: readonly NotedFollowUp[];
  /** On site from and to, ISO 8601 with offset, by the phone's clock. */
  readonly arrivedAt?: string | null;
  readonly leftAt?: string | null;
  /** The office changed the record, and why; the versions before are kept. */
  readonly editedBecause?: string;
  /** What the office should look at; set when the closing came in. */
  readonly flags?: readonly ClosingFlag[];
}

export interface GivenDose {
  readonly product: string;
  readonly amountG: number;
  /** Lot as printed on the product; may be empty. */
  readonly lot: string;
  /** The volume it was measured for. */
  readonly waterL: number | null;
}

export interface FittedSerial {
  readonly of: 'lamp' | 'media' | 'other';
  readonly serial: string;
}

/** A part or product used up. */
export interface UsedPart {
  /** UUID made on the phone. */
  readonly id: string;
  /** On the company's shelf; null for one that is not kept there. */
  readonly partId: string | null;
  readonly name: string;
  readonly amount: number;
  /** What it is counted in: piece, g, L, m. */
  readonly unit: string;
  readonly careTaskId: string | null;
  readonly lot: string;
}

/** Something seen that should be looked after. */
export interface NotedFollowUp {
  /** UUID made on the phone. */
  readonly id: string;
  readonly what: string;
  /** Civil date by which it is wanted. */
  readonly untilOn: string | null;
  readonly careTaskId: string | null;
}

export type ClosingFlag =
  /** The visit had been closed by another closing: this one is kept beside it. */
  | 'amendment'
  /** The office had cancelled the visit meanwhile. */
  | 'after-cancel'
  /** Closed by somebody else than the technician it was given to. */
  | 'other-person'
  /** The phone's clock cannot be right; the time of receipt was taken. */
  | 'clock-wrong'
  /** It tells of a task which the office had taken off the visit. */
  | 'task-taken-off'
  /** The office had moved the visit to another day since the phone had it. */
  | 'moved-meanwhile'
  /** It says something else than an earlier closing of the same visit, and neither can be right of itself. */
  | 'differs';

/** A closing on its way in. */
export interface CloseVisit extends Omit<ClosingRecord, 'flags' | 'editedBecause'> {
  /** UUID made on the phone: sent twice, it is still one closing. */
  readonly closingId: string;
  /** ISO 8601 with offset, by the phone's clock. */
  readonly closedAt: string;
  /** The day of the visit as the phone had it, a civil date. */
  readonly plannedOn?: string | null;
}
