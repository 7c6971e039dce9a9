import { requireWithin } from '../errors.js';
import { FOLLOWING_MUD_M } from './ground-heat.js';

/** Smaller water is mixed by its pumps or by a night of cooling. [m2] */
const STRATIFIES_FROM_M2 = 5000;

/**
 * Depth of water that takes part in the heat of a day: the mean depth and the mud that follows it, in a lake no more than
 * its upper mixed layer. Depth of the thermocline after Hanna (1990), J. Environ. Qual. (from memory): 6.95 L^0.185 with
 * the longest length L in km, taken as the diameter of a round lake. [m]
 * @param pond.meanDepthM 0.05 to 30. @param pond.surfaceAreaM2 0.2 to 1e8.
 */
export function effectiveDepthM(pond: { meanDepthM: number; surfaceAreaM2: number }): number {
  requireWithin('mean depth, m', pond.meanDepthM, { min: 0.05, max: 30 });
  requireWithin('surface area, m2', pond.surfaceAreaM2, { min: 0.2, max: 1e8 });
  const depthM = pond.meanDepthM + FOLLOWING_MUD_M;
  if (pond.surfaceAreaM2 < STRATIFIES_FROM_M2) return depthM;
  const lengthKm = (2 * Math.sqrt(pond.surfaceAreaM2 / Math.PI)) / 1000;
  return Math.min(depthM, 6.95 * lengthKm ** 0.185);
}
