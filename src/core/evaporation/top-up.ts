import { requireWithin } from '../errors.js';

/** What a running waterfall adds to evaporation: wet stones and thrown water (common practice, 1.0 to 1.3). [-] */
export const WATERFALL_FACTOR = 1.2;
/** Most of the volume added in a day, by a person and by an automatic valve (common practice). [-] */
const LARGEST_TOP_UP_SHARE = { person: 0.1, valve: 0.05 } as const;

const RAIN_RANGE_MM = { min: 0, max: 1000 } as const;

/**
 * Water that evaporation takes and rain does not bring back; 0 when rain wins. [L/day]
 *   (E x 1.2 while a waterfall runs - P) A + splash        1 mm over 1 m² is 1 L
 * 6 mm over 12 m² with a waterfall: 86 L. A pond that needs much more leaks.
 * @param pond.evaporationMmPerDay 0 to 30. [mm/day]
 * @param pond.precipitationMmPerDay 0 to 1000. [mm/day]
 * @param pond.hasWaterfall Whether it runs these days, not whether one exists.
 * @param pond.splashLPerDay Only where spray leaves the basin; 0 when left out. [L/day]
 */
export function topUpLPerDay(pond: {
  evaporationMmPerDay: number;
  precipitationMmPerDay: number;
  surfaceAreaM2: number;
  hasWaterfall: boolean;
  splashLPerDay?: number;
}): number {
  const { evaporationMmPerDay, precipitationMmPerDay, surfaceAreaM2, splashLPerDay = 0 } = pond;
  requireWithin('evaporation, mm/day', evaporationMmPerDay, { min: 0, max: 30 });
  requireWithin('precipitation, mm/day', precipitationMmPerDay, RAIN_RANGE_MM);
  requireWithin('surface area, m²', surfaceAreaM2, { min: 0.01, max: 100_000 });
  requireWithin('splash, L/day', splashLPerDay, { min: 0, max: 100_000 });

  const lossMm = evaporationMmPerDay * (pond.hasWaterfall ? WATERFALL_FACTOR : 1);
  return Math.max(0, (lossMm - precipitationMmPerDay) * surfaceAreaM2 + splashLPerDay);
}

/** The most to add in one day: a tenth of the volume by a person, a twentieth by an automatic valve. [L] */
export function largestTopUpL(pond: { volumeL: number; isAutomatic: boolean }): number {
  requireWithin('pond volume, L', pond.volumeL, { min: 1, max: 10_000_000 });
  return pond.volumeL * LARGEST_TOP_UP_SHARE[pond.isAutomatic ? 'valve' : 'person'];
}

/**
 * Dissolved matter after a time in which only evaporation was made up for: C0 + Ctap E A t / V. [mg/L]
 * 200 mg/L, tap 300, 5 mm over 12 m² and 10 m³ for 90 days: 362 mg/L. Topping up replaces no water change.
 * @see Mass balance (derived).
 */
export function solutesAfterTopUpMgPerL(pond: {
  startMgPerL: number;
  tapMgPerL: number;
  evaporationMmPerDay: number;
  surfaceAreaM2: number;
  volumeL: number;
  days: number;
}): number {
  requireWithin('dissolved at the start, mg/L', pond.startMgPerL, { min: 0, max: 50_000 });
  requireWithin('dissolved in the tap water, mg/L', pond.tapMgPerL, { min: 0, max: 50_000 });
  requireWithin('evaporation, mm/day', pond.evaporationMmPerDay, { min: 0, max: 30 });
  requireWithin('surface area, m²', pond.surfaceAreaM2, { min: 0.01, max: 100_000 });
  requireWithin('pond volume, L', pond.volumeL, { min: 1, max: 10_000_000 });
  requireWithin('days', pond.days, { min: 0, max: 3660 });
  const addedL = pond.evaporationMmPerDay * pond.surfaceAreaM2 * pond.days;
  return pond.startMgPerL + (pond.tapMgPerL * addedL) / pond.volumeL;
}
