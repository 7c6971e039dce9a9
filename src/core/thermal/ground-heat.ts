/**
 * Heat in mud and ground under the water, as two layers with one temperature each (derived; conduction of heat, Fourier).
 * The upper 0.15 m follow the water within hours and count as water; below them lie half a metre that lags by a week and
 * a metre and a half that lags by two months. What a lake of any depth and a lined pond share is the ground, not the
 * water: 1.5 times the depth, the handbook's stand-in, gives a deep lake too much of it and a shallow pond too little.
 */
import { requireWithin } from '../errors.js';
import { SECONDS_PER_DAY } from './heat-balance.js';

/**
 * Conductivity of wet soil or mud; dry sand and insulated tanks lower, wet clay and gravel with seepage higher. 0 means
 * insulated. Common values of soil physics (from memory). [W/m/K]
 */
export const GROUND_CONDUCTIVITY_W_PER_M_K = { value: 1.0, min: 0, max: 2.5 } as const;
/** Heat capacity of wet ground (from memory). [J/m3/K] */
const GROUND_HEAT_J_PER_M3_K = 3.0e6;
/** Mud and rim that follow the water within hours, as water of the same heat capacity. [m] */
export const FOLLOWING_MUD_M = 0.15;
const UPPER_LAYER_M = 0.5;
const LOWER_LAYER_M = 1.5;
/** From the water to the middle of the upper layer, and from there to the middle of the lower one. [m] */
const TO_UPPER_M = 0.325;
const TO_LOWER_M = 1.0;
/** How much of the summer's excess over the year's mean the layers hold at midsummer (derived: runs of four years in five climates). [-] */
const UPPER_AT_MIDSUMMER = 0.88;
const LOWER_AT_MIDSUMMER = 0.5;

/** The ground of one pond: what the day loop needs. */
export interface Ground {
  /** Between water and upper layer. [W/m2/K] */
  readonly exchangeWPerM2K: number;
  /** Share of the difference that a layer takes up in a day. [1/d] */
  readonly upperFromWater: number;
  readonly upperFromLower: number;
  readonly lowerFromUpper: number;
}

/** @param conductivityWPerMK 0 to 2.5. [W/m/K] */
export function groundOf(conductivityWPerMK: number): Ground {
  requireWithin('conductivity of the ground, W/m/K', conductivityWPerMK, GROUND_CONDUCTIVITY_W_PER_M_K);
  const exchangeWPerM2K = conductivityWPerMK / TO_UPPER_M;
  const between = conductivityWPerMK / TO_LOWER_M;
  const perDay = (exchange: number, layerM: number) => (exchange * SECONDS_PER_DAY) / (GROUND_HEAT_J_PER_M3_K * layerM);
  return {
    exchangeWPerM2K,
    upperFromWater: perDay(exchangeWPerM2K, UPPER_LAYER_M),
    upperFromLower: perDay(between, UPPER_LAYER_M),
    lowerFromUpper: perDay(between, LOWER_LAYER_M),
  };
}

/** Layers as they are at midsummer, from the water then and the year's mean of the air. [°C] */
export function groundAtMidsummer(waterC: number, yearMeanC: number): { upperC: number; lowerC: number } {
  const meanC = Math.max(1, yearMeanC);
  const excessC = waterC - meanC;
  return { upperC: meanC + UPPER_AT_MIDSUMMER * excessC, lowerC: meanC + LOWER_AT_MIDSUMMER * excessC };
}
