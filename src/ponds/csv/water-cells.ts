import type { PondDepth, PondShape } from '../../core/hydraulics/pond-volume.js';
import type { WaterInput } from '../water-input.schema.js';

/** The water of a pond as flat cells: what the export writes and the import overlays. */
export type WaterCells = Readonly<Record<string, unknown>>;

export const WATER_KEYS: ReadonlySet<string> = new Set([
  'outline',
  'lengthM',
  'widthM',
  'otherWidthM',
  'diameterM',
  'surfaceAreaM2',
  'depthKind',
  'meanDepthM',
  'maxDepthM',
  'levels',
  'contours',
  'rockShare',
  'volumeL',
  'volumeMethod',
  'sigmaPct',
]);

export function cellsOfWater(water: WaterInput): WaterCells {
  const shape = water.shape ? cellsOfShape(water.shape) : {};
  if (water.method === 'shape') return shape;
  const { volumeL, surfaceAreaM2, maxDepthM, method } = water;
  const sigmaPct = water.method === 'salt-test' ? water.sigmaPct : undefined;
  return { ...shape, volumeL, volumeMethod: method, ...defined({ surfaceAreaM2, maxDepthM, sigmaPct }) };
}

/** The typed form of flat cells, still to be checked; null where neither a shape nor a measured volume is given. */
export function waterOfCells(cells: WaterCells): unknown {
  const shape = shapeOfCells(cells);
  if (cells.volumeL === undefined) return shape ? { method: 'shape', shape } : null;
  const { volumeL, surfaceAreaM2, maxDepthM, sigmaPct } = cells;
  const method = cells.volumeMethod ?? 'metered';
  // A meter has an error of its own; a file that changes the method may leave that of the salt test standing.
  const measured = { method, volumeL, ...(method === 'salt-test' && defined({ sigmaPct })) };
  return shape ? { ...measured, shape } : { ...measured, ...defined({ surfaceAreaM2, maxDepthM }) };
}

function cellsOfShape({ depth, rockShare, ...outline }: PondShape): WaterCells {
  const { kind, ...sides } = outline;
  const plan = 'areaM2' in sides ? { surfaceAreaM2: sides.areaM2 } : sides;
  return { outline: kind, ...plan, ...cellsOfDepth(depth), ...defined({ rockShare }) };
}

function cellsOfDepth(depth: PondDepth): WaterCells {
  const { kind, ...figures } = depth;
  return 'depthM' in figures ? { depthKind: kind, maxDepthM: figures.depthM } : { depthKind: kind, ...figures };
}

function shapeOfCells(cells: WaterCells): unknown {
  const outline = cells.outline ?? (cells.surfaceAreaM2 === undefined ? undefined : 'measured-area');
  const depth = depthOfCells(cells);
  if (outline === undefined || depth === undefined) return undefined;
  return { kind: outline, ...defined(sidesOf(outline, cells)), depth, ...defined({ rockShare: cells.rockShare }) };
}

function sidesOf(outline: unknown, cells: WaterCells): Record<string, unknown> {
  const { lengthM, widthM, otherWidthM, diameterM, surfaceAreaM2: areaM2 } = cells;
  if (outline === 'measured-area') return { areaM2 };
  if (outline === 'circle') return { diameterM };
  return outline === 'kidney' ? { lengthM, widthM, otherWidthM } : { lengthM, widthM };
}

function depthOfCells(cells: WaterCells): unknown {
  const { meanDepthM, maxDepthM, levels, contours } = cells;
  const surveyed = levels ? 'levels' : contours ? 'contours' : undefined;
  const kind = cells.depthKind ?? surveyed ?? (meanDepthM === undefined ? undefined : 'average');
  switch (kind) {
    case undefined:
      return undefined;
    case 'average':
      return { kind, ...defined({ meanDepthM, maxDepthM }) };
    case 'vertical':
      return { kind, ...defined({ depthM: maxDepthM }) };
    case 'levels':
      return { kind, ...defined({ levels }) };
    case 'contours':
      return { kind, ...defined({ contours }) };
    default:
      return { kind, ...defined({ maxDepthM }) };
  }
}

function defined(values: Record<string, unknown>): Record<string, unknown> {
  return Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined));
}
