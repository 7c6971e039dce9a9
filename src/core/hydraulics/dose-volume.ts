import { requireWithin } from '../errors.js';

/** A volume nobody measured. [%] */
export const UNKNOWN_VOLUME_SIGMA_PCT = 25;
/** Up to here the volume itself is dosed for; above this it should be measured first. [%] */
const PLAIN_TO_SIGMA_PCT = 10;
const MEASURE_ABOVE_SIGMA_PCT = 15;

/**
 * The volume a dose is worked out for. [L]
 * With an error of at most 10 % the volume itself. Above, corrections (alkalinity, salt) take the low volume V (1 - s),
 * the dechlorinator of the first fill the high one V (1 + s).
 * @see Common practice.
 */
export function doseVolumeL(pond: {
  volumeL: number;
  volumeSigmaPct: number;
  purpose: 'correction' | 'first-fill';
}): number {
  requireWithin('pond volume, L', pond.volumeL, { min: 1, max: 10_000_000 });
  requireWithin('error of the volume, %', pond.volumeSigmaPct, { min: 0, max: 90 });
  if (pond.volumeSigmaPct <= PLAIN_TO_SIGMA_PCT) return pond.volumeL;
  const sigmaShare = pond.volumeSigmaPct / 100;
  return pond.volumeL * (pond.purpose === 'first-fill' ? 1 + sigmaShare : 1 - sigmaShare);
}

/** Whether the volume is so uncertain that it should be measured before anything is dosed (above 15 %). */
export function isVolumeUncertain(pond: { volumeSigmaPct: number }): boolean {
  requireWithin('error of the volume, %', pond.volumeSigmaPct, { min: 0, max: 90 });
  return pond.volumeSigmaPct > MEASURE_ABOVE_SIGMA_PCT;
}
