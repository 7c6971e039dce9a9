/**
 * Ice on the pond. Two kinds of numbers, not to be mixed (ruling 33): the thickness of the simulation, which exists so
 * that the water can cool and warm at the right time, and the thickness shown to people or used in a rule, which follows
 * from freezing degree-days.
 */
import { requireWithin } from '../errors.js';
import { SECONDS_PER_DAY } from './heat-balance.js';

const { max, sqrt } = Math;

const ICE_CONDUCTIVITY_W_PER_M_K = 2.2;
const ICE_DENSITY_KG_PER_M3 = 917;
export const FUSION_HEAT_J_PER_KG = 3.34e5;
/** Heat exchange of the ice surface with the air, in the simulation. [W/m2/K] */
const SURFACE_EXCHANGE_W_PER_M2_K = 15;
/** Thickness with which a cover begins. [m] */
export const NEW_ICE_M = 0.005;
/** Upper metre under ice; observed 0 to 1.5 on natural ponds, of which this is the middle. [°C] */
export const WATER_UNDER_ICE_C = 0.75;
/** Water on the day the cover has gone: between 0 under the ice and 4 at the bottom, mixed (derived). [°C] */
export const WATER_AFTER_ICE_C = 2;
const MELT_M_PER_DAY_PER_W_PER_M2 = SECONDS_PER_DAY / (ICE_DENSITY_KG_PER_M3 * FUSION_HEAT_J_PER_KG);
const GROWTH_M2_PER_K = 2 * ICE_CONDUCTIVITY_W_PER_M_K * MELT_M_PER_DAY_PER_W_PER_M2;

/** Centimetres per square root of a °C d on a garden pond; 1.4 sheltered and snowy, 2.7 windswept. Common practice in a published band. */
export const GARDEN_POND_ICE = { value: 2.0, min: 1.4, max: 2.7 } as const;
/**
 * Snow on the ice slows its growth from the 3.5 cm of bare ice to 2.0: the simulation conducts as much less, so that its
 * ice is the ice shown. With bare ice it was twice as thick and went two weeks late on two northern lakes (derived). [-]
 */
const SNOW_SHARE = (GARDEN_POND_ICE.value / 100) ** 2 / GROWTH_M2_PER_K;
const SNOWY_GROWTH_M2_PER_K = SNOW_SHARE * GROWTH_M2_PER_K;
const SURFACE_LAYER_M = (SNOW_SHARE * ICE_CONDUCTIVITY_W_PER_M_K) / SURFACE_EXCHANGE_W_PER_M2_K;

/**
 * Ice after one more day of the simulation: Stefan's law under usual snow with the resistance of the surface, solved
 * exactly for the day; melting by the net heat on ice at 0 °C, albedo 0.4 (climate handbook 7.3; constants from memory),
 * and from below by what the ground gives the water. [m]
 * @param iceM Thickness before, more than 0.
 * @param airTemperatureC Daily mean.
 * @param netHeatAtZeroWPerM2 Net heat of the surface at 0 °C.
 * @param heatFromBelowWPerM2 Heat that the ground gives off, 0 or more; 0 unless given.
 */
export function simulatedIceM(
  iceM: number,
  airTemperatureC: number,
  netHeatAtZeroWPerM2: number,
  heatFromBelowWPerM2 = 0,
): number {
  const melted = heatFromBelowWPerM2 * MELT_M_PER_DAY_PER_W_PER_M2;
  if (netHeatAtZeroWPerM2 > 0) return max(0, iceM - melted - netHeatAtZeroWPerM2 * MELT_M_PER_DAY_PER_W_PER_M2);
  if (airTemperatureC >= 0) return max(0, iceM - melted);
  const resistanceM = iceM + SURFACE_LAYER_M;
  const grown = sqrt(resistanceM * resistanceM - SNOWY_GROWTH_M2_PER_K * airTemperatureC) - SURFACE_LAYER_M;
  return max(0, grown - melted);
}

/** Ceiling of Stefan's law without snow or surface resistance, for comparison. [cm] */
export function stefanCeilingCm({ freezingDegreeDaysC }: { freezingDegreeDaysC: number }): number {
  requireWithin('freezing degree-days, °C d', freezingDegreeDaysC, { min: 0, max: 8000 });
  return 100 * sqrt(GROWTH_M2_PER_K * freezingDegreeDaysC);
}

/**
 * Ice thickness to show or to use in a rule: h = alpha sqrt(AFDD) (equipment handbook 7.6, ruling 33). The band of alpha
 * is that of the US Army CRREL ice engineering note 04-3 as quoted there. Never a promise that ice bears. [cm]
 * @param cold.freezingDegreeDaysC See `freezingDegreeDaysC`, 0 to 8000. [°C d]
 * @param cold.alpha 0.7 to 3.6, 2.0 unless given. [cm per sqrt(°C d)]
 */
export function iceThicknessCm(cold: { freezingDegreeDaysC: number; alpha?: number }): number {
  requireWithin('freezing degree-days, °C d', cold.freezingDegreeDaysC, { min: 0, max: 8000 });
  requireWithin('ice growth, cm per sqrt(°C d)', cold.alpha ?? GARDEN_POND_ICE.value, { min: 0.7, max: 3.6 });
  return (cold.alpha ?? GARDEN_POND_ICE.value) * sqrt(cold.freezingDegreeDaysC);
}

/**
 * Thin ice: growth held back by the exchange between surface and air (G. Ashton; equipment handbook 7.6, published
 * constants k 2.24 W/m/K, rho 916 kg/m3, L 3.34e5 J/kg). [cm]
 * @param cold.exchangeWPerM2K H, 10 to 30, 20 unless given.
 * @param cold.startCm Thickness before, 0 unless given.
 */
export function thinIceCm(cold: { freezingDegreeDaysC: number; exchangeWPerM2K?: number; startCm?: number }): number {
  const exchange = cold.exchangeWPerM2K ?? 20;
  requireWithin('freezing degree-days, °C d', cold.freezingDegreeDaysC, { min: 0, max: 8000 });
  requireWithin('heat exchange of the ice, W/m2/K', exchange, { min: 10, max: 30 });
  requireWithin('ice before, cm', cold.startCm ?? 0, { min: 0, max: 300 });
  const layerM = 2.24 / exchange;
  const grown = ((2 * 2.24) / (916 * 3.34e5)) * SECONDS_PER_DAY * cold.freezingDegreeDaysC;
  return 100 * (sqrt((layerM + (cold.startCm ?? 0) / 100) ** 2 + grown) - layerM);
}

const THIN_ICE_LIMIT_CM = 5;

/** Thickness shown for a cover that has seen this much cold since it formed: thin ice up to 5 cm, 2.0 sqrt(AFDD) above (ruling 33). [cm] */
export function shownIceCm(freezingDegreeDaysC: number): number {
  const thin = 100 * (sqrt(0.112 * 0.112 + 0.0012652 * freezingDegreeDaysC) - 0.112);
  return thin < THIN_ICE_LIMIT_CM ? thin : GARDEN_POND_ICE.value * sqrt(freezingDegreeDaysC);
}

/** Depth of water left under the ice. [m] A frost climate needs 0.45 (0.60 in the severest), ruling 34. */
export function refugeDepthM(pond: { maxDepthM: number; iceThicknessCm: number }): number {
  requireWithin('deepest point, m', pond.maxDepthM, { min: 0.1, max: 30 });
  requireWithin('ice thickness, cm', pond.iceThicknessCm, { min: 0, max: 300 });
  return max(0, pond.maxDepthM - pond.iceThicknessCm / 100);
}
