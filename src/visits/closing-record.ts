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
  }[];
  readonly readings: readonly {
    /** Made on the phone. */
    readonly id: string;
    readonly quantity: ReadingQuantity;
    readonly value: number;
    readonly takenAt: string;
  }[];
  /** What the office should look at; set when the closing came in. */
  readonly flags?: readonly ClosingFlag[];
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
  | 'task-taken-off';

/** A closing on its way in. */
export interface CloseVisit extends Omit<ClosingRecord, 'flags'> {
  /** UUID made on the phone: sent twice, it is still one closing. */
  readonly closingId: string;
  /** ISO 8601 with offset, by the phone's clock. */
  readonly closedAt: string;
}
