import { InvalidValueError, requireWithin } from '../errors.js';

/** Household pressure drifts by this between fillings (common practice, 10 to 20). [%] */
const PRESSURE_DRIFT_PCT = 10;

export interface TimedFlow {
  readonly flowLPerH: number;
  /** One standard deviation. [%] */
  readonly sigmaPct: number;
}

/**
 * Flow of a hose or a pump outlet by timing a bucket, once or better three times. [L/h]
 * The error is the spread of the timings, and never less than a hand on a stopwatch gives (half a second).
 * @param test.bucketL 1 to 1000. [L]
 * @param test.secondsPerBucket Each 1 to 3600. [s]
 * @see Common practice.
 */
export function bucketFlow(test: { bucketL: number; secondsPerBucket: readonly number[] }): TimedFlow {
  requireWithin('bucket, L', test.bucketL, { min: 1, max: 1000 });
  if (test.secondsPerBucket.length === 0) {
    throw new InvalidValueError('seconds', test.secondsPerBucket, 'Time at least one bucket.');
  }
  let sumS = 0;
  for (const seconds of test.secondsPerBucket) {
    requireWithin('seconds to fill the bucket', seconds, { min: 1, max: 3600 });
    sumS += seconds;
  }
  const meanS = sumS / test.secondsPerBucket.length;
  const spread = Math.max(...test.secondsPerBucket) - Math.min(...test.secondsPerBucket);
  const sigmaPct = (100 * Math.max(0.5, spread / 2)) / meanS;
  return { flowLPerH: (test.bucketL * 3600) / meanS, sigmaPct };
}

/** Volume filled by a hose of known flow over a time, with the drift of the mains in its error. [L] */
export function timedFillVolume(fill: { flow: TimedFlow; hours: number }): {
  volumeL: number;
  volumeSigmaPct: number;
} {
  requireWithin('hours of filling', fill.hours, { min: 0.01, max: 1000 });
  return {
    volumeL: fill.flow.flowLPerH * fill.hours,
    volumeSigmaPct: Math.hypot(fill.flow.sigmaPct, PRESSURE_DRIFT_PCT),
  };
}
