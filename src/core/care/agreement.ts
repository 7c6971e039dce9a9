import type { CivilDay } from '../units/civil-day.js';
import type { PlannedTask } from './care-plan.js';
import type { CareRule } from './care-rule.js';
import type { PondFacts } from './pond-facts.js';

/**
 * Who does a rule on a pond on a day. Work that is never the homeowner's is the technician's whatever was agreed; a rule
 * for one of the two is theirs; one for either follows the latest agreement in force on the day, else the company default.
 */
export function doneBy(
  rule: CareRule,
  pond: PondFacts,
  on: CivilDay,
  defaultDoneBy: 'company' | 'homeowner',
): PlannedTask['doneBy'] {
  if (rule.neverHomeowner || rule.audience === 'technician') return 'technician';
  if (rule.audience === 'homeowner') return 'homeowner';

  const inForce = pond.agreement
    .filter((term) => term.ruleId === rule.id && (term.from ?? on) <= on && (term.until ?? on) >= on)
    .sort((a, b) => (a.from ?? Number.NEGATIVE_INFINITY) - (b.from ?? Number.NEGATIVE_INFINITY));
  const agreed = inForce.at(-1)?.doneBy ?? defaultDoneBy;
  return agreed === 'company' ? 'technician' : 'homeowner';
}
