import type { CareRule, RuleParameter } from '../../src/core/care/care-rule.js';

/** A parameter with a wide range. */
export function aParameter(value: number, unit = ''): RuleParameter {
  return { value, min: -1e6, max: 1e6, unit, provenance: 'common practice', source: 'test' };
}

/** A rule for any pond that does nothing but what the test gives it. */
export function aRule(changes: Partial<CareRule> & Pick<CareRule, 'anyOf' | 'cycle'>): CareRule {
  return {
    id: 'some-work',
    title: 'Some work',
    appliesTo: {},
    gates: [],
    parameters: {},
    audience: 'either',
    neverHomeowner: false,
    consequence: 'routine',
    routineLine: false,
    minutes: aParameter(10, 'min'),
    people: 1,
    skills: [],
    parts: [],
    steps: ['Do it.'],
    quantities: [],
    cautions: [],
    evidence: [],
    reason: 'Because.',
    wouldChangeIf: 'Something changes.',
    notWithin: [],
    alignWith: [],
    before: [],
    source: 'test',
    ...changes,
  };
}
