import { describe, expect, it } from '@jest/globals';
import { MOST_TRIES, waitAfterTryMinutes } from '../../src/reminders/retry-schedule.js';

describe('waitAfterTryMinutes', () => {
  it('waits half an hour, one, two, then four hours, never less', () => {
    expect([1, 2, 3, 4, 9].map((tries) => waitAfterTryMinutes(tries, 0))).toEqual([30, 60, 120, 240, 240]);
    expect(waitAfterTryMinutes(1, 1)).toBe(32);
  });

  it('ends within 48 hours even with the longest waits', () => {
    let minutes = 0;
    for (let tries = 1; tries < MOST_TRIES; tries++) minutes += waitAfterTryMinutes(tries, 1) as number;
    expect(minutes).toBeLessThanOrEqual(48 * 60);
    expect(minutes).toBeGreaterThan(46 * 60);
    expect(waitAfterTryMinutes(MOST_TRIES, 0)).toBeNull();
  });
});
