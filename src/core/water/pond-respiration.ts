import { requireWithin } from '../errors.js';
import { oxygenSaturationMgPerL } from './oxygen.js';

const TEMPERATURE_RANGE_C = { min: 0, max: 40 } as const;
/** Growth per °C of what water and bottom use, the usual figures of river models (from memory). [-] */
const WATER_THETA = 1.047;
const BOTTOM_THETA = 1.065;

/**
 * Oxygen algae, bacteria and floating matter use in the dark at 20 °C, by how the water looks (from memory; 0.02 to 0.6
 * in print). [mg/L per hour]
 */
export const WATER_RESPIRATION_20_MG_PER_L_H = { clear: 0.04, tinted: 0.1, green: 0.25 } as const;
/**
 * Oxygen a bottom uses at 20 °C in water full of it, by what lies on it (from memory; fish ponds about 1.5, 0.2 to 4 in
 * print). [g/m² per day]
 */
export const BOTTOM_RESPIRATION_20_G_PER_M2_DAY = { clean: 0.3, 'some-sludge': 1.5, 'thick-sludge': 3 } as const;

export type WaterLook = keyof typeof WATER_RESPIRATION_20_MG_PER_L_H;
export type BottomLook = keyof typeof BOTTOM_RESPIRATION_20_G_PER_M2_DAY;

/** A white disc vanishes at this depth in green water, and in water with a tint (common practice). [cm] */
const GREEN_BELOW_CM = 30;
const TINTED_BELOW_CM = 60;
/** Sludge up to which a bottom counts as clean, and above which it is to be removed (common practice). [mm] */
const CLEAN_UP_TO_MM = 5;
const THICK_ABOVE_MM = 25;

/** How water looks, by the depth at which a white disc vanishes, 0 to 1000. [cm] */
export function waterLookOf(water: { discDepthCm: number }): WaterLook {
  requireWithin('depth of the disc, cm', water.discDepthCm, { min: 0, max: 1000 });
  if (water.discDepthCm < GREEN_BELOW_CM) return 'green';
  return water.discDepthCm < TINTED_BELOW_CM ? 'tinted' : 'clear';
}

/** What lies on a bottom, by the mean depth of sludge, 0 to 2000. [mm] */
export function bottomLookOf(bottom: { sludgeDepthMm: number }): BottomLook {
  requireWithin('depth of sludge, mm', bottom.sludgeDepthMm, { min: 0, max: 2000 });
  if (bottom.sludgeDepthMm <= CLEAN_UP_TO_MM) return 'clean';
  return bottom.sludgeDepthMm <= THICK_ABOVE_MM ? 'some-sludge' : 'thick-sludge';
}

/** Oxygen for each gram of ammonia nitrogen turned into nitrate, without cell growth: 64 / 14.007. [g/g N] */
const OXYGEN_PER_AMMONIA_N = 4.57;

/** Oxygen the water itself uses in the dark at a temperature. [mg/L per hour] */
export function waterRespirationMgPerLH(water: { look: WaterLook; temperatureC: number }): number {
  requireWithin('water temperature, °C', water.temperatureC, TEMPERATURE_RANGE_C);
  return WATER_RESPIRATION_20_MG_PER_L_H[water.look] * WATER_THETA ** (water.temperatureC - 20);
}

/**
 * What the bottom takes, as a velocity: oxygen used is this times the concentration over it. [m/day]
 * In proportion to the oxygen because a bottom takes up what reaches it.
 * @see Proportion observed in Chinese fish ponds (published source, a chapter on oxygen at night in fish ponds); rates
 *      from memory.
 */
export function bottomUptakeMPerDay(bottom: { look: BottomLook; temperatureC: number }): number {
  requireWithin('water temperature, °C', bottom.temperatureC, TEMPERATURE_RANGE_C);
  const at20MPerDay = BOTTOM_RESPIRATION_20_G_PER_M2_DAY[bottom.look] / oxygenSaturationMgPerL({ temperatureC: 20 });
  return at20MPerDay * BOTTOM_THETA ** (bottom.temperatureC - 20);
}

/** Oxygen the bottom uses at a concentration over it. [g/m² per day] */
export function bottomRespirationGPerM2Day(bottom: {
  look: BottomLook;
  temperatureC: number;
  dissolvedOxygenMgPerL: number;
}): number {
  requireWithin('dissolved oxygen, mg/L', bottom.dissolvedOxygenMgPerL, { min: 0, max: 40 });
  return bottomUptakeMPerDay(bottom) * bottom.dissolvedOxygenMgPerL;
}

/**
 * Oxygen a filter uses to turn an ammonia load into nitrate. [g/day]        4.57 P
 * 6.44 g N a day: 29.4. With cell growth 4.2 to 4.3.
 * @see Stoichiometry (published source: 64 / 14.007).
 */
export function nitrificationOxygenGPerDay(filter: { ammoniaLoadGNPerDay: number }): number {
  requireWithin('ammonia load, g N/day', filter.ammoniaLoadGNPerDay, { min: 0, max: 100_000 });
  return OXYGEN_PER_AMMONIA_N * filter.ammoniaLoadGNPerDay;
}
