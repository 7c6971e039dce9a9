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
  /** Ids of tasks it is better done together with, where that costs no further visit. */
  readonly alignWith?: readonly string[];
  /** The day from which its parts are there, where they have to be ordered. */
  readonly partsFrom?: CivilDay;
}

/** The days on which a task can be done once its parts are there. One whose parts come after its window is late. */
export function withParts(task: BundleTask): BundleTask {
  const { partsFrom } = task;
  if (partsFrom === undefined || partsFrom <= task.earliest) return task;
  return { ...task, earliest: partsFrom, latest: Math.max(task.latest, partsFrom) as CivilDay };
}

/** Sums of minutes carry rounding: this much over a limit is not over it. */
export const ROUNDING_MIN = 1e-9;

/** Whether a sum of minutes stays inside what one visit may take. */
export function fitsVisit(minutes: number, minutesPerVisit: number): boolean {
  return minutes <= minutesPerVisit + ROUNDING_MIN;
}

/** Whether tasks can be one visit: a day in common, inside its minutes, none that must stay apart. */
export function mayShareAVisit(tasks: readonly BundleTask[], minutesPerVisit: number): boolean {
  const earliest = Math.max(...tasks.map((task) => task.earliest));
  const latest = Math.min(...tasks.map((task) => task.latest));
  const minutes = tasks.reduce((sum, task) => sum + task.minutes, 0);
  return earliest <= latest && fitsVisit(minutes, minutesPerVisit) && !tasks.some((task) => isForbidden(task, tasks));
}

export function isForbidden(task: BundleTask, others: readonly BundleTask[]): boolean {
  return others.some((other) => task.notWith?.includes(other.id) || other.notWith?.includes(task.id));
}
