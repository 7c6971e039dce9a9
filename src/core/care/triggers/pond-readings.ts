import type { CivilDay } from '../../units/civil-day.js';
import { unionisedAmmoniaMgNPerL } from '../../water/ammonia.js';
import type { PondReading } from '../care-plan.js';
import type { ReadingQuantity } from '../care-rule.js';
import { lastReading } from '../history-index.js';
import type { PlanningContext } from '../planning-context.js';
import type { Equipment } from '../pond-facts.js';

/** pH and temperature belong to an ammonia reading when taken no further apart than this. [days] */
const SAME_SAMPLE_DAYS = 1;
const FIT_RANGE_C = { min: 0, max: 50 } as const;

/**
 * Readings of a quantity, oldest first; un-ionised ammonia is worked out where a sample has what it takes. With a
 * machine only those taken at it since it was fitted, and those that name none while it is the only one of its kind;
 * the flow of a filter is that of the only pump.
 */
export function readingsOf(
  quantity: ReadingQuantity,
  context: PlanningContext,
  machine: Equipment | null = null,
): readonly PondReading[] {
  const readings = quantity === 'unionised-ammonia' ? unionisedReadings(context) : context.history.readings(quantity);
  if (machine === null) return readings;
  const at = quantity === 'pump-flow' && machine.kind !== 'pump' ? onlyPump(context) : machine;
  if (at === null) return [];
  const isOnly = context.pond.equipment.filter(({ kind }) => kind === at.kind).length === 1;
  const fittedOn = at.installedOn ?? Number.NEGATIVE_INFINITY;
  return readings.filter(
    ({ equipmentId, on }) => on >= fittedOn && (equipmentId === undefined ? isOnly : equipmentId === at.id),
  );
}

function onlyPump({ pond }: PlanningContext): Equipment | null {
  const pumps = pond.equipment.filter(({ kind }) => kind === 'pump');
  return pumps.length === 1 ? (pumps[0] ?? null) : null;
}

function unionisedReadings(context: PlanningContext): readonly PondReading[] {
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
