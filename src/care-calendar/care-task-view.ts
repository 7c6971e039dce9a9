import type { CareRule } from '../core/care/care-rule.js';
import type { CareTaskEntity } from './care-task.entity.js';

/** A stored task with its rule and the pond it is due on. */
export interface CareTaskView {
  readonly task: CareTaskEntity;
  readonly rule: CareRule;
  readonly pondName: string;
  /** IANA zone of the pond, in which all dates of the task are. */
  readonly timeZone: string;
  /** The day it is to be done: as a person set it, else as planned and not before it was put off to. ISO date. */
  readonly dueOn: string;
  /** Civil date now in the pond's zone. */
  readonly today: string;
  /** Not finished and past its last day. */
  readonly isLate: boolean;
}

/** The day a task is to be done. ISO date. */
export function effectiveDueOn(task: Pick<CareTaskEntity, 'dueOn' | 'heldDueOn' | 'putOffUntil'>): string {
  if (task.heldDueOn !== null) return task.heldDueOn;
  return task.putOffUntil !== null && task.putOffUntil > task.dueOn ? task.putOffUntil : task.dueOn;
}

/** The last day of a task: a day a person has set may lie beyond the planned window. ISO date. */
export function effectiveLatestOn(task: Pick<CareTaskEntity, 'latestOn' | 'heldDueOn'>): string {
  return task.heldDueOn !== null && task.heldDueOn > task.latestOn ? task.heldDueOn : task.latestOn;
}

/** Stands in for a rule that is no longer in `config/care-rules/`, so that the history stays readable. */
export function lostRule(ruleId: string): CareRule {
  return {
    id: ruleId,
    title: ruleId.replaceAll('-', ' ').replace(/^./, (first) => first.toUpperCase()),
    appliesTo: {},
    anyOf: [],
    gates: [],
    parameters: {},
    audience: 'either',
    neverHomeowner: false,
    consequence: 'routine',
    routineLine: false,
    minutes: { value: 0, min: 0, max: 0, unit: 'min', provenance: 'common practice' },
    people: 1,
    skills: [],
    parts: [],
    steps: [],
    quantities: [],
    cautions: [],
    evidence: [],
    reason: 'The rule is no longer in use.',
    wouldChangeIf: '',
    notWithin: [],
    alignWith: [],
    before: [],
    overtakenBy: [],
    source: 'no longer in use',
    cycle: 'count',
  };
}
