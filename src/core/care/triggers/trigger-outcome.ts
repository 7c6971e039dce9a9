import type { CivilDay } from '../../units/civil-day.js';
import type { NotDue, Reason, TaskWindow } from '../care-plan.js';
import type { Consequence } from '../care-rule.js';

/** A trigger that fires: when, why, and how sure that is. */
export interface Firing {
  readonly fires: true;
  readonly window: TaskWindow;
  /** Share of the traces in which it comes due; 1 for what is certain. */
  readonly confidence: number;
  readonly reason: Reason;
  /** Graver than the rule's own, where the trigger says so. */
  readonly consequence?: Consequence;
}

export interface NoFiring {
  readonly fires: false;
  readonly because: NotDue['because'];
  readonly detail: string;
}

export type TriggerOutcome = Firing | NoFiring;

export function noFiring(because: NotDue['because'], detail = ''): NoFiring {
  return { fires: false, because, detail };
}

/** A window with its days in order, whatever was asked. */
export function orderedWindow(window: { earliest: number; due: number; latest: number }): TaskWindow {
  const due = Math.round(window.due);
  return {
    earliest: Math.min(Math.round(window.earliest), due) as CivilDay,
    due: due as CivilDay,
    latest: Math.max(Math.round(window.latest), due) as CivilDay,
  };
}

export function input(name: string, value: number | string, unit = ''): Reason['inputs'][number] {
  return { name, value, unit };
}
