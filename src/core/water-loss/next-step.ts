import type { LeakVerdict, LeakVerdictKind } from './leak-finder.js';
import { daysToSettle, leakPlace, measuringDays, type PlannedTest } from './measuring-time.js';

/** What to do after a test. */
export type LeakNextStep =
  /** The level stopped falling there: look along that height. */
  | { readonly kind: 'search-height'; readonly belowMarkMm: number }
  /** Tight with the pumps off: falls, stream, filter and pipes. */
  | { readonly kind: 'search-pumped' }
  | { readonly kind: 'search-basin' }
  /** Repeat it the other way, to tell the basin from what is pumped. */
  | { readonly kind: 'repeat'; readonly pumps: 'on' | 'off'; readonly days: number }
  /** Go on until the test has lasted this long in all. */
  | { readonly kind: 'go-on'; readonly days: number }
  /** The weather is too uncertain: begin anew with a bucket standing in the pond. */
  | { readonly kind: 'stand-a-bucket'; readonly days: number }
  /** So near the limit that measuring on settles nothing. */
  | { readonly kind: 'repeat-later' }
  | { readonly kind: 'shut-the-inlet' }
  | { readonly kind: 'nothing' };

/**
 * What to do after a leak test.
 * @param test.other Verdict of the newest test of this pond with the pumps the other way; null where there is none.
 * @see Common practice; the days follow from the errors.
 */
export function leakNextStep(test: {
  verdict: LeakVerdict;
  pumps: 'on' | 'off';
  other: LeakVerdictKind | null;
  planned: PlannedTest;
}): LeakNextStep {
  const { verdict, pumps, other, planned } = test;
  if (verdict.verdict === 'came-in') return { kind: 'shut-the-inlet' };
  if (verdict.verdict === 'undecided') return settle(verdict, planned);
  const [pumpsOn, pumpsOff] = pumps === 'on' ? [verdict.verdict, other] : [other, verdict.verdict];
  const place = pumpsOn && pumpsOff ? leakPlace({ pumpsOn, pumpsOff }) : null;
  if (place === 'pumped') return { kind: 'search-pumped' };
  if (verdict.verdict === 'tight') return { kind: 'nothing' };
  if (verdict.stoppedAtMm !== null) return { kind: 'search-height', belowMarkMm: verdict.stoppedAtMm };
  if (place === 'basin' || pumps === 'off') return { kind: 'search-basin' };
  return { kind: 'repeat', pumps: 'off', days: measuringDays({ ...planned, hasWaterfall: false }) ?? USUAL_DAYS };
}

/** With a bucket, when the errors give no shorter time. [d] */
const USUAL_DAYS = 3;

function settle(verdict: LeakVerdict, planned: PlannedTest): LeakNextStep {
  const days = daysToSettle(planned, verdict);
  if (days !== null) return { kind: 'go-on', days };
  if (planned.reference === 'bucket') return { kind: 'repeat-later' };
  return { kind: 'stand-a-bucket', days: measuringDays({ ...planned, reference: 'bucket' }) ?? USUAL_DAYS };
}
