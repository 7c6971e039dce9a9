import { type CivilDay, isoDateOf } from '../../units/civil-day.js';
import type { CareRule, Trigger } from '../care-rule.js';
import { optionalParameter, type PlanningContext, parameter } from '../planning-context.js';
import type { Equipment } from '../pond-facts.js';
import { type Firing, input, orderedWindow } from './trigger-outcome.js';

type Event = Extract<Trigger, { kind: 'event' }>;

/** Something that happened, and the name it gives to the task. */
export interface Happening {
  readonly id: string;
  readonly on: CivilDay;
  readonly machine?: { readonly id: string; readonly name: string };
}

/**
 * The happenings a trigger answers, oldest first. Those from before care began are left out, except the filling of the
 * pond, which a record made a few days later still means.
 */
export function happenings(trigger: Event, context: PlanningContext): readonly Happening[] {
  const { history, input: plan, pond } = context;
  if (trigger.event === 'task-completed') {
    return history.completed(trigger.ofRule ?? '').map((task) => ({ id: `${task.ruleId}:${task.cycle}`, on: task.on }));
  }
  if (trigger.event === 'warranty-end') return warrantyEnds(pond.equipment);
  const told = history.events(trigger.event);
  if (trigger.event === 'commissioning') {
    if (told.length > 0) return told;
    return pond.commissionedOn === null
      ? []
      : [{ id: `commissioning-${isoDateOf(pond.commissionedOn)}`, on: pond.commissionedOn }];
  }
  return told.filter((event) => event.on >= plan.careSince);
}

/** The ends of the machines' warranties, by the register. */
function warrantyEnds(equipment: readonly Equipment[]): readonly Happening[] {
  return equipment
    .flatMap(({ id, name, warrantyUntil }) =>
      warrantyUntil === null ? [] : [{ id: `warranty-${id}`, on: warrantyUntil, machine: { id, name } }],
    )
    .sort((a, b) => a.on - b.on || (a.id < b.id ? -1 : 1));
}

/** Days after a happening. */
export function eventFiring(trigger: Event, rule: CareRule, happening: Happening): Firing {
  const after = parameter(rule, trigger.afterDays);
  const due = happening.on + after;
  return {
    fires: true,
    window: orderedWindow({
      earliest: due - optionalParameter(rule, trigger.earlyDays, 0),
      due,
      latest: due + optionalParameter(rule, trigger.lateDays, 0),
    }),
    confidence: 1,
    reason: {
      trigger: 'event',
      formula: 'days after the event',
      source: rule.parameters[trigger.afterDays]?.source ?? rule.source,
      inputs: [
        input('event', trigger.event),
        ...(trigger.ofRule === undefined ? [] : [input('of-rule', trigger.ofRule)]),
        input('happened-on', happening.on, 'day'),
        input('after', after, 'd'),
        ...(happening.machine ? [input('machine', happening.machine.name)] : []),
      ],
    },
  };
}
