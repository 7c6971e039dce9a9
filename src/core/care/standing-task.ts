import type { CivilDay } from '../units/civil-day.js';
import type { PlannedTask, TaskWindow } from './care-plan.js';

/** States of RFC 5545; nothing else. */
export type TaskState = 'NEEDS-ACTION' | 'COMPLETED' | 'CANCELLED';

/** A task as the stored calendar has it. */
export interface StandingTask {
  readonly ruleId: string;
  readonly cycle: string;
  readonly state: TaskState;
  readonly window: TaskWindow;
  readonly planned: PlannedTask;
  /** A person set the date: stays until they release it. */
  readonly heldDue: CivilDay | null;
  /** Told to somebody (mailed, or on a published visit): the date that was promised. */
  readonly promisedOn: CivilDay | null;
  /** How often it has moved while it was near (`isNear`); 0 when left out. */
  readonly nearMoves?: number;
}

/** One row of the plan log: what, from, to, because of which input. */
export type PlanChange =
  | { readonly kind: 'added'; readonly task: PlannedTask }
  | {
      readonly kind: 'moved';
      readonly ruleId: string;
      readonly cycle: string;
      readonly from: TaskWindow;
      readonly to: TaskWindow;
      readonly task: PlannedTask;
      readonly because: string;
      readonly breaksPromise: boolean;
    }
  | {
      readonly kind: 'revised';
      readonly ruleId: string;
      readonly cycle: string;
      readonly task: PlannedTask;
      readonly because: string;
    }
  | {
      readonly kind: 'cancelled';
      readonly ruleId: string;
      readonly cycle: string;
      readonly because: 'not-applicable' | 'superseded';
      readonly detail: string;
      /** Somebody was told of a day that is still to come. */
      readonly breaksPromise?: boolean;
    };
