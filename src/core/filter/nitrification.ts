import { InvalidValueError, requireWithin } from '../errors.js';

/** Rate at 20 °C (0.1 to 0.9 in print), its growth per °C (1.025 to 1.10), and where it stops growing. Common practice. */
export const NITRIFICATION_RATE_20_G_N_PER_M2_DAY = 0.3;
export const NITRIFICATION_THETA = 1.07;
const FLAT_FROM_C = 28;

/** Oxygen per ammonia nitrogen taken all the way to nitrate, 64 / 14.007 (published source). [g O2 per g N] */
const OXYGEN_PER_AMMONIA_N = 4.57;

const WATER_RANGE_C = { min: -1, max: 45 } as const;
const THETA_RANGE = { min: 1, max: 1.2 } as const;

/**
 * Rate at a temperature over the rate at 20 °C. [-]
 *   theta^(T - 20), flat from 28 °C; no cut-off in the cold
 * With 1.072 at 10 °C 0.499. In print 1.024 to 1.10, films lower than free cells.
 * @param water.temperatureC -1 to 45. [°C]
 * @param water.theta 1 to 1.2; 1.07 when left out. [-]
 */
export function relativeNitrificationRate(water: { temperatureC: number; theta?: number }): number {
  const { temperatureC, theta = NITRIFICATION_THETA } = water;
  requireWithin('water temperature, °C', temperatureC, WATER_RANGE_C);
  requireWithin('growth of the rate per °C', theta, THETA_RANGE);
  return theta ** (Math.min(temperatureC, FLAT_FROM_C) - 20);
}

/**
 * Growth of a rate per °C that a share measured at another temperature than 20 °C tells. [-]
 *   theta = share^(1 / (T - 20))
 * 18 % at 1 °C: 1.0945.
 * @param measured.temperatureC -1 to 28, but not 20. [°C]
 * @param measured.shareOf20C 0.001 to 10. [-]
 */
export function thetaOfShare(measured: { temperatureC: number; shareOf20C: number }): number {
  requireWithin('water temperature, °C', measured.temperatureC, { min: -1, max: FLAT_FROM_C });
  requireWithin('share of the rate at 20 °C', measured.shareOf20C, { min: 0.001, max: 10 });
  if (Math.abs(measured.temperatureC - 20) < 1) {
    throw new InvalidValueError('water temperature, °C', measured.temperatureC, 'Take one at least 1 °C from 20.');
  }
  return measured.shareOf20C ** (1 / (measured.temperatureC - 20));
}

/**
 * Ammonia nitrogen a square metre of ripe filter media oxidises. [g N per m² per day]
 *   r = 0.30 x 1.07^(T - 20), flat from 28 °C; no cut-off in the cold
 * At 10 °C 0.153, at 20 °C 0.300. Show it as a range of three; plan no feed on it below 10 °C.
 * @param water.temperatureC -1 to 45. [°C]
 */
export function nitrificationRateGNPerM2Day(water: { temperatureC: number }): number {
  return NITRIFICATION_RATE_20_G_N_PER_M2_DAY * relativeNitrificationRate({ temperatureC: water.temperatureC });
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
  requireWithin('ammonia load, g N/day', filter.ammoniaLoadGNPerDay, { min: 0, max: 1_000_000 });
  return filter.ammoniaLoadGNPerDay / nitrificationRateGNPerM2Day(filter);
}

/** Surface of a volume of media by its specific surface, 10 to 2,000 m²/m³. Clogging halves any of them. [m²] */
export function mediaAreaM2(media: { mediaVolumeL: number; mediaAreaM2PerM3: number }): number {
  requireWithin('media volume, L', media.mediaVolumeL, { min: 0, max: 100_000 });
  requireWithin('specific surface, m²/m³', media.mediaAreaM2PerM3, { min: 10, max: 2000 });
  return (media.mediaVolumeL / 1000) * media.mediaAreaM2PerM3;
}

/** Oxygen the bacteria take to oxidise a load of ammonia. 6.44 g N a day: 29.4 g. [g O2 per day] */
export function nitrificationOxygenGPerDay(filter: { ammoniaLoadGNPerDay: number }): number {
  requireWithin('ammonia load, g N/day', filter.ammoniaLoadGNPerDay, { min: 0, max: 1_000_000 });
  return OXYGEN_PER_AMMONIA_N * filter.ammoniaLoadGNPerDay;
}
