import type { CivilDay } from '../units/civil-day.js';
import { type BundleTask, ROUNDING_MIN } from './bundle-task.js';

type WindowedWork = Pick<BundleTask, 'earliest' | 'latest' | 'minutes'>;

/** Days, both included, and the visits which the work with its whole window inside them needs by its minutes. */
export interface BoundRange {
  readonly earliest: CivilDay;
  readonly latest: CivilDay;
  readonly minutes: number;
  readonly visits: number;
}

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
  return visitsCertificate(work, minutesPerVisit).reduce((sum, { visits }) => sum + visits, 0);
}

/** The ranges behind the bound, in order of days. Anybody can add them up: no plan has fewer visits than their sum. */
export function visitsCertificate(work: readonly WindowedWork[], minutesPerVisit: number): BoundRange[] {
  const latestStartFirst = [...work].sort((a, b) => b.earliest - a.earliest);
  const ends = [...new Set(work.map((one) => one.latest))].sort((a, b) => a - b);
  const endsBefore = latestStartFirst.map((one) => ends.filter((end) => end < one.earliest).length);
  // best[i]: the ranges that end before the i-th end, and the sum of their visits.
  const best: { readonly sum: number; readonly ranges: readonly BoundRange[] }[] = [{ sum: 0, ranges: [] }];
  for (const latest of ends) {
    let found = best.at(-1) as (typeof best)[number];
    let minutes = 0;
    latestStartFirst.forEach(({ earliest, latest: end, minutes: own }, i) => {
      if (end > latest) return;
      minutes += own;
      // Windows that begin on one day are one range: it ends with the last of them.
      if (latestStartFirst.slice(i + 1).find((other) => other.latest <= latest)?.earliest === earliest) return;
      const before = best[endsBefore[i] as number] as (typeof best)[number];
      const visits = visitsFor(minutes, minutesPerVisit);
      if (before.sum + visits <= found.sum) return;
      found = { sum: before.sum + visits, ranges: [...before.ranges, { earliest, latest, minutes, visits }] };
    });
    best.push(found);
  }
  return [...(best.at(-1) as (typeof best)[number]).ranges];
}

function visitsFor(minutes: number, minutesPerVisit: number): number {
  return Math.max(1, Math.ceil((minutes - ROUNDING_MIN) / minutesPerVisit));
}
