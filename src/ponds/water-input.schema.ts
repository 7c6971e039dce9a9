import { z } from 'zod';
import { DomainError } from '../core/errors.js';
import { type PlanShape, planAreaM2 } from '../core/hydraulics/plan-area.js';
import { type PondShape, pondVolume } from '../core/hydraulics/pond-volume.js';
import { numberWithin } from './typed-fields.js';

/** Rows of a survey closer than this are a slip. */
const LEAST_STEP_M = 0.01 - 1e-9;

const side = (name: string) => numberWithin(name, 0.1, 1000, 'm');
const depth = (name: string) => numberWithin(name, 0.1, 20, 'm');
const area = (name: string) => numberWithin(name, 0.01, 100_000, 'm²');

const DepthSchema = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('average'),
    meanDepthM: numberWithin('mean depth', 0.05, 20, 'm'),
    maxDepthM: depth('deepest point'),
  }),
  z.strictObject({ kind: z.literal('bowl'), maxDepthM: depth('deepest point') }),
  z.strictObject({ kind: z.literal('vertical'), depthM: depth('depth') }),
  z.strictObject({
    kind: z.literal('levels'),
    levels: z
      .array(
        z.strictObject({
          areaM2: area('area of the level'),
          heightM: numberWithin('height of the level', 0.01, 20, 'm'),
        }),
      )
      .min(1, { error: 'levels: at least one, from the water line down.' })
      .max(20, { error: 'levels: at most 20.' })
      .readonly(),
  }),
  z.strictObject({
    kind: z.literal('contours'),
    contours: z
      .array(
        z.strictObject({
          depthM: numberWithin('depth of the contour', 0.01, 20, 'm'),
          areaM2: numberWithin('area inside the contour', 0, 100_000, 'm²'),
        }),
      )
      .min(1, { error: 'contours: at least one, from the highest down.' })
      .max(20, { error: 'contours: at most 20.' })
      .readonly(),
  }),
]);

const rest = { depth: DepthSchema, rockShare: numberWithin('space taken by rocks, share', 0, 0.35).optional() };
const lengthAndWidth = { lengthM: side('length'), widthM: side('width'), ...rest };

export const PondShapeSchema = z
  .discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('rectangle'), ...lengthAndWidth }),
    z.strictObject({ kind: z.literal('circle'), diameterM: side('diameter'), ...rest }),
    z.strictObject({ kind: z.literal('ellipse'), ...lengthAndWidth }),
    z.strictObject({ kind: z.literal('stadium'), ...lengthAndWidth }),
    z.strictObject({ kind: z.literal('kidney'), ...lengthAndWidth, otherWidthM: side('width of the other lobe') }),
    z.strictObject({ kind: z.literal('measured-area'), areaM2: area('surface area'), ...rest }),
  ])
  .superRefine((shape, context) => {
    const fault = surveyFault(shape);
    if (fault) return context.addIssue({ code: 'custom', ...fault });
    try {
      pondVolume(shape);
    } catch (error) {
      context.addIssue({ code: 'custom', message: (error as Error).message });
    }
  });

/** A survey that does not narrow downwards, told at its own row; null when it does. */
function surveyFault({ depth, ...plan }: PondShape): { path: (string | number)[]; message: string } | null {
  const rows = depth.kind === 'levels' ? depth.levels : depth.kind === 'contours' ? depth.contours : [];
  let above = { depthM: 0, areaM2: planAreaOrNone(plan) };
  for (const [i, row] of rows.entries()) {
    const depthM = 'depthM' in row ? row.depthM : above.depthM + row.heightM;
    if (depthM - above.depthM < LEAST_STEP_M) {
      const message = 'depth of the contour: each lies at least a centimetre below the one before, the first below 0.';
      return { path: ['depth', depth.kind, i, 'depthM'], message };
    }
    if (row.areaM2 > above.areaM2 * (1 + 1e-9)) {
      const message = 'area: not more than the area above it, and the first not more than the surface.';
      return { path: ['depth', depth.kind, i, 'areaM2'], message };
    }
    above = { depthM, areaM2: row.areaM2 };
  }
  return null;
}

/** A plan that cannot be is told by itself. */
function planAreaOrNone(plan: PlanShape): number {
  try {
    return planAreaM2(plan);
  } catch (error) {
    if (error instanceof DomainError) return Number.POSITIVE_INFINITY;
    throw error;
  }
}

/** A backyard pond, from a tub to a small lake. [L] */
const VOLUME_RANGE_L = { min: 50, max: 10_000_000 } as const;

const measured = {
  volumeL: numberWithin('volume', VOLUME_RANGE_L.min, VOLUME_RANGE_L.max, 'L'),
  shape: PondShapeSchema.optional(),
  /** Needed where there is no shape. */
  surfaceAreaM2: area('surface area').optional(),
  maxDepthM: depth('deepest point').optional(),
};

/** How the volume is known: from the shape as typed, from a metered fill, or from a salt test. */
export const WaterInputSchema = z
  .discriminatedUnion('method', [
    z.strictObject({ method: z.literal('shape'), shape: PondShapeSchema }),
    z.strictObject({ method: z.literal('metered'), ...measured }),
    z.strictObject({
      method: z.literal('salt-test'),
      ...measured,
      /** One standard deviation; that of a usual test when left out. */
      sigmaPct: numberWithin('error of the salt test', 1, 50, '%').optional(),
    }),
  ])
  .superRefine((water, context) => {
    const fault = waterFault(water);
    if (fault) context.addIssue({ code: 'custom', path: [fault.field], message: fault.sentence });
  });

export type WaterInput = z.output<typeof WaterInputSchema>;

/** What is stored of a pond's water. */
export interface StoredVolume {
  readonly shape: PondShape | null;
  readonly volumeL: number;
  readonly volumeMethod: string;
  readonly volumeSigmaPct: number;
  readonly surfaceAreaM2: number;
  readonly meanDepthM: number;
  readonly maxDepthM: number;
}

/** Errors of a measured volume (common practice). [%] */
const MEASURED = {
  metered: { volumeMethod: 'metered-fill', volumeSigmaPct: 2 },
  'salt-test': { volumeMethod: 'salt-dilution', volumeSigmaPct: 8 },
} as const;
/** A metered volume may stand this much deeper than the deepest point typed: depths are read to a few centimetres. */
const DEPTH_SLACK_SHARE = 0.05;

/** Volume, area and depths of a water that passed the schema. A measured volume wins over the shape's own. */
export function storedVolumeOf(water: WaterInput): StoredVolume {
  if (water.method === 'shape') {
    const { method, ...figures } = pondVolume(water.shape);
    return { shape: water.shape, volumeMethod: method, ...figures };
  }
  const { surfaceAreaM2, maxDepthM } = outlineOf(water) as { surfaceAreaM2: number; maxDepthM: number };
  return {
    shape: water.shape ?? null,
    volumeL: water.volumeL,
    ...MEASURED[water.method],
    ...(water.method === 'salt-test' && water.sigmaPct !== undefined && { volumeSigmaPct: water.sigmaPct }),
    surfaceAreaM2,
    meanDepthM: Math.min(water.volumeL / 1000 / surfaceAreaM2, maxDepthM),
    maxDepthM,
  };
}

/** The typed form of what is stored, for an edit page or an export. */
export function waterInputOf(stored: StoredVolume): WaterInput {
  const { shape, volumeL, surfaceAreaM2, maxDepthM, volumeMethod, volumeSigmaPct } = stored;
  const isMeasured = volumeMethod === 'metered-fill' || volumeMethod === 'salt-dilution';
  if (shape && !isMeasured) return { method: 'shape', shape };
  const outline = shape ? { shape } : { surfaceAreaM2, maxDepthM };
  if (volumeMethod !== 'salt-dilution') return { method: 'metered', volumeL, ...outline };
  const isUsual = volumeSigmaPct === MEASURED['salt-test'].volumeSigmaPct;
  return { method: 'salt-test', volumeL, ...outline, ...(!isUsual && { sigmaPct: volumeSigmaPct }) };
}

function outlineOf(water: Exclude<WaterInput, { method: 'shape' }>) {
  if (!water.shape) return { surfaceAreaM2: water.surfaceAreaM2, maxDepthM: water.maxDepthM };
  return { surfaceAreaM2: planAreaM2(water.shape), maxDepthM: pondVolume(water.shape).maxDepthM };
}

/** What the water forecast can work with; smaller is a bucket. */
const LEAST_AREA_M2 = 0.2;
const LEAST_MEAN_DEPTH_M = 0.05;

interface WaterFault {
  readonly field: string;
  readonly sentence: string;
}

function waterFault(water: WaterInput): WaterFault | null {
  // A shape that cannot be has had its own sentence already.
  if (water.shape && !PondShapeSchema.safeParse(water.shape).success) return null;
  return (water.method === 'shape' ? null : measuredFault(water)) ?? smallnessFault(storedVolumeOf(water));
}

function smallnessFault({ volumeL, surfaceAreaM2, meanDepthM }: StoredVolume): WaterFault | null {
  const { min, max } = VOLUME_RANGE_L;
  const figures = `${round(volumeL)} L, ${round(surfaceAreaM2)} m², ${round(meanDepthM)} m deep on average`;
  if (surfaceAreaM2 >= LEAST_AREA_M2 && meanDepthM >= LEAST_MEAN_DEPTH_M && volumeL >= min && volumeL <= max)
    return null;
  return {
    field: 'shape',
    sentence:
      `pond: ${figures} is no garden pond. At least ${LEAST_AREA_M2} m², ${LEAST_MEAN_DEPTH_M} m deep on average and ` +
      `${min} L are needed, and at most ${max.toLocaleString('en')} L. Check the units.`,
  };
}

function measuredFault(water: Exclude<WaterInput, { method: 'shape' }>): WaterFault | null {
  const { surfaceAreaM2, maxDepthM } = outlineOf(water);
  if (surfaceAreaM2 === undefined) {
    return {
      field: 'surfaceAreaM2',
      sentence: 'surface area: needed with a metered volume, unless the shape is given.',
    };
  }
  if (maxDepthM === undefined) {
    return { field: 'maxDepthM', sentence: 'deepest point: needed with a metered volume, unless the shape is given.' };
  }
  const standsM = water.volumeL / 1000 / surfaceAreaM2;
  if (standsM <= maxDepthM * (1 + DEPTH_SLACK_SHARE)) return null;
  const litres = Math.round(water.volumeL).toLocaleString('en');
  return {
    field: 'volumeL',
    sentence:
      `volume: ${litres} L over ${round(surfaceAreaM2)} m² would stand ${round(standsM)} m deep on average, ` +
      `more than the deepest point of ${round(maxDepthM)} m. Check the volume and its unit, the area and the depth.`,
  };
}

const round = (value: number) => Number(value.toPrecision(3));
