import type { CivilDay } from '../units/civil-day.js';

/** A care task of one pond, as bundling sees it. Window with closed ends. */
export interface BundleTask {
  readonly id: string;
  readonly earliest: CivilDay;
  readonly latest: CivilDay;
  readonly minutes: number;
  readonly people: 1 | 2;
  readonly skills: readonly string[];
  /** Ids of tasks that must not be done on the same visit, e.g. a media rinse and a large water change. */
  readonly notWith?: readonly string[];
}

/** Sums of minutes carry rounding: this much over a limit is not over it. */
export const ROUNDING_MIN = 1e-9;

/** Whether a sum of minutes stays inside what one visit may take. */
export function fitsVisit(minutes: number, minutesPerVisit: number): boolean {
  return minutes <= minutesPerVisit + ROUNDING_MIN;
}
