import { addDays } from '../units/civil-day.js';
import type { NotDue } from './care-plan.js';
import type { CareRule, Trigger } from './care-rule.js';
import { eventCycle, nextCountCycle, seasonCycle } from './cycle.js';
import type { DraftTask, Occurrences } from './draft-task.js';
import { throughGates } from './gates.js';
import type { PlanningContext } from './planning-context.js';
import type { Equipment } from './pond-facts.js';
import { nextSeason, type Season, type SeasonHalf, seasonOf } from './seasons.js';
import { standingLine } from './standing-line.js';
import { accumulationOutcome } from './triggers/accumulation.js';
import { machinesOf } from './triggers/counting-from.js';
import { crossingOutcome } from './triggers/crossing.js';
import { eventFiring, happenings } from './triggers/event.js';
import { intervalOutcome } from './triggers/interval.js';
import { readingOutcome } from './triggers/reading.js';
import { seasonOutcome } from './triggers/season.js';
import { type Firing, noFiring, type TriggerOutcome } from './triggers/trigger-outcome.js';

/** A task told by an event is dropped this long after its last day. [days] */
const EVENT_LAPSES_AFTER_DAYS = 60;

/** The tasks of a rule that applies, up to the horizon: the next one, or for seasons this year's and next year's. */
export function occurrencesOf(rule: CareRule, context: PlanningContext): Occurrences {
  if (rule.routineLine) return standingLine(rule, context);
  switch (rule.cycle) {
    case 'cooling':
    case 'warming':
      return ofSeasons(rule, context, rule.cycle);
    case 'count':
      return ofCount(rule, context);
    case 'event':
      return ofEvents(rule, context);
    case 'reading':
      return ofReadings(rule, context);
  }
}

/** The occurrences without the reasons why there are no others. */
export function nextOccurrences(rule: CareRule, context: PlanningContext): readonly DraftTask[] {
  return occurrencesOf(rule, context).drafts;
}

function ofSeasons(rule: CareRule, context: PlanningContext, half: SeasonHalf): Occurrences {
  const thisSeason = seasonOf(half, context.today, context.pond.latitude);
  const results = [thisSeason, nextSeason(thisSeason)].map((season) =>
    settled(rule, context, seasonCycle(season), earliestFiring(rule, context, season)),
  );
  return merged(rule, results);
}

function ofCount(rule: CareRule, context: PlanningContext): Occurrences {
  const finished = context.history.finishedCycles(rule.id);
  if (!rule.perMachine) {
    const cycle = nextCountCycle(finished.keys());
    return merged(rule, [settled(rule, context, cycle, earliestFiring(rule, context, null))]);
  }
  const perMachine = machinesOf(rule, context).map((machine) => {
    const cycle = nextCountCycle(finished.keys(), machine.id);
    const result = settled(rule, context, cycle, earliestFiring(rule, context, null, machine));
    return merged(rule, [forMachine(result, machine)]);
  });
  return { drafts: perMachine.flatMap(({ drafts }) => drafts), notDue: perMachine.flatMap(({ notDue }) => notDue) };
}

function ofEvents(rule: CareRule, context: PlanningContext): Occurrences {
  const results = rule.anyOf.flatMap((trigger, index) =>
    trigger.kind === 'event'
      ? happenings(trigger, context).map((happening) => {
          const firing = eventFiring(trigger, rule, happening);
          const isOver = addDays(firing.window.latest, EVENT_LAPSES_AFTER_DAYS) < context.today;
          const cycle = eventCycle(happening.id, index);
          const result = settled(rule, context, cycle, isOver ? noFiring('overtaken', 'long past') : firing);
          return happening.machine ? forMachine(result, happening.machine) : result;
        })
      : [],
  );
  return results.length > 0 ? merged(rule, results) : none(rule, 'no-event', eventNames(rule));
}

function ofReadings(rule: CareRule, context: PlanningContext): Occurrences {
  const outcomes = rule.anyOf.flatMap((trigger) =>
    trigger.kind === 'reading' ? [readingOutcome(trigger, rule, context)] : [],
  );
  const firing = outcomes.find((outcome) => outcome.fires);
  if (firing) return merged(rule, [settled(rule, context, firing.excursionId ?? '', firing)]);
  const quiet = outcomes.find((outcome) => !outcome.fires);
  return none(rule, 'no-reading', quiet && !quiet.fires ? quiet.detail : '');
}

/** The first of a rule's triggers to come due; when none fires, the first one's reason. */
function earliestFiring(
  rule: CareRule,
  context: PlanningContext,
  season: Season | null,
  machine: Equipment | null = null,
): TriggerOutcome {
  let earliest: Firing | null = null;
  let quiet: TriggerOutcome | null = null;
  for (const trigger of rule.anyOf) {
    const outcome = outcomeOf(trigger, rule, context, season, machine);
    if (outcome.fires && (earliest === null || outcome.window.due < earliest.window.due)) earliest = outcome;
    if (!outcome.fires) quiet ??= outcome;
  }
  return earliest ?? quiet ?? noFiring('switched-off', 'no trigger');
}

function outcomeOf(
  trigger: Trigger,
  rule: CareRule,
  context: PlanningContext,
  season: Season | null,
  machine: Equipment | null,
): TriggerOutcome {
  if (trigger.kind === 'accumulation') return accumulationOutcome(trigger, rule, context, machine);
  if (trigger.kind === 'interval') return intervalOutcome(trigger, rule, context, machine);
  if (trigger.kind === 'reading') return readingOutcome(trigger, rule, context, machine);
  if (season && trigger.kind === 'crossing') return crossingOutcome(trigger, rule, context, season);
  if (season && trigger.kind === 'season') return seasonOutcome(trigger, rule, context, season);
  return noFiring('switched-off', `${trigger.kind} does not name a task of this cycle`);
}

type Settled = DraftTask | NotDue;

function forMachine(result: Settled, { id, name }: { readonly id: string; readonly name: string }): Settled {
  return 'rule' in result ? { ...result, machine: { id, name } } : result;
}

/** An outcome as a task, after what was finished, the life of the pond, the gates and the horizon had their say. */
function settled(rule: CareRule, context: PlanningContext, cycle: string, outcome: TriggerOutcome): Settled {
  const notDue = (because: NotDue['because'], detail: string): NotDue => ({ ruleId: rule.id, cycle, because, detail });
  if (context.history.finishedCycles(rule.id).has(cycle)) return notDue('already-finished', cycle);
  if (!outcome.fires) return notDue(outcome.because, outcome.detail);

  const before = isBeforeTheLifeOfThePond(outcome, context);
  if (before) return notDue('overtaken', before);
  if (outcome.window.due > context.horizon) return notDue('beyond-horizon', '');
  const gates = throughGates(outcome.window, rule, context);
  if (!gates.holds) return notDue('gate-never-holds', gates.detail);
  if (gates.window.due > context.horizon) return notDue('beyond-horizon', '');
  const isUrgent = (outcome.consequence ?? rule.consequence) === 'urgent';
  const window = isUrgent ? { ...gates.window, latest: gates.window.due } : gates.window;
  const reason =
    gates.waitedDays === 0
      ? outcome.reason
      : {
          ...outcome.reason,
          inputs: [...outcome.reason.inputs, { name: 'waited', value: gates.waitedDays, unit: 'd' }],
        };
  return { rule, cycle, firing: { ...outcome, reason }, window };
}

/** Nothing is due before the pond was filled, and no season's work from before the care of it began. */
function isBeforeTheLifeOfThePond(firing: Firing, context: PlanningContext): string | null {
  const { due, latest } = firing.window;
  const { commissionedOn } = context.pond;
  if (commissionedOn !== null && due < commissionedOn) return 'before the pond was filled';
  const isSeasonal = firing.reason.trigger === 'crossing' || firing.reason.trigger === 'season';
  return isSeasonal && latest < context.input.careSince ? 'before care began' : null;
}

function merged(rule: CareRule, results: readonly Settled[]): Occurrences {
  const drafts = results.filter((result): result is DraftTask => 'rule' in result);
  const quiet = results.filter((result): result is NotDue => 'because' in result);
  // A later occurrence still beyond the horizon, or an earlier one already done, says nothing once there is a task.
  const worthSaying = quiet.filter(({ because }) => because !== 'beyond-horizon' && because !== 'already-finished');
  if (drafts.length > 0) return { drafts, notDue: worthSaying };
  const telling = quiet.find(({ because }) => because !== 'overtaken') ?? quiet[0];
  return { drafts, notDue: [telling ?? { ruleId: rule.id, because: 'no-event', detail: '' }] };
}

function none(rule: CareRule, because: NotDue['because'], detail: string): Occurrences {
  return { drafts: [], notDue: [{ ruleId: rule.id, because, detail }] };
}

function eventNames(rule: CareRule): string {
  return rule.anyOf.map((trigger) => (trigger.kind === 'event' ? (trigger.ofRule ?? trigger.event) : '')).join(', ');
}
