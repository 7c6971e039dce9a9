import { requireWithin } from '../errors.js';

/** Liner lying on each bank, and under heavy edging (common practice: 1 and 1.5 ft). [m] */
export const LINER_OVERLAP_M = 0.3;
export const LINER_OVERLAP_UNDER_STONE_M = 0.45;

const SIDE_RANGE_M = { min: 0.1, max: 1000 } as const;

/**
 * Cut size of a liner, before rounding up to a stock width. [m]
 *   side + 2 deepest + 2 overlap
 * Shelves need nothing extra: their level parts lie inside the length. 4 x 3 m, 0.9 m deep: 6.4 x 5.4 m.
 * @param pond.overlapM On each side, 0.1 to 1; 0.3 when left out. [m]
 */
export function linerSize(pond: { lengthM: number; widthM: number; maxDepthM: number; overlapM?: number }): {
  lengthM: number;
  widthM: number;
} {
  const { overlapM = LINER_OVERLAP_M } = pond;
  requireWithin('length, m', pond.lengthM, SIDE_RANGE_M);
  requireWithin('width, m', pond.widthM, SIDE_RANGE_M);
  requireWithin('deepest point, m', pond.maxDepthM, { min: 0.05, max: 20 });
  requireWithin('overlap, m', overlapM, { min: 0.1, max: 1 });
  const extraM = 2 * pond.maxDepthM + 2 * overlapM;
  return { lengthM: pond.lengthM + extraM, widthM: pond.widthM + extraM };
}
