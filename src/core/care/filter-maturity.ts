import { filterMaturityShare } from '../filter/maturation.js';
import { addDays, type CivilDay } from '../units/civil-day.js';
import type { PlanningContext } from './planning-context.js';

/** The rule by which a new filter is first fed; before it is done, the day on which it is due (common practice). [d] */
export const FEED_RULE = 'run-in-feed-filter';
export const FED_AFTER_DAYS = 7;
/** A filter that has been fed so long is ripe in any water it may be fed in. [d] */
const RIPE_BY_THEN_DAYS = 365;
const WATER_RANGE_C = { min: -1, max: 45 } as const;

/** The day from which the filter of a new pond has been fed; null for a pond taken over, whose filter is ripe. */
export function fedFrom({ pond, history }: PlanningContext): CivilDay | null {
  if (pond.commissionedOn === null) return null;
  return history.lastCompleted(FEED_RULE)?.on ?? addDays(pond.commissionedOn, FED_AFTER_DAYS);
}

/** How ripe the pond's filter is on a day, by the water it has had along the median forecast. [-] */
export function filterMaturityOn(context: PlanningContext, day: CivilDay): number {
  const from = fedFrom(context);
  if (from === null || day - from >= RIPE_BY_THEN_DAYS) return 1;
  const days = Math.max(0, day - from);
  const temperaturesC = Array.from({ length: days }, (_, index) => {
    const waterC = context.outlook.median7dMeanC(addDays(from, index));
    return Math.min(Math.max(waterC, WATER_RANGE_C.min), WATER_RANGE_C.max);
  });
  return filterMaturityShare({ temperaturesC });
}
