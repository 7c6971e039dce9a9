import { requireWithin } from '../errors.js';
import { addDays, type CivilDay } from '../units/civil-day.js';

/** Days beyond the threshold before a live crossing counts (ruling 3, common practice; range 3 to 7). */
export const CONFIRM_FALLING_DAYS = 5;
export const CONFIRM_RISING_DAYS = 7;
/** How far the 7-day mean must go back before the same crossing can fire again. [°C] */
export const REARM_C = 2.0;
/** And how many days must have passed since it was confirmed. */
export const REARM_DAYS = 10;

export interface LiveCrossing {
  /** First day beyond the threshold. */
  readonly crossedOn: CivilDay;
  /** The day on which it is certain enough to act. */
  readonly confirmedOn: CivilDay;
}

/**
 * Crossings as they happen, day by day, without knowledge of what follows. Fires at the threshold itself after 5 days
 * (falling) or 7 (rising); the same crossing fires again only after the mean went 2.0 °C back and 10 days passed.
 * A missing day (NaN) breaks a run. At De Bilt this leaves 2 of 39 springs with a second crossing of 10 °C in 45 days,
 * persistence alone 18 (derived).
 * @param series.water7dMeanC Trailing 7-day means from `firstDay` on, oldest first. [°C]
 */
export function liveCrossings(series: {
  water7dMeanC: ArrayLike<number>;
  firstDay: CivilDay;
  thresholdC: number;
  direction: 'rising' | 'falling';
}): LiveCrossing[] {
  requireWithin('threshold, °C', series.thresholdC, { min: -1, max: 40 });
  const sign = series.direction === 'rising' ? 1 : -1;
  const confirmDays = series.direction === 'rising' ? CONFIRM_RISING_DAYS : CONFIRM_FALLING_DAYS;
  const crossings: LiveCrossing[] = [];
  let isArmed = true;
  let hasGoneBack = false;
  let run = 0;
  // Before the first day the side is unknown: a crossing needs a day on the near side first.
  let wasNear = false;
  let confirmedAt = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < series.water7dMeanC.length; i++) {
    const excess = sign * ((series.water7dMeanC[i] as number) - series.thresholdC);
    if (!isArmed && excess <= -REARM_C) hasGoneBack = true;
    if (!isArmed && hasGoneBack && i - confirmedAt >= REARM_DAYS) isArmed = true;
    if (excess > 0) {
      run = run > 0 || wasNear ? run + 1 : 0;
    } else {
      run = 0;
    }
    wasNear = excess <= 0;
    if (!isArmed || run < confirmDays) continue;
    crossings.push({ crossedOn: addDays(series.firstDay, i - run + 1), confirmedOn: addDays(series.firstDay, i) });
    isArmed = false;
    hasGoneBack = false;
    confirmedAt = i;
  }
  return crossings;
}
