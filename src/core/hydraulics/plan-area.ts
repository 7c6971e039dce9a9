import { InvalidValueError, requireWithin } from '../errors.js';

/** The outline of a pond at its normal water line. */
export type PlanShape =
  | { readonly kind: 'rectangle'; readonly lengthM: number; readonly widthM: number }
  | { readonly kind: 'circle'; readonly diameterM: number }
  | { readonly kind: 'ellipse'; readonly lengthM: number; readonly widthM: number }
  /** Straight sides with half-round ends; the length includes the ends. */
  | { readonly kind: 'stadium'; readonly lengthM: number; readonly widthM: number }
  /** Two lobes: the width across each, and the longest length. */
  | {
      readonly kind: 'kidney';
      readonly lengthM: number;
      readonly widthM: number;
      readonly otherWidthM: number;
    }
  | { readonly kind: 'measured-area'; readonly areaM2: number };

const SIDE_RANGE_M = { min: 0.1, max: 1000 } as const;
const AREA_RANGE_M2 = { min: 0.01, max: 100_000 } as const;
/** Share of the length times the sum of both widths that a kidney covers (common practice). [-] */
const KIDNEY_SHARE = 0.45;

/**
 * Plan area of a pond. [m²]
 * Sides and diameters 0.1 to 1000 m, a measured area 0.01 to 100,000 m². A stadium is at least as long as wide.
 */
export function planAreaM2(shape: PlanShape): number {
  switch (shape.kind) {
    case 'measured-area':
      requireWithin('surface area, m²', shape.areaM2, AREA_RANGE_M2);
      return shape.areaM2;
    case 'circle':
      requireWithin('diameter, m', shape.diameterM, SIDE_RANGE_M);
      return (Math.PI * shape.diameterM ** 2) / 4;
    case 'rectangle':
    case 'ellipse':
    case 'stadium':
      requireWithin('length, m', shape.lengthM, SIDE_RANGE_M);
      requireWithin('width, m', shape.widthM, SIDE_RANGE_M);
      return areaOfLengthAndWidth(shape);
    case 'kidney':
      return kidneyAreaM2(shape);
    default:
      throw new InvalidValueError(
        'shape',
        (shape as { kind: unknown }).kind,
        'Use rectangle, circle, ellipse, stadium, kidney or measured-area.',
      );
  }
}

/**
 * Area of a kidney: 0.45 (width of one lobe + width of the other) length. [m²]
 * @see Common practice; 20 ft long, 15 and 10 ft wide: 225 sq ft, read at hunker.com/13418172.
 */
function kidneyAreaM2({ lengthM, widthM, otherWidthM }: Extract<PlanShape, { kind: 'kidney' }>): number {
  requireWithin('length, m', lengthM, SIDE_RANGE_M);
  requireWithin('width, m', widthM, SIDE_RANGE_M);
  requireWithin('width of the other lobe, m', otherWidthM, SIDE_RANGE_M);
  return KIDNEY_SHARE * (widthM + otherWidthM) * lengthM;
}

type LongShape = Extract<PlanShape, { kind: 'rectangle' | 'ellipse' | 'stadium' }>;

function areaOfLengthAndWidth({ kind, lengthM, widthM }: LongShape): number {
  if (kind === 'rectangle') return lengthM * widthM;
  if (kind === 'ellipse') return (Math.PI * lengthM * widthM) / 4;
  if (lengthM < widthM) {
    throw new InvalidValueError(
      'length, m',
      lengthM,
      `It is measured over the round ends: at least the width, ${widthM} m.`,
    );
  }
  return (Math.PI * widthM ** 2) / 4 + widthM * (lengthM - widthM);
}

/** Plan area of a round pond from the length of its shoreline: P² / 4 pi. [m²] */
export function circleAreaFromShorelineM2(circle: { shorelineM: number }): number {
  requireWithin('shoreline, m', circle.shorelineM, { min: 0.3, max: 10_000 });
  return circle.shorelineM ** 2 / (4 * Math.PI);
}

/**
 * Mean depth from soundings along lines from bank to bank: the sum over the number, the zeros at the banks counted. [m]
 * Leaving the zeros out made a published example 21 % too deep.
 */
export function meanDepthOfSoundingsM(soundingsM: readonly number[]): number {
  if (soundingsM.length === 0) {
    throw new InvalidValueError('soundings', soundingsM, 'Give at least one depth, with 0 for each bank.');
  }
  let sumM = 0;
  for (const depthM of soundingsM) {
    requireWithin('sounding, m', depthM, { min: 0, max: 20 });
    sumM += depthM;
  }
  return sumM / soundingsM.length;
}
