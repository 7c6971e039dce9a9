import type { Consequence } from '../core/care/care-rule.js';
import type { CivilDay } from '../core/units/civil-day.js';

/** What the choice needs to know of a task. */
export interface Choosable {
  readonly taskId: string;
  readonly consequence: Consequence;
  readonly routineLine: boolean;
  /** A standing line with nothing in it this week: no food, no top-up. */
  readonly isIdle: boolean;
  /** The day it is to be done; a day of "not now" has moved it. */
  readonly due: CivilDay;
  readonly latest: CivilDay;
  readonly putOffUntil: CivilDay | null;
  /** Weekly mails that asked this homeowner for it and were not answered. */
  readonly askedTimes: number;
}

export interface DigestChoice<T> {
  /** Open urgent tasks; they do not count among the three. */
  readonly urgent: readonly T[];
  /** At most three, the gravest first, then those with the fewest days left. */
  readonly tasks: readonly T[];
  /** Feed, skim, top up: one standing line. */
  readonly routine: readonly T[];
  /** What waits inside its window for a later week. */
  readonly waiting: readonly T[];
}

/** A homeowner is asked for at most this many things a week. */
export const MOST_TASKS = 3;
const GRAVITY: Readonly<Record<Consequence, number>> = { urgent: 2, care: 1, routine: 0 };

/**
 * Chooses what goes into the digest of the days `from` to `to` (both inclusive): tasks that come due by then and are
 * not past their latest date, nor put off beyond these days. A window that has only opened is no reason to ask: it
 * says "not before", and a mail that says "stop feeding" two weeks ahead would be acted on two weeks early. What was
 * asked for once and not answered rides in one more mail, the last before its latest date; after that it is the
 * office's to call.
 */
export function chooseForDigest<T extends Choosable>(
  tasks: readonly T[],
  days: { readonly from: CivilDay; readonly to: CivilDay },
): DigestChoice<T> {
  const open = tasks.filter(
    (task) =>
      task.latest >= days.from && task.due <= days.to && (task.putOffUntil === null || task.putOffUntil <= days.to),
  );
  const ranked = [...open].sort(
    (a, b) =>
      GRAVITY[b.consequence] - GRAVITY[a.consequence] ||
      a.latest - b.latest ||
      a.due - b.due ||
      (a.taskId < b.taskId ? -1 : 1),
  );
  const counted = ranked.filter(
    (task) => !task.routineLine && task.consequence !== 'urgent' && mayBeAsked(task, days.to),
  );
  return {
    urgent: ranked.filter((task) => !task.routineLine && task.consequence === 'urgent'),
    tasks: counted.slice(0, MOST_TASKS),
    routine: ranked.filter((task) => task.routineLine && !task.isIdle),
    waiting: counted.slice(MOST_TASKS),
  };
}

function mayBeAsked({ askedTimes, latest }: Choosable, to: CivilDay): boolean {
  return askedTimes === 0 || (askedTimes === 1 && latest <= to);
}
