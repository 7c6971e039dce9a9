import type { PondDepth, PondShape } from '../../core/hydraulics/pond-volume.js';
import type { WaterInput } from '../water-input.schema.js';

/** The water of a pond as flat cells: what the export writes and the import overlays. */
export type WaterCells = Readonly<Record<string, unknown>>;

export const WATER_KEYS: ReadonlySet<string> = new Set([
  'outline',
  'lengthM',
  'widthM',
  'diameterM',
  'surfaceAreaM2',
  'depthKind',
  'meanDepthM',
  'maxDepthM',
  'levels',
  'rockShare',
  'volumeL',
  'volumeMethod',
]);

export function cellsOfWater(water: WaterInput): WaterCells {
  const shape = water.shape ? cellsOfShape(water.shape) : {};
  if (water.method === 'shape') return shape;
  const { volumeL, surfaceAreaM2, maxDepthM, method } = water;
  return { ...shape, volumeL, volumeMethod: method, ...defined({ surfaceAreaM2, maxDepthM }) };
}

/** The typed form of flat cells, still to be checked; null where neither a shape nor a measured volume is given. */
export function waterOfCells(cells: WaterCells): unknown {
  const shape = shapeOfCells(cells);
  if (cells.volumeL === undefined) return shape ? { method: 'shape', shape } : null;
  const { volumeL, surfaceAreaM2, maxDepthM } = cells;
  const measured = { method: cells.volumeMethod ?? 'metered', volumeL };
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
  const { lengthM, widthM, diameterM, surfaceAreaM2: areaM2, rockShare } = cells;
  const sides = outline === 'measured-area' ? { areaM2 } : outline === 'circle' ? { diameterM } : { lengthM, widthM };
  return { kind: outline, ...defined(sides), depth, ...defined({ rockShare }) };
}

function depthOfCells(cells: WaterCells): unknown {
  const { meanDepthM, maxDepthM, levels } = cells;
  const kind = cells.depthKind ?? (levels ? 'levels' : meanDepthM === undefined ? undefined : 'average');
  switch (kind) {
    case undefined:
      return undefined;
    case 'average':
      return { kind, ...defined({ meanDepthM, maxDepthM }) };
    case 'vertical':
      return { kind, ...defined({ depthM: maxDepthM }) };
    case 'levels':
      return { kind, ...defined({ levels }) };
    default:
      return { kind, ...defined({ maxDepthM }) };
  }
}

function defined(values: Record<string, unknown>): Record<string, unknown> {
  return Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined));
}
