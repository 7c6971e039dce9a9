import { InvalidValueError, requireWithin } from '../errors.js';
import { simpson } from './depth-contours.js';

/** A corner of a surveyed outline, measured along and across a straight line. */
export interface OutlinePoint {
  readonly xM: number;
  readonly yM: number;
}

const POINT_RANGE_M = { min: -10_000, max: 10_000 } as const;

/**
 * Area inside a surveyed outline, its corners in order either way round. [m²]
 *   |sum of x y' - x' y| / 2        (Gauss's area formula)
 * An outline that crosses itself is the caller's slip: its loops count against each other.
 */
export function outlineAreaM2(corners: readonly OutlinePoint[]): number {
  if (corners.length < 3) throw new InvalidValueError('corners', corners.length, 'An outline has at least three.');
  let twiceM2 = 0;
  for (const [i, { xM, yM }] of corners.entries()) {
    requireWithin('corner, m', xM, POINT_RANGE_M);
    requireWithin('corner, m', yM, POINT_RANGE_M);
    const next = corners[(i + 1) % corners.length] as OutlinePoint;
    twiceM2 += xM * next.yM - next.xM * yM;
  }
  return Math.abs(twiceM2) / 2;
}

/**
 * Area of a free form from its widths at even steps along its length, the ends counted (0 where it runs out). [m²]
 * Simpson's rule with an odd number of widths, the trapezoid rule with an even one.
 * @param survey.spacingM Between widths, 0.05 to 50; half a metre suits a garden pond. [m]
 * @param survey.widthsM At least three. [m]
 * @see Geometry (derived).
 */
export function areaFromWidthsM2(survey: { spacingM: number; widthsM: readonly number[] }): number {
  const { spacingM, widthsM } = survey;
  requireWithin('spacing of the widths, m', spacingM, { min: 0.05, max: 50 });
  if (widthsM.length < 3) throw new InvalidValueError('widths', widthsM.length, 'Give at least three, ends counted.');
  for (const widthM of widthsM) requireWithin('width, m', widthM, { min: 0, max: 1000 });
  if (widthsM.length % 2 === 1) return simpson(widthsM, spacingM);
  const sumM = widthsM.reduce((sum, widthM) => sum + widthM, 0);
  return spacingM * (sumM - ((widthsM[0] as number) + (widthsM.at(-1) as number)) / 2);
}
