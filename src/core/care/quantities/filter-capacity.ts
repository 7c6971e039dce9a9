import { mediaAreaM2, nitrificationCapacityGNPerDay } from '../../filter/nitrification.js';
import type { PondFacts } from '../pond-facts.js';

const WATER_RANGE_C = { min: -1, max: 45 } as const;
/** Claims beyond this are pores through which no water passes; they count as this (common practice). [m²/m³] */
const MOST_SURFACE_M2_PER_M3 = 2000;

/** Surface of all media the bacteria live on, or null where no filter states its media. [m²] */
export function filterAreaM2(pond: Pick<PondFacts, 'equipment'>): number | null {
  let areaM2 = 0;
  let isKnown = false;
  for (const { kind, rated } of pond.equipment) {
    if (kind !== 'biological-filter' && kind !== 'mechanical-filter') continue;
    if (rated.mediaVolumeL === undefined || rated.mediaAreaM2PerM3 === undefined) continue;
    areaM2 += mediaAreaM2({
      mediaVolumeL: rated.mediaVolumeL,
      mediaAreaM2PerM3: Math.min(rated.mediaAreaM2PerM3, MOST_SURFACE_M2_PER_M3),
    });
    isKnown = true;
  }
  return isKnown ? areaM2 : null;
}

/** Ammonia nitrogen the pond's filters oxidise at a temperature and ripeness, or null where nobody knows. [g N/day] */
export function filterCapacityGNPerDay(
  pond: Pick<PondFacts, 'equipment'>,
  waterTemperatureC: number,
  maturityShare: number,
): number | null {
  const areaM2 = filterAreaM2(pond);
  if (areaM2 === null) return null;
  return nitrificationCapacityGNPerDay({
    mediaAreaM2: areaM2,
    temperatureC: Math.min(Math.max(waterTemperatureC, WATER_RANGE_C.min), WATER_RANGE_C.max),
    maturityShare,
  });
}
