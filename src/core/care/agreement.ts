import type { CivilDay } from '../units/civil-day.js';
import type { PlannedTask } from './care-plan.js';
import type { CareRule } from './care-rule.js';
import type { PondFacts } from './pond-facts.js';

/** What these cautions warn of is never the homeowner's: UV housings, vaults, old lamps, pesticides. */
const NEVER_AT_HOME: ReadonlySet<string> = new Set(['uv-light', 'mercury-lamp', 'vault', 'pesticide']);

/** Work that is the company's whatever was agreed: so marked, of that kind by its cautions, or not for one person alone. */
export function isNeverHomeowners(rule: Pick<CareRule, 'neverHomeowner' | 'cautions' | 'people'>): boolean {
  return rule.neverHomeowner || rule.people > 1 || rule.cautions.some((id) => NEVER_AT_HOME.has(id));
}

/**
 * Who does a rule on a pond on a day. Work that is never the homeowner's is the technician's whatever was agreed; a rule
 * for one of the two is theirs; one for either follows the latest agreement in force on the day, else the company default.
 */
export function doneBy(
  rule: CareRule,
  pond: Pick<PondFacts, 'agreement'>,
  on: CivilDay,
  defaultDoneBy: 'company' | 'homeowner',
): PlannedTask['doneBy'] {
  if (isNeverHomeowners(rule) || rule.audience === 'technician') return 'technician';
  if (rule.audience === 'homeowner') return 'homeowner';

  const inForce = pond.agreement
    .filter((term) => term.ruleId === rule.id && (term.from ?? on) <= on && (term.until ?? on) >= on)
    .sort((a, b) => (a.from ?? Number.NEGATIVE_INFINITY) - (b.from ?? Number.NEGATIVE_INFINITY));
  const agreed = inForce.at(-1)?.doneBy ?? defaultDoneBy;
  return agreed === 'company' ? 'technician' : 'homeowner';
}
