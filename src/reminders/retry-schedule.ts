/**
 * When a mail that was put off is tried again, in minutes after each try: half an hour, one, two, then every four
 * hours (common practice; RFC 5321 section 4.5.4.1 asks for at least 30 minutes). The last try is 47.5 hours after
 * the first, so nothing is tried for longer than two days.
 */
const FIRST_WAITS_MINUTES = [30, 60, 120] as const;
const LATER_WAIT_MINUTES = 240;
const LONGEST_MINUTES = 48 * 60;
/** Spread, so that mails put off together do not come back together; small enough to stay inside two days. */
const JITTER_MINUTES = 2;

/** How many tries a mail gets in all, the first one included. */
export const MOST_TRIES = triesWithin(LONGEST_MINUTES);

/**
 * Minutes to wait after the given try, or null when it was the last one.
 * @param tries Tries made so far, 1 or more.
 * @param spread 0 to 1, from a source of randomness that the caller hands in.
 */
export function waitAfterTryMinutes(tries: number, spread: number): number | null {
  if (tries >= MOST_TRIES) return null;
  return (FIRST_WAITS_MINUTES[tries - 1] ?? LATER_WAIT_MINUTES) + JITTER_MINUTES * spread;
}

function triesWithin(minutes: number): number {
  let elapsed = 0;
  let tries = 1;
  for (;;) {
    elapsed += FIRST_WAITS_MINUTES[tries - 1] ?? LATER_WAIT_MINUTES;
    if (elapsed > minutes) return tries;
    tries += 1;
  }
}
