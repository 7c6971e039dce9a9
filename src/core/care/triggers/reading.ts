import type { CivilDay } from '../../units/civil-day.js';
import { unionisedAmmoniaMgNPerL } from '../../water/ammonia.js';
import type { PondReading } from '../care-plan.js';
import type { CareRule, ReadingQuantity, Trigger } from '../care-rule.js';
import { lastReading } from '../history-index.js';
import { type PlanningContext, parameter } from '../planning-context.js';
import { input, noFiring, orderedWindow, type TriggerOutcome } from './trigger-outcome.js';

type Reading = Extract<Trigger, { kind: 'reading' }>;

/** A reading older than this says nothing of today. [days] */
const STALE_AFTER_DAYS = 30;
/** pH and temperature belong to an ammonia reading when taken no further apart than this. [days] */
const SAME_SAMPLE_DAYS = 1;
const FIT_RANGE_C = { min: 0, max: 50 } as const;

export type ReadingOutcome = TriggerOutcome & { readonly excursionId?: string };

/**
 * A reading passes a limit. The excursion is the unbroken row of readings beyond the limit up to the latest one, taken
 * after the task was last finished; its first reading names the task.
 */
export function readingOutcome(trigger: Reading, rule: CareRule, context: PlanningContext): ReadingOutcome {
  const limit = parameter(rule, trigger.limit);
  const { today, history } = context;
  const readings = readingsOf(trigger.quantity, context).filter((reading) => reading.on <= today);
  const latest = readings.at(-1);
  if (!latest || today - latest.on > STALE_AFTER_DAYS) return noFiring('no-reading', trigger.quantity);

  const finishedOn = history.lastFinished(rule.id)?.on ?? Number.NEGATIVE_INFINITY;
  const first = firstOfExcursion(readings, finishedOn, (value) =>
    trigger.when === 'above' ? value >= limit : value < limit,
  );
  if (!first) return noFiring('no-reading', `${trigger.quantity} in order`);

  const within = parameter(rule, trigger.withinDays);
  return {
    fires: true,
    excursionId: first.id,
    window: orderedWindow({ earliest: first.on, due: first.on + within, latest: first.on + within }),
    confidence: 1,
    consequence: trigger.severity,
    reason: {
      trigger: 'reading',
      formula: trigger.when === 'above' ? 'reading at or above the limit' : 'reading below the limit',
      source: rule.parameters[trigger.limit]?.source ?? rule.source,
      inputs: [
        input('quantity', trigger.quantity),
        input('reading', latest.value, unitOf(trigger.quantity)),
        input('limit', limit, unitOf(trigger.quantity)),
        input('when', trigger.when),
        input('taken-on', latest.on, 'day'),
      ],
    },
  };
}

function firstOfExcursion(
  readings: readonly PondReading[],
  finishedOn: number,
  isBeyond: (value: number) => boolean,
): PondReading | null {
  let first: PondReading | null = null;
  for (const reading of readings) {
    if (reading.on <= finishedOn || !isBeyond(reading.value)) first = null;
    else first ??= reading;
  }
  return first;
}

/** Readings of a quantity, oldest first; un-ionised ammonia is worked out where a sample has what it takes. */
export function readingsOf(quantity: ReadingQuantity, context: PlanningContext): readonly PondReading[] {
  if (quantity !== 'unionised-ammonia') return context.history.readings(quantity);
  const measured = context.history.readings('unionised-ammonia');
  const derived = context.history.readings('total-ammonia').flatMap((total) => unionised(total, context));
  return [...measured, ...derived].sort((a, b) => a.atMs - b.atMs || (a.id < b.id ? -1 : 1));
}

function unionised(total: PondReading, context: PlanningContext): PondReading[] {
  const ph = sameSample('ph', total.on, context);
  if (ph === null) return [];
  const measuredC = sameSample('water-temperature', total.on, context);
  const temperatureC = measuredC?.value ?? context.outlook.medianC(total.on);
  const value = unionisedAmmoniaMgNPerL({
    totalAmmoniaMgNPerL: total.value,
    temperatureC: Math.min(Math.max(temperatureC, FIT_RANGE_C.min), FIT_RANGE_C.max),
    ph: ph.value,
  });
  return [{ ...total, quantity: 'unionised-ammonia', value }];
}

function sameSample(quantity: ReadingQuantity, on: CivilDay, context: PlanningContext): PondReading | null {
  const reading =
    context.history.readings(quantity).find((candidate) => candidate.on === on) ??
    lastReading(context.history, quantity, on);
  return reading && Math.abs(reading.on - on) <= SAME_SAMPLE_DAYS ? reading : null;
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
};

/** Stored unit of a quantity. */
export function unitOf(quantity: ReadingQuantity): string {
  return UNITS[quantity];
}
