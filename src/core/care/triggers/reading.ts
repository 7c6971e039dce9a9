import { addDays, type CivilDay } from '../../units/civil-day.js';
import type { PondReading } from '../care-plan.js';
import type { CareRule, ReadingQuantity, Trigger } from '../care-rule.js';
import { optionalParameter, type PlanningContext, parameter, ruleParameter } from '../planning-context.js';
import type { Equipment } from '../pond-facts.js';
import { readingsOf } from './pond-readings.js';
import { daysToLimit } from './reading-trend.js';
import { input, noFiring, orderedWindow, type TriggerOutcome } from './trigger-outcome.js';

export { readingsOf } from './pond-readings.js';

type Reading = Extract<Trigger, { kind: 'reading' }>;

/** A reading older than this says nothing of today. [days] */
export const STALE_AFTER_DAYS = 30;
const WEEK_DAYS = 7;
/** Less than this more than worked out is within what a ruler and a bucket can tell (handbook, leak detection). [mm/day] */
const PROVABLE_LOSS_MM_PER_DAY = 2;

export type ReadingOutcome = TriggerOutcome & { readonly excursionId?: string };

/** A reading with what it says: beyond the limit, on its way there, or neither. */
interface Judged {
  readonly reading: PondReading;
  readonly isBeyond: boolean;
  /** Days from the reading to the limit by the trend, where that is soon enough to act on. */
  readonly trendDays: number | null;
}

/**
 * A reading passes a limit, or the trend of the readings will within the days the rule gives. The excursion is the
 * unbroken row of such readings up to the latest one, taken after the task was last finished; its first reading names
 * the task, so that a trend that becomes an excess is the same task still.
 * @param machine Where each machine has its own task: only readings taken at it count, or at none when it is the only one.
 */
export function readingOutcome(
  trigger: Reading,
  rule: CareRule,
  context: PlanningContext,
  machine: Equipment | null = null,
): ReadingOutcome {
  const { today, history } = context;
  const readings = readingsOf(trigger.quantity, context, machine).filter((reading) => reading.on <= today);
  const latest = readings.at(-1);
  if (!latest || today - latest.on > STALE_AFTER_DAYS) return noFiring('no-reading', trigger.quantity);
  const limit = limitOf(trigger, rule, context, readings);
  if (limit === null) return noFiring('input-missing', `an earlier reading of ${trigger.quantity}`);

  const finishedOn = history.lastFinished(rule.id, machine?.id)?.on ?? Number.NEGATIVE_INFINITY;
  const excursion = rowUpToLatest(judged(trigger, rule, readings, limit, finishedOn));
  const [first] = excursion;
  const last = excursion.at(-1);
  if (!first || !last) return noFiring('no-reading', `${trigger.quantity} in order`);
  const due = dueDay(trigger, rule, excursion);
  return {
    fires: true,
    excursionId: first.reading.id,
    window: orderedWindow({ earliest: first.reading.on, due, latest: due }),
    confidence: 1,
    consequence: last.isBeyond ? trigger.severity : 'care',
    reason: {
      trigger: 'reading',
      formula: formulaOf(trigger, last),
      source: ruleParameter(rule, trigger.limit).source ?? rule.source,
      inputs: [
        input('quantity', trigger.quantity),
        input('reading', latest.value, unitOf(trigger.quantity)),
        input('limit', Number(limit.toPrecision(4)), unitOf(trigger.quantity)),
        input('when', trigger.when),
        input('taken-on', latest.on, 'day'),
        ...(last.isBeyond ? [] : [input('passes-on', addDays(latest.on, last.trendDays ?? 0), 'day')]),
        ...(machine ? [input('machine', machine.name)] : []),
      ],
    },
  };
}

/** So many days after the excursion began; a mere trend is acted on by the day it would pass the limit. */
function dueDay(trigger: Reading, rule: CareRule, excursion: readonly Judged[]): number {
  const beyond = excursion.find(({ isBeyond }) => isBeyond);
  const lasting = optionalParameter(rule, trigger.lastingDays, 0);
  if (beyond) return beyond.reading.on + lasting + parameter(rule, trigger.withinDays);
  const last = excursion.at(-1);
  return last ? last.reading.on + (last.trendDays ?? 0) : 0;
}

function formulaOf(trigger: Reading, last: Judged): string {
  if (!last.isBeyond) return 'straight line through the readings of the last 60 days';
  return trigger.when === 'above' ? 'reading at or above the limit' : 'reading below the limit';
}

function judged(
  trigger: Reading,
  rule: CareRule,
  readings: readonly PondReading[],
  limit: number,
  finishedOn: number,
): Judged[] {
  const fresh = readings.filter((reading) => reading.on > finishedOn);
  const within = trigger.trendDays === undefined ? null : parameter(rule, trigger.trendDays);
  return fresh.map((reading, index) => {
    const isBeyond = trigger.when === 'above' ? reading.value >= limit : reading.value < limit;
    const isLasting = optionalParameter(rule, trigger.lastingDays, 0) > 0;
    const days =
      isBeyond || isLasting || within === null ? null : daysToLimit(fresh.slice(0, index + 1), limit, trigger.when);
    return { reading, isBeyond, trendDays: days !== null && within !== null && days <= within ? days : null };
  });
}

function rowUpToLatest(readings: readonly Judged[]): readonly Judged[] {
  const lastQuiet = readings.findLastIndex(({ isBeyond, trendDays }) => !isBeyond && trendDays === null);
  return readings.slice(lastQuiet + 1);
}

/**
 * The limit in the unit of the quantity. In percent it is of what this very pond should show: of the flow the pump had
 * when it was first measured, or of the top-up a week that evaporation explains.
 */
function limitOf(
  trigger: Reading,
  rule: CareRule,
  context: PlanningContext,
  readings: readonly PondReading[],
): number | null {
  const { value, unit } = ruleParameter(rule, trigger.limit);
  if (unit !== '%' || trigger.quantity === 'algae-cover') return value;
  const share = value / 100;
  if (trigger.quantity === 'weekly-top-up') return share * weeklyLossL(context, readings.at(-1)?.on ?? context.today);
  const [first] = readings;
  return trigger.quantity === 'pump-flow' && first && readings.length > 1 ? share * first.value : null;
}

function weeklyLossL({ loads, pond }: PlanningContext, day: CivilDay): number {
  let lossL = 0;
  for (let back = 0; back < WEEK_DAYS; back++) lossL += loads.netLossL(addDays(day, -back));
  return Math.max(lossL, PROVABLE_LOSS_MM_PER_DAY * WEEK_DAYS * pond.surfaceAreaM2);
}

const UNITS: Readonly<Record<ReadingQuantity, string>> = {
  'water-temperature': '°C',
  ph: '',
  'total-ammonia': 'mg/L N',
  nitrite: 'mg/L N',
  nitrate: 'mg/L N',
  alkalinity: 'mg/L CaCO3',
  hardness: 'mg/L CaCO3',
  'dissolved-oxygen': 'mg/L',
  'total-chlorine': 'mg/L Cl2',
  salinity: 'g/L',
  'pump-flow': 'L/h',
  'unionised-ammonia': 'mg/L N',
  clarity: 'cm',
  'algae-cover': '%',
  'sludge-depth': 'mm',
  'snow-depth': 'cm',
  'weekly-top-up': 'L',
};

/** Stored unit of a quantity. */
export function unitOf(quantity: ReadingQuantity): string {
  return UNITS[quantity];
}
