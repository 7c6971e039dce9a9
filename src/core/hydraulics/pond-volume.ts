import { InvalidValueError, requireWithin } from '../errors.js';
import { contourVolumeM3, type DepthContour } from './depth-contours.js';
import { type PlanShape, planAreaM2 } from './plan-area.js';

/** One layer of a pond with shelves: the plan area open in it and its height, from the water line down. */
export interface DepthLevel {
  readonly areaM2: number;
  readonly heightM: number;
}

/** What is known of the depth. */
export type PondDepth =
  /** Mean and deepest depth, measured or judged. */
  | { readonly kind: 'average'; readonly meanDepthM: number; readonly maxDepthM: number }
  /** A bowl of earth or liner of which only the deepest point is known. */
  | { readonly kind: 'bowl'; readonly maxDepthM: number }
  /** Straight walls and a level floor. */
  | { readonly kind: 'vertical'; readonly depthM: number }
  | { readonly kind: 'levels'; readonly levels: readonly DepthLevel[] }
  /** A survey: the area inside each depth line, from the water line down. */
  | { readonly kind: 'contours'; readonly contours: readonly DepthContour[] };

/** A pond as typed. `rockShare` is what rocks, pots and plinths take of the space, 0 to 0.35; 0.05 when left out. */
export type PondShape = PlanShape & { readonly depth: PondDepth; readonly rockShare?: number };

export type VolumeMethod =
  | 'metered-fill'
  | 'salt-dilution'
  | 'shelf-by-shelf'
  | 'depth-contours'
  | 'vertical-sides'
  | 'average-depth'
  | 'bowl-rule';

export interface PondVolume {
  readonly volumeL: number;
  readonly surfaceAreaM2: number;
  /** Volume over area. */
  readonly meanDepthM: number;
  readonly maxDepthM: number;
  readonly method: VolumeMethod;
  /** One standard deviation. [%] */
  readonly volumeSigmaPct: number;
}

/** Space taken by rocks and pots unless said otherwise (common practice). [-] */
export const USUAL_ROCK_SHARE = 0.05;
/** With more rock than this a volume by shelves or contours is a guess between stones. [-] */
const ROCKY_FROM_SHARE = 0.1;
/** Mean over deepest depth of a bowl; 12.6 % of error over 35 mapped ponds (published source: SEAFWA 1983). [-] */
const BOWL_MEAN_OVER_MAX_DEPTH = 0.4;
/** Errors of the methods (common practice). [%] */
const SIGMA_PCT: Readonly<Record<Exclude<VolumeMethod, 'salt-dilution'>, number>> = {
  'metered-fill': 2,
  'shelf-by-shelf': 5,
  'depth-contours': 5,
  'vertical-sides': 10,
  'average-depth': 20,
  'bowl-rule': 25,
};
const ROCKY_SURVEY_SIGMA_PCT = 8;

const DEPTH_RANGE_M = { min: 0.05, max: 20 } as const;
const ROCK_RANGE = { min: 0, max: 0.35 } as const;

/**
 * Volume of a pond from its typed shape, with the method and its error. Throws on a shape that cannot be.
 *   V = A D (1 - rock share); a bowl's D is 0.4 of its deepest point; levels are summed, area times height;
 *   contours by `contourVolumeM3`
 * 10 x 6 x 2 ft without rocks: 3,398 L.
 * @see Geometry (derived); the bowl rule and all errors are those of the constants above.
 */
export function pondVolume(shape: PondShape): PondVolume {
  const rockShare = shape.rockShare ?? USUAL_ROCK_SHARE;
  requireWithin('space taken by rocks, share', rockShare, ROCK_RANGE);
  const surfaceAreaM2 = planAreaM2(shape);
  const { spaceM3, maxDepthM, method } = spaceOf(shape.depth, surfaceAreaM2);

  const waterM3 = spaceM3 * (1 - rockShare);
  const isSurvey = method === 'shelf-by-shelf' || method === 'depth-contours';
  return {
    volumeL: waterM3 * 1000,
    surfaceAreaM2,
    meanDepthM: waterM3 / surfaceAreaM2,
    maxDepthM,
    method,
    volumeSigmaPct: isSurvey && rockShare > ROCKY_FROM_SHARE ? ROCKY_SURVEY_SIGMA_PCT : SIGMA_PCT[method],
  };
}

interface Space {
  readonly spaceM3: number;
  readonly maxDepthM: number;
  readonly method: Exclude<VolumeMethod, 'salt-dilution'>;
}

function spaceOf(depth: PondDepth, surfaceAreaM2: number): Space {
  switch (depth.kind) {
    case 'average':
      requireWithin('deepest point, m', depth.maxDepthM, DEPTH_RANGE_M);
      requireWithin('mean depth, m', depth.meanDepthM, { min: DEPTH_RANGE_M.min, max: depth.maxDepthM });
      return { spaceM3: surfaceAreaM2 * depth.meanDepthM, maxDepthM: depth.maxDepthM, method: 'average-depth' };
    case 'bowl':
      requireWithin('deepest point, m', depth.maxDepthM, DEPTH_RANGE_M);
      return {
        spaceM3: surfaceAreaM2 * BOWL_MEAN_OVER_MAX_DEPTH * depth.maxDepthM,
        maxDepthM: depth.maxDepthM,
        method: 'bowl-rule',
      };
    case 'vertical':
      requireWithin('depth, m', depth.depthM, DEPTH_RANGE_M);
      return { spaceM3: surfaceAreaM2 * depth.depthM, maxDepthM: depth.depthM, method: 'vertical-sides' };
    case 'levels':
      return spaceOfLevels(depth.levels, surfaceAreaM2);
    case 'contours':
      return {
        spaceM3: contourVolumeM3({ surfaceAreaM2, contours: depth.contours }),
        maxDepthM: depth.contours.at(-1)?.depthM ?? 0,
        method: 'depth-contours',
      };
    default:
      throw new InvalidValueError(
        'depth',
        (depth as { kind: unknown }).kind,
        'Use average, bowl, vertical, levels or contours.',
      );
  }
}

function spaceOfLevels(levels: readonly DepthLevel[], surfaceAreaM2: number): Space {
  if (levels.length === 0) {
    throw new InvalidValueError('levels', levels, 'Give at least one level: the area open in it and its height.');
  }
  let spaceM3 = 0;
  let maxDepthM = 0;
  let areaAboveM2 = surfaceAreaM2;
  for (const { areaM2, heightM } of levels) {
    requireWithin('height of a level, m', heightM, { min: 0.01, max: DEPTH_RANGE_M.max });
    // Shelves only take away: an area larger than the one above is a slip, or the levels are upside down.
    requireWithin('area of a level, m²', areaM2, { min: 0.01, max: areaAboveM2 * (1 + 1e-9) });
    spaceM3 += areaM2 * heightM;
    maxDepthM += heightM;
    areaAboveM2 = areaM2;
  }
  requireWithin('deepest point, m', maxDepthM, DEPTH_RANGE_M);
  return { spaceM3, maxDepthM, method: 'shelf-by-shelf' };
}

/** A volume metered while the pond was filled. */
export interface MeteredVolume {
  readonly volumeL: number;
  readonly method: 'metered-fill';
  readonly volumeSigmaPct: number;
}

/**
 * Volume of a metered fill: end less start, less what was spilled or leaked. [L]
 * @param fill.lostL 0 when left out. [L]
 */
export function meteredVolume(fill: { meterStartL: number; meterEndL: number; lostL?: number }): MeteredVolume {
  const { meterStartL, meterEndL, lostL = 0 } = fill;
  requireWithin('meter at the start, L', meterStartL, { min: 0, max: 1e12 });
  requireWithin('meter at the end, L', meterEndL, { min: meterStartL, max: meterStartL + 10_000_000 });
  requireWithin('water lost, L', lostL, { min: 0, max: meterEndL - meterStartL });
  const volumeL = meterEndL - meterStartL - lostL;
  if (volumeL < 1) {
    throw new InvalidValueError(
      'meter at the end, L',
      meterEndL,
      'Nothing is left as pond water. Read the meter again.',
    );
  }
  return { volumeL, method: 'metered-fill', volumeSigmaPct: SIGMA_PCT['metered-fill'] };
}
