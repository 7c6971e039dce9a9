import type { CareRule } from '../care-rule.js';
import type { Caution } from '../caution.js';
import type { Wording } from './wording.js';

/** A rule with its texts in a language; what the language leaves out stays as the rule's file has it. */
export function ruleIn(rule: CareRule, wording: Wording): CareRule {
  const texts = wording.rules[rule.id];
  return texts ? { ...rule, ...texts } : rule;
}

/** A caution in a language, and whether somebody who grew up with the language has read it. */
export function cautionIn(caution: Caution, wording: Wording): Caution & { readonly isReviewed: boolean } {
  const texts = wording.cautions[caution.id];
  if (!texts) return { ...caution, isReviewed: !wording.unreviewed.includes(caution.id) };
  const { reviewed, ...said } = texts;
  return { ...caution, ...said, isReviewed: reviewed };
}
