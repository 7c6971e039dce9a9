import type { WinterClass } from '../care/pond-facts.js';
import { requireWithin } from '../errors.js';

/**
 * Nearly three feet, the depth the trade asks of a refuge in winter and against herons (common practice; 3 ft is 0.91 m,
 * and 2 ft 9 in is still "nearly"). [m]
 */
export const REFUGE_DEPTH_M = 0.84;
/** Water that must stay free below the ice (common practice, 0.3 to 0.6). [m] */
const FREE_BELOW_ICE_M: Readonly<Record<WinterClass, number>> = { W0: 0, W1: 0.45, W2: 0.45, W3: 0.6 };

export interface Refuge {
  /** Water left below the ice at the deepest point, never below 0. [m] */
  readonly freeDepthM: number;
  readonly neededFreeDepthM: number;
  /** Nearly three feet at the deepest point, which also keeps herons off. */
  readonly isRefugeDeep: boolean;
  /** Both in a frost climate; always in W0, which has no ice. */
  readonly isEnough: boolean;
  /** What is wrong in a frost climate; null when enough. */
  readonly warning: 'not-three-feet' | 'too-little-below-ice' | null;
}

/**
 * Whether fish can winter at the deepest point: nearly three feet of depth, and 0.45 m free below the ice (0.60 in W3).
 * @param pond.maxDepthM 0.05 to 20. [m]
 * @param pond.iceThicknessCm Design ice: mean of the 3 coldest of 30 winters, or the coldest of 10; 0 to 300. [cm]
 */
export function refugeDepth(pond: { maxDepthM: number; iceThicknessCm: number; winterClass: WinterClass }): Refuge {
  requireWithin('deepest point, m', pond.maxDepthM, { min: 0.05, max: 20 });
  requireWithin('ice thickness, cm', pond.iceThicknessCm, { min: 0, max: 300 });

  const freeDepthM = Math.max(0, pond.maxDepthM - pond.iceThicknessCm / 100);
  const neededFreeDepthM = FREE_BELOW_ICE_M[pond.winterClass];
  const isRefugeDeep = pond.maxDepthM >= REFUGE_DEPTH_M;
  const warning = pond.winterClass === 'W0' ? null : warningOf(freeDepthM, neededFreeDepthM, isRefugeDeep);
  return { freeDepthM, neededFreeDepthM, isRefugeDeep, isEnough: warning === null, warning };
}

function warningOf(freeDepthM: number, neededM: number, isRefugeDeep: boolean): Refuge['warning'] {
  // A pond of 0.85 m under 40 cm of ice has exactly 0.45 m; the last bit of the subtraction must not warn.
  if (freeDepthM < neededM - 1e-9) return 'too-little-below-ice';
  return isRefugeDeep ? null : 'not-three-feet';
}
