import { DateTime } from 'luxon';
import { Clock, instantFrom } from '../../platform/clock.js';

/** Runs as fast as the real one, but began at another instant: the same in every process that is told both. */
export class ShiftedClock extends Clock {
  private readonly aheadMs: number;

  /** @param startedMs Real time at which `at` was, in milliseconds since 1970. */
  constructor(at: string, startedMs: number) {
    super();
    this.aheadMs = instantFrom(at).toMillis() - startedMs;
  }

  now(): DateTime<true> {
    return DateTime.utc().plus(this.aheadMs);
  }
}
