import { type BundleTask, ROUNDING_MIN } from './bundle-task.js';

type WindowedWork = Pick<BundleTask, 'earliest' | 'latest' | 'minutes'>;

/**
 * No plan has fewer visits than this: the largest sum, over day ranges that do not overlap, of the visits which the
 * work with its whole window inside a range needs by its minutes alone. Without a limit of minutes it is the largest
 * number of windows that do not overlap, and then a plan with so many visits exists.
 * @param work Windows and work times, none longer than a visit. [min]
 * @param minutesPerVisit Most work in one visit; Infinity for no limit. [min]
 * @see Disjoint intervals as the dual of interval stabbing: Gupta, Lee & Leung (1982), Networks 12, 459-467 (from
 *      memory); the minutes in it are derived.
 */
export function fewestVisitsBound(work: readonly WindowedWork[], minutesPerVisit: number): number {
  const latestStartFirst = [...work].sort((a, b) => b.earliest - a.earliest);
  const ends = [...new Set(work.map((one) => one.latest))].sort((a, b) => a - b);
  const endsBefore = latestStartFirst.map((one) => ends.filter((end) => end < one.earliest).length);
  // boundUpTo[i]: the bound over ranges that end before the i-th end.
  const boundUpTo: number[] = [0];
  for (const end of ends) {
    let best = boundUpTo.at(-1) as number;
    let minutes = 0;
    latestStartFirst.forEach((one, i) => {
      if (one.latest > end) return;
      minutes += one.minutes;
      best = Math.max(best, (boundUpTo[endsBefore[i] as number] as number) + visitsFor(minutes, minutesPerVisit));
    });
    boundUpTo.push(best);
  }
  return boundUpTo.at(-1) as number;
}

function visitsFor(minutes: number, minutesPerVisit: number): number {
  return Math.max(1, Math.ceil((minutes - ROUNDING_MIN) / minutesPerVisit));
}
