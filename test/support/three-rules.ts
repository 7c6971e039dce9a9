import type { CareRule, RuleParameter } from '../../src/core/care/care-rule.js';

const number = (value: number, unit: string): RuleParameter => ({
  value,
  min: 0,
  max: 10_000,
  unit,
  provenance: 'common practice',
});

const PLAIN: Omit<CareRule, 'id' | 'title' | 'anyOf' | 'parameters' | 'cycle'> = {
  appliesTo: {},
  gates: [],
  audience: 'technician',
  neverHomeowner: false,
  consequence: 'care',
  routineLine: false,
  minutes: number(30, 'min'),
  people: 1,
  skills: [],
  parts: [],
  steps: ['Do it.'],
  quantities: [],
  cautions: [],
  evidence: [],
  reason: 'A rule of the tests.',
  wouldChangeIf: 'The tests change.',
  notWithin: [],
  alignWith: [],
  before: [],
  overtakenBy: [],
  source: 'made for the tests',
};

/** Every 30 days, with a week on either side. */
export const MONTHLY: CareRule = {
  ...PLAIN,
  id: 'device-test',
  title: 'Test the residual-current device',
  audience: 'either',
  anyOf: [{ kind: 'interval', days: 'days', slackDays: 'slack' }],
  parameters: { days: number(30, 'd'), slack: number(7, 'd') },
  cycle: 'count',
};

/** Before the water falls below 10 °C. Needs a pump. */
export const AUTUMN: CareRule = {
  ...PLAIN,
  id: 'winter-shutdown',
  title: 'Take the pump out for winter',
  appliesTo: { equipment: ['pump'], winterClass: ['W2', 'W3'] },
  anyOf: [{ kind: 'crossing', threshold: 'threshold', direction: 'falling', leadDays: 'lead' }],
  parameters: { threshold: number(10, '°C'), lead: number(7, 'd') },
  cycle: 'cooling',
};

/** At once when ammonia is read at or above 1 mg/L. */
export const AMMONIA: CareRule = {
  ...PLAIN,
  id: 'ammonia-change',
  title: 'Change water against ammonia',
  audience: 'homeowner',
  consequence: 'urgent',
  anyOf: [
    {
      kind: 'reading',
      quantity: 'total-ammonia',
      limit: 'limit',
      when: 'above',
      severity: 'urgent',
      withinDays: 'within',
    },
  ],
  parameters: { limit: number(1, 'mg/L'), within: number(0, 'd') },
  cycle: 'reading',
};

export const THREE_RULES: readonly CareRule[] = [MONTHLY, AUTUMN, AMMONIA];
