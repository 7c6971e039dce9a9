import { InvalidValueError, requireWithin } from '../errors.js';
import type { CivilDay } from '../units/civil-day.js';
import { alignBundles } from './bundle-alignment.js';
import { fewestBundles } from './bundle-search.js';
import { type BundleTask, fitsVisit, withParts } from './bundle-task.js';
import { type BoundRange, visitsCertificate } from './visit-bound.js';

export type { BoundRange, BundleTask };

export interface BundledVisit {
  /** In order of their latest day. */
  readonly taskIds: readonly string[];
  /** The days on which every task of the visit may be done: the intersection of their windows. */
  readonly dueWindow: { readonly earliest: CivilDay; readonly latest: CivilDay };
  /** Work and one set-up. */
  readonly minutes: number;
  readonly people: 1 | 2;
  readonly skills: readonly string[];
}

export interface Bundling {
  /** In order of their due windows. */
  readonly visits: readonly BundledVisit[];
  /** No plan has fewer visits. */
  readonly lowerBound: number;
  /** Whether the number of visits was proved to be the fewest: it meets the bound, or the search was exhausted. */
  readonly isProvenOptimal: boolean;
  /**
   * Day ranges that do not overlap with the visits their work needs: the sum is a bound anybody can check. Of each crew
   * apart, tasks longer than a visit left out.
   */
  readonly certificate: readonly BoundRange[];
  /** Tasks whose parts come after their window; they are done when the parts are there. */
  readonly lateForParts: readonly string[];
  /** Tasks longer than a visit may be: each has a visit of its own, none is split. */
  readonly oversize: readonly string[];
}

/** A day is 1,440 minutes; nothing longer is one attendance. */
const MINUTES_RANGE = { min: 0, max: 1440 } as const;
/** A pond has at most about 40 tasks in a season; many more is a slip of the caller. */
const MOST_TASKS = 500;

/**
 * Puts the technician tasks of one pond into the fewest visits: each task on a day of its window, each visit with at
 * most `minutesPerVisit` of work. Work for two people stays apart from work for one, nothing is done before its parts are
 * there, and where it costs no visit, tasks that go together meet. Of a visit, any day of its due window will do;
 * choosing it is left to the round.
 * @param input.minutesPerVisit Most work in one visit, set-up not counted; null for no limit. [min]
 * @param input.setUpMinutes Parking, unloading, clearing up: once a visit. [min]
 * @throws InvalidValueError for a window that ends before it starts, or an id given twice.
 * @see Interval stabbing (Gupta, Lee & Leung 1982, from memory) with a limit as in bin packing; greedy, bound and
 *      branch and bound are derived.
 */
export function bundleTasks(input: {
  readonly tasks: readonly BundleTask[];
  readonly minutesPerVisit: number | null;
  readonly setUpMinutes: number;
}): Bundling {
  requireUsable(input);
  const minutesPerVisit = input.minutesPerVisit ?? Number.POSITIVE_INFINITY;
  const tasks = input.tasks.map(withParts).sort(inOrderOfClosing);
  const crews = ([1, 2] as const).map((people) =>
    bundleCrew(
      tasks.filter((task) => task.people === people),
      minutesPerVisit,
    ),
  );
  const visits = crews.flatMap((crew) => crew.bundles).map((bundle) => visitOf(bundle, input.setUpMinutes));
  return {
    visits: visits.sort(inOrderOfWindows),
    lowerBound: crews.reduce((sum, crew) => sum + crew.lowerBound, 0),
    isProvenOptimal: crews.every((crew) => crew.isProvenOptimal),
    certificate: crews.flatMap((crew) => crew.certificate),
    lateForParts: input.tasks
      .filter((task) => task.partsFrom !== undefined && task.partsFrom > task.latest)
      .map((task) => task.id),
    oversize: crews.flatMap((crew) => crew.oversize),
  };
}

function inOrderOfClosing(a: BundleTask, b: BundleTask): number {
  return a.latest - b.latest || a.earliest - b.earliest || (a.id < b.id ? -1 : 1);
}

function inOrderOfWindows({ dueWindow: a, taskIds: [first = ''] }: BundledVisit, other: BundledVisit): number {
  const b = other.dueWindow;
  return a.latest - b.latest || a.earliest - b.earliest || (first < (other.taskIds[0] ?? '') ? -1 : 1);
}

function bundleCrew(tasks: readonly BundleTask[], minutesPerVisit: number) {
  const oversize = tasks.filter((task) => !fitsVisit(task.minutes, minutesPerVisit));
  const rest = tasks.filter((task) => fitsVisit(task.minutes, minutesPerVisit));
  const certificate = visitsCertificate(rest, minutesPerVisit);
  const bound = certificate.reduce((sum, range) => sum + range.visits, 0);
  const { bundles, isProven } = fewestBundles(rest, minutesPerVisit, bound);
  return {
    bundles: [...oversize.map((task) => [task]), ...alignBundles(bundles, minutesPerVisit)],
    certificate,
    lowerBound: oversize.length + (isProven ? bundles.length : bound),
    isProvenOptimal: isProven,
    oversize: oversize.map((task) => task.id),
  };
}

function visitOf(tasks: readonly BundleTask[], setUpMinutes: number): BundledVisit {
  const inOrder = [...tasks].sort(inOrderOfClosing);
  return {
    taskIds: inOrder.map((task) => task.id),
    dueWindow: {
      earliest: Math.max(...tasks.map((task) => task.earliest)) as CivilDay,
      latest: Math.min(...tasks.map((task) => task.latest)) as CivilDay,
    },
    minutes: setUpMinutes + tasks.reduce((sum, task) => sum + task.minutes, 0),
    people: tasks.some((task) => task.people === 2) ? 2 : 1,
    skills: [...new Set(tasks.flatMap((task) => task.skills))].sort(),
  };
}

function requireUsable(input: Parameters<typeof bundleTasks>[0]): void {
  requireWithin('tasks to bundle', input.tasks.length, { min: 0, max: MOST_TASKS });
  requireWithin('set-up, minutes', input.setUpMinutes, MINUTES_RANGE);
  if (input.minutesPerVisit !== null) {
    requireWithin('minutes per visit', input.minutesPerVisit, { min: 1, max: MINUTES_RANGE.max });
  }
  const seen = new Set<string>();
  for (const task of input.tasks) {
    requireWithin(`minutes of task ${task.id}`, task.minutes, MINUTES_RANGE);
    if (!(task.earliest <= task.latest)) {
      throw new InvalidValueError(
        `window of task ${task.id}`,
        [task.earliest, task.latest],
        'Give an earliest day that is not after the latest.',
      );
    }
    if (seen.has(task.id)) throw new InvalidValueError('task id', task.id, 'Give each task once.');
    seen.add(task.id);
  }
}
