import { requireWithin } from '../errors.js';
import {
  CERTAIN_SIGMAS,
  LEAK_FROM_MM_PER_DAY,
  type LeakVerdict,
  type LeakVerdictKind,
  TIGHT_UP_TO_MM_PER_DAY,
} from './leak-finder.js';
import { type LossReference, RULER_SIGMA_MM, reckonedSigmaMmPerDay, rulerSigmaMmPerDay } from './loss-errors.js';

/** Nobody keeps levels longer than a fortnight, and rain spoils it. [d] */
export const LONGEST_TEST_DAYS = 14;
/** One night alone may mislead: wind on the ruler, a pump that was off (common practice, 1 to 3). [d] */
const SHORTEST_TEST_DAYS = 2;

/** What a test of some length would be reckoned with. */
export interface PlannedTest {
  readonly reference: LossReference;
  readonly evaporationMmPerDay: number;
  readonly hasWaterfall: boolean;
  readonly rulerSigmaMm?: number;
}

/**
 * Days to measure so that a leak of 5 mm a day and a tight pond are told apart, each with 95 %; null where a fortnight
 * is not enough, which happens by the climate alone in warm dry weather: then a bucket has to stand in the pond.
 *   the first n with 2 x 1.645 sigma(n) <= 5 - 2
 * @param test.evaporationMmPerDay 0 to 30. [mm/day]
 * @see Propagation of errors (derived).
 */
export function measuringDays(test: PlannedTest): number | null {
  requireWithin('evaporation, mm/day', test.evaporationMmPerDay, { min: 0, max: 30 });
  const apart = (LEAK_FROM_MM_PER_DAY - TIGHT_UP_TO_MM_PER_DAY) / (2 * CERTAIN_SIGMAS);
  return firstDay(SHORTEST_TEST_DAYS, (days) => testSigmaMmPerDay(test, days) <= apart);
}

/**
 * Days the test would have to last in all to settle what it shows so far; null where a fortnight does not settle it.
 * Takes for granted that the rate seen so far goes on.
 */
export function daysToSettle(
  test: PlannedTest,
  soFar: Pick<LeakVerdict, 'unexplainedMmPerDay' | 'days'>,
): number | null {
  const off = Math.abs(soFar.unexplainedMmPerDay - TIGHT_UP_TO_MM_PER_DAY);
  return firstDay(Math.floor(soFar.days) + 1, (days) => off >= CERTAIN_SIGMAS * testSigmaMmPerDay(test, days));
}

/** Error of the rate a test of two levels over some days would give. [mm/day] */
export function testSigmaMmPerDay(test: PlannedTest, days: number): number {
  const { reference, rulerSigmaMm = RULER_SIGMA_MM } = test;
  const parts = { ...test, days, sprayedFlowMmPerH: 0, rainMmPerDay: 0, addedMmPerDay: 0 };
  return Math.hypot(rulerSigmaMmPerDay({ reference, days, rulerSigmaMm }), reckonedSigmaMmPerDay(parts));
}

function firstDay(from: number, isEnough: (days: number) => boolean): number | null {
  for (let days = from; days <= LONGEST_TEST_DAYS; days++) if (isEnough(days)) return days;
  return null;
}

/**
 * Where a leak sits, from a test with the pumps running and one with them off; null while they do not tell.
 * `pumped`: falls, stream, filter or pipes. `basin`: liner or edge; more may leak while the pumps run.
 * @see Common practice.
 */
export function leakPlace(tests: { pumpsOn: LeakVerdictKind; pumpsOff: LeakVerdictKind }): 'basin' | 'pumped' | null {
  if (tests.pumpsOff === 'leak') return 'basin';
  return tests.pumpsOn === 'leak' && tests.pumpsOff === 'tight' ? 'pumped' : null;
}
