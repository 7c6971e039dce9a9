import { rinseCapacityG } from '../../filter/rinse-interval.js';
import { addDays, type CivilDay } from '../../units/civil-day.js';
import type { CareRule, RunningLoad, Trigger } from '../care-rule.js';
import { AFTER_HORIZON_DAYS } from '../loads/pond-loads.js';
import { optionalParameter, type PlanningContext, parameter, ruleParameter } from '../planning-context.js';
import type { Equipment } from '../pond-facts.js';
import { type CountingFrom, countingFrom, machinesOf } from './counting-from.js';
import { input, noFiring, orderedWindow, type TriggerOutcome } from './trigger-outcome.js';

type Accumulation = Extract<Trigger, { kind: 'accumulation' }>;

const UNITS: Readonly<Record<RunningLoad, string>> = {
  'lamp-hours': 'h',
  'pump-days': 'd',
  'aerator-days': 'd',
  'filter-solids-g': 'g',
  'evaporation-l': 'L',
};

/**
 * Loads that wear a part out from the day it was fitted, also before care began; the others count from the start of
 * care.
 */
const WEAR_LOADS: readonly RunningLoad[] = ['lamp-hours', 'aerator-days'];

/**
 * A load has run up to its limit since it was last done, day by day along the median of the forecast. Where the rule
 * has one task for all machines of its kind, the first to reach its limit decides.
 * @param only The machine the task is for, where each has its own.
 */
export function accumulationOutcome(
  trigger: Accumulation,
  rule: CareRule,
  context: PlanningContext,
  only: Equipment | null = null,
): TriggerOutcome {
  const machines = only ? [only] : machinesOf(rule, context);
  const outcomes = (machines.length === 0 ? [null] : machines).map((machine) =>
    outcomeOf(trigger, rule, context, machine),
  );
  const firing = outcomes.filter((outcome) => outcome.fires).sort((a, b) => a.window.due - b.window.due)[0];
  return firing ?? outcomes[0] ?? noFiring('nothing-to-count');
}

function outcomeOf(
  trigger: Accumulation,
  rule: CareRule,
  context: PlanningContext,
  machine: Equipment | null,
): TriggerOutcome {
  const limit = limitOf(trigger, rule, context, machine);
  if (limit === null) return noFiring('input-missing', missingInput(trigger.load));
  const since = startOfLoad(trigger, rule, context, machine);
  const tolerance = parameter(rule, trigger.tolerancePct) / 100;
  const load = loadOf(trigger.load, rule, context, machine);
  const days = reachedOn(load, context, since, [limit * (1 - tolerance), limit, limit * (1 + tolerance)]);
  const [earliest, due, latest] = days;
  if (due === undefined) return noFiring('beyond-horizon', `less than ${Math.round(limit)} ${UNITS[trigger.load]}`);

  const shortest = shortestGapDays(trigger, rule, context);
  const spaced = (day: number) => (since.isDone ? Math.max(day, since.day + shortest) : day);
  const counted = {
    earliest: spaced(earliest ?? due),
    due: spaced(Math.max(due, context.input.careSince)),
    latest: spaced(latest ?? context.horizon),
  };
  const season = trigger.notLastingSeason && seasonItWillNotLast(due, since.day, context);
  const window = season
    ? {
        earliest: season - parameter(rule, trigger.notLastingSeason.earlyDays),
        due: season,
        latest: season + parameter(rule, trigger.notLastingSeason.lateDays),
      }
    : counted;
  return {
    fires: true,
    window: orderedWindow(window),
    confidence: 1,
    reason: {
      trigger: 'accumulation',
      formula: season ? 'running load; the rest would not last the season' : 'running load since it was last done',
      source: ruleParameter(rule, trigger.limit).source ?? rule.source,
      inputs: [
        input('load', trigger.load),
        input('limit', Math.round(limit), UNITS[trigger.load]),
        input('run-up', Math.round(sumOf(load, context, since, context.today)), UNITS[trigger.load]),
        input('reached-on', due, 'day'),
        input(since.isDone ? 'last-done' : 'counted-from', since.day, 'day'),
        ...(season ? [input('season-starts', season, 'day')] : []),
        ...(machine ? [input('machine', machine.name)] : []),
      ],
    },
  };
}

/** Limit in the unit of the load: the plate of the lamp, the media of the filter, the area or volume of the pond. */
function limitOf(
  trigger: Accumulation,
  rule: CareRule,
  context: PlanningContext,
  machine: Equipment | null,
): number | null {
  const { value, unit } = ruleParameter(rule, trigger.limit);
  const { pond } = context;
  switch (trigger.load) {
    case 'lamp-hours':
      return machine?.rated.lampRatedHours ?? value;
    case 'aerator-days':
    case 'pump-days':
      return unit === 'months' ? value * 30.4 : value;
    case 'filter-solids-g': {
      const mediaVolumeL = machine?.rated.mediaVolumeL;
      return mediaVolumeL === undefined ? null : rinseCapacityG({ mediaVolumeL, heldGPerL: value });
    }
    case 'evaporation-l':
      return unit === 'mm' ? value * pond.surfaceAreaM2 : (value / 100) * pond.volumeL;
  }
}

function missingInput(load: RunningLoad): string {
  return load === 'filter-solids-g' ? 'volume of the filter media' : load;
}

function startOfLoad(
  trigger: Accumulation,
  rule: CareRule,
  context: PlanningContext,
  machine: Equipment | null,
): CountingFrom {
  const since = countingFrom(rule, context, rule.perMachine ? machine : null);
  const fitted = machine?.installedOn ?? null;
  const start =
    fitted === null
      ? since.day
      : WEAR_LOADS.includes(trigger.load) && !since.isDone
        ? fitted
        : Math.max(since.day, fitted);
  return { ...since, day: Math.max(start, context.loads.from) as CivilDay };
}

interface CountedLoad {
  readonly kind: RunningLoad;
  /** The part of the pond's load that comes to the machine. */
  readonly share: number;
}

/** Solids go to several filters as their media hold them; all other loads are of each machine in full. */
function loadOf(kind: RunningLoad, rule: CareRule, context: PlanningContext, machine: Equipment | null): CountedLoad {
  if (kind !== 'filter-solids-g' || !rule.perMachine || !machine) return { kind, share: 1 };
  const totalL = machinesOf(rule, context).reduce((sum, { rated }) => sum + (rated.mediaVolumeL ?? 0), 0);
  const ownL = machine.rated.mediaVolumeL ?? 0;
  return { kind, share: totalL > 0 ? ownL / totalL : 1 };
}

/** Load already there at the start, e.g. a lamp put in with hours on it. */
function startingLoad(load: RunningLoad, since: CountingFrom): number {
  return load === 'lamp-hours' ? (since.actuals.lampHours ?? 0) : 0;
}

/** First day on which each limit, in rising order, is reached; undefined where that lies beyond what can be seen. */
function reachedOn(
  load: CountedLoad,
  context: PlanningContext,
  since: CountingFrom,
  limits: readonly number[],
): (CivilDay | undefined)[] {
  const found: CivilDay[] = [];
  const lastDay = addDays(context.horizon, AFTER_HORIZON_DAYS);
  let sum = startingLoad(load.kind, since);
  for (let day = addDays(since.day, 1); day <= lastDay && found.length < limits.length; day = addDays(day, 1)) {
    sum += load.share * context.loads.perDay(load.kind, day);
    while (found.length < limits.length && sum >= (limits[found.length] ?? Number.POSITIVE_INFINITY)) found.push(day);
  }
  return limits.map((_, index) => found[index]);
}

function sumOf(load: CountedLoad, context: PlanningContext, since: CountingFrom, until: CivilDay): number {
  let sum = startingLoad(load.kind, since);
  for (let day = addDays(since.day, 1); day <= until; day = addDays(day, 1))
    sum += load.share * context.loads.perDay(load.kind, day);
  return sum;
}

function shortestGapDays(trigger: Accumulation, rule: CareRule, context: PlanningContext): number {
  const isSpared = context.pond.equipment.some((machine) => machine.kind === trigger.minDaysUnlessEquipment);
  const floor = optionalParameter(rule, trigger.floorDays, 0);
  return isSpared ? floor : Math.max(floor, optionalParameter(rule, trigger.minDays, 0));
}

/**
 * Start of the lamp season that the limit falls into, when that start lies after the part was fitted and after care
 * began; null when the season never ends, or has the part from its beginning only.
 */
function seasonItWillNotLast(reached: CivilDay, since: CivilDay, context: PlanningContext): CivilDay | null {
  let start = reached;
  while (start > since && context.loads.lampIsOn(addDays(start, -1))) start = addDays(start, -1);
  return start > since && start > context.input.careSince ? start : null;
}
