import { requireWithin } from '../errors.js';

/** Rate at 20 °C (0.1 to 0.9 in print), its growth per °C (1.025 to 1.10), and where it stops growing. Common practice. */
export const NITRIFICATION_RATE_20_G_N_PER_M2_DAY = 0.3;
export const NITRIFICATION_THETA = 1.07;
const FLAT_FROM_C = 28;

const WATER_RANGE_C = { min: -1, max: 45 } as const;

/**
 * Ammonia nitrogen a square metre of ripe filter media oxidises. [g N per m² per day]
 *   r = 0.30 x 1.07^(T - 20), flat from 28 °C; no cut-off in the cold
 * At 10 °C 0.153, at 20 °C 0.300. Show it as a range of three; plan no feed on it below 10 °C.
 * @param water.temperatureC -1 to 45. [°C]
 */
export function nitrificationRateGNPerM2Day(water: { temperatureC: number }): number {
  requireWithin('water temperature, °C', water.temperatureC, WATER_RANGE_C);
  const warmthC = Math.min(water.temperatureC, FLAT_FROM_C) - 20;
  return NITRIFICATION_RATE_20_G_N_PER_M2_DAY * NITRIFICATION_THETA ** warmthC;
}

/**
 * Ammonia nitrogen a filter oxidises per day. [g N per day]
 * @param filter.mediaAreaM2 Surface of the biological media, 0 to 1,000,000. [m²]
 * @param filter.temperatureC -1 to 45. [°C]
 * @param filter.maturityShare 0 new, 1 ripe. [-]
 */
export function nitrificationCapacityGNPerDay(filter: {
  mediaAreaM2: number;
  temperatureC: number;
  maturityShare: number;
}): number {
  requireWithin('media area, m²', filter.mediaAreaM2, { min: 0, max: 1_000_000 });
  requireWithin('maturity, share', filter.maturityShare, { min: 0, max: 1 });
  return nitrificationRateGNPerM2Day(filter) * filter.mediaAreaM2 * filter.maturityShare;
}

/** Ripe media a load needs at a temperature. 6.44 g a day at 20 °C: 21.5 m². [m²] */
export function mediaAreaNeededM2(filter: { ammoniaLoadGNPerDay: number; temperatureC: number }): number {
  requireWithin('ammonia load, g N/day', filter.ammoniaLoadGNPerDay, { min: 0, max: 100_000 });
  return filter.ammoniaLoadGNPerDay / nitrificationRateGNPerM2Day(filter);
}

/** Surface of a volume of media by its specific surface, 10 to 2,000 m²/m³. Clogging halves any of them. [m²] */
export function mediaAreaM2(media: { mediaVolumeL: number; mediaAreaM2PerM3: number }): number {
  requireWithin('media volume, L', media.mediaVolumeL, { min: 0, max: 100_000 });
  requireWithin('specific surface, m²/m³', media.mediaAreaM2PerM3, { min: 10, max: 2000 });
  return (media.mediaVolumeL / 1000) * media.mediaAreaM2PerM3;
}
