import type { CivilDay } from '../../units/civil-day.js';
import type { CareRule } from '../care-rule.js';
import type { PlanningContext } from '../planning-context.js';
import type { Equipment } from '../pond-facts.js';

export interface CountingFrom {
  readonly day: CivilDay;
  /** True when the rule was done (or given up) before; else care or the machine began that day. */
  readonly isDone: boolean;
  /** What the last closing taught. */
  readonly actuals: Readonly<Record<string, number>>;
}

/**
 * The day intervals and loads count from: the last time it was done, else the latest of care, filling and installation.
 * With a machine, what was done to that one and the day that one was fitted.
 */
export function countingFrom(rule: CareRule, context: PlanningContext, machine: Equipment | null = null): CountingFrom {
  const last = context.history.lastFinished(rule.id, machine?.id);
  if (last) return { day: last.on, isDone: true, actuals: last.actuals };

  const { pond, input } = context;
  const machines = machine ? [machine] : machinesOf(rule, context);
  const installed = machines.map((machine) => machine.installedOn ?? input.careSince);
  const newest = installed.length === 0 ? input.careSince : Math.min(...installed);
  const day = Math.max(input.careSince, newest, pond.commissionedOn ?? input.careSince) as CivilDay;
  return { day, isDone: false, actuals: {} };
}

/** The machines a rule is about, in the order of their ids. */
export function machinesOf(rule: CareRule, context: PlanningContext): readonly Equipment[] {
  const kinds = rule.appliesTo.equipment ?? [];
  return context.pond.equipment
    .filter((machine) => kinds.includes(machine.kind))
    .sort((a, b) => (a.id < b.id ? -1 : a.id > b.id ? 1 : 0));
}
