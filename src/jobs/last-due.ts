import type { DateTime } from 'luxon';

/** Farther back than any schedule of ours repeats. */
const DAYS_BACK = 8;
const MINUTES_PER_DAY = 1440;

/**
 * The last whole minute before `now`, at most eight days back, at which a schedule was due; null if there is none.
 * @param isDue whether the schedule names this minute
 */
export function lastDueBefore(now: DateTime<true>, isDue: (at: Date) => boolean): Date | null {
  const thisMinute = now.toUTC().startOf('minute').toMillis();
  for (let back = 0; back <= DAYS_BACK * MINUTES_PER_DAY; back++) {
    const at = new Date(thisMinute - back * 60_000);
    if (isDue(at)) return at;
  }
  return null;
}
