import { InvalidValueError, requireWithin } from '../errors.js';

/** The plan area inside one depth line of a survey. */
export interface DepthContour {
  /** Below the water line. */
  readonly depthM: number;
  /** 0 at the very deepest point of a basin without a floor. */
  readonly areaM2: number;
}

const AREA_RANGE_M2 = { min: 0, max: 100_000 } as const;
const HEIGHT_RANGE_M = { min: 0.01, max: 20 } as const;
/** Depths typed to the centimetre count as evenly spaced within this. [m] */
const EVEN_WITHIN_M = 0.005;

/**
 * Volume of a basin from its depth contours. [m³]
 *   evenly spaced, even number of layers:  h/3 (A0 + 4 A1 + 2 A2 + ... + An)      (Simpson)
 *   otherwise, layer by layer:              h (A + A') / 2                          (average end area)
 * 20, 15, 9, 4 and 0 m² every 0.25 m: 9.50 m³.
 * @param basin.surfaceAreaM2 At the water line, 0.01 to 100,000. [m²]
 * @param basin.contours From the highest down; no area larger than the one above, the last depth at most 20 m.
 * @see Geometry (derived). Simpson's rule is exact for planes, cones and pyramids; average end areas come out high where
 *      walls slope (a frustum from 12 to 6 m² by 1.9 %).
 */
export function contourVolumeM3(basin: { surfaceAreaM2: number; contours: readonly DepthContour[] }): number {
  const lines = checkedLines(basin);
  const heightsM = lines.slice(1).map(({ depthM }, i) => depthM - (lines[i] as DepthContour).depthM);
  const firstM = heightsM[0] as number;
  const isEven = heightsM.every((heightM) => Math.abs(heightM - firstM) <= EVEN_WITHIN_M);
  if (isEven && heightsM.length % 2 === 0) {
    return simpson(
      lines.map(({ areaM2 }) => areaM2),
      (lines.at(-1) as DepthContour).depthM / heightsM.length,
    );
  }
  return heightsM.reduce((volumeM3, heightM, i) => {
    const [above, below] = [lines[i] as DepthContour, lines[i + 1] as DepthContour];
    return volumeM3 + (heightM * (above.areaM2 + below.areaM2)) / 2;
  }, 0);
}

function checkedLines(basin: { surfaceAreaM2: number; contours: readonly DepthContour[] }): readonly DepthContour[] {
  requireWithin('surface area, m²', basin.surfaceAreaM2, { min: 0.01, max: AREA_RANGE_M2.max });
  if (basin.contours.length === 0) {
    throw new InvalidValueError('contours', basin.contours, 'Give at least one: its depth and the area inside it.');
  }
  let above: DepthContour = { depthM: 0, areaM2: basin.surfaceAreaM2 };
  for (const contour of basin.contours) {
    requireWithin('depth of a contour, m', contour.depthM, { min: above.depthM + 0.01, max: HEIGHT_RANGE_M.max });
    // A basin only narrows: an area larger than the one above is a slip, or the contours are upside down.
    requireWithin('area inside a contour, m²', contour.areaM2, { min: 0, max: above.areaM2 * (1 + 1e-9) });
    above = contour;
  }
  return [{ depthM: 0, areaM2: basin.surfaceAreaM2 }, ...basin.contours];
}

/** Simpson's rule over an odd number of evenly spaced values. */
export function simpson(values: readonly number[], spacing: number): number {
  const last = values.length - 1;
  const weighted = values.reduce((sum, value, i) => sum + value * (i === 0 || i === last ? 1 : i % 2 === 1 ? 4 : 2), 0);
  return (spacing / 3) * weighted;
}

/**
 * Volume between two level planes of similar shape, walls sloping evenly: h/3 (A + A' + sqrt(A A')). [m³]
 * From 12 to 6 m² over 0.9 m: 7.946 m³.
 */
export function frustumVolumeM3(solid: { topM2: number; bottomM2: number; heightM: number }): number {
  const { topM2, bottomM2, heightM } = solid;
  requireWithin('upper area, m²', topM2, AREA_RANGE_M2);
  requireWithin('lower area, m²', bottomM2, AREA_RANGE_M2);
  requireWithin('height, m', heightM, HEIGHT_RANGE_M);
  return (heightM / 3) * (topM2 + bottomM2 + Math.sqrt(topM2 * bottomM2));
}

/**
 * Volume of a dug basin with sloping sides from the areas at its water line, half way down and at its floor:
 * h/6 (A + 4 B + C). [m³]
 * @see USDA NRCS (1997), Ponds: planning, design, construction, Agriculture Handbook 590 (from memory).
 */
export function prismoidVolumeM3(solid: {
  topM2: number;
  middleM2: number;
  bottomM2: number;
  heightM: number;
}): number {
  const { topM2, middleM2, bottomM2, heightM } = solid;
  requireWithin('upper area, m²', topM2, AREA_RANGE_M2);
  requireWithin('middle area, m²', middleM2, AREA_RANGE_M2);
  requireWithin('lower area, m²', bottomM2, AREA_RANGE_M2);
  requireWithin('height, m', heightM, HEIGHT_RANGE_M);
  return (heightM / 6) * (topM2 + 4 * middleM2 + bottomM2);
}
