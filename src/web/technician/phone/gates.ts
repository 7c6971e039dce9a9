import type { HeldGate } from './store.js';

/** A clock set back by more than this no longer tells when a day is over. [ms] */
const CLOCK_SLACK_MS = 10 * 60_000;
/** A round older than this is not shown any more. [ms] */
export const ROUND_KEPT_MS = 48 * 3_600_000;

/** Gate codes that may still be shown: the day of the visit is not over, as far as the phone's clock can be believed. */
export function gatesStillHeld(gates: readonly HeldGate[], nowMs: number): HeldGate[] {
  return gates.filter(({ receivedMs, keepMs }) => {
    const sinceMs = nowMs - receivedMs;
    return sinceMs >= -CLOCK_SLACK_MS && sinceMs < keepMs;
  });
}

/** Whether a round fetched then may still be shown. */
export function isRoundFresh(receivedMs: number, nowMs: number): boolean {
  return Math.abs(nowMs - receivedMs) < ROUND_KEPT_MS;
}
