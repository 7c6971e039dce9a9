import type { ReadingQuantity } from '../core/care/care-rule.js';

/** What a technician typed when closing a visit. */
export interface ClosingRecord {
  readonly note: string;
  readonly homeownerPresent: boolean | null;
  readonly tasks: readonly {
    readonly careTaskId: string;
    readonly outcome: 'done' | 'partly' | 'not-done';
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
}
