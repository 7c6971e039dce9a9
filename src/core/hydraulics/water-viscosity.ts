import { requireWithin } from '../errors.js';

/** Of liquid water at 20 °C and 1 atm. [Pa s] */
const VISCOSITY_AT_20_C_PA_S = 1.002e-3;
/** Standard acceleration of free fall, exact. [m/s²] */
export const GRAVITY_M_PER_S2 = 9.80665;

const TEMPERATURE_RANGE_C = { min: 0, max: 40 } as const;

/**
 * Density of fresh water, 0 to 40 °C. [kg/m³]
 *   1000 (1 - (T + 288.9414)(T - 3.9863)² / (508929.2 (T + 68.12963)))
 * @see McCutcheon, Martin & Barnwell (1993), Water quality, in Handbook of Hydrology (from memory).
 */
export function waterDensityKgPerM3({ temperatureC }: { temperatureC: number }): number {
  requireWithin('water temperature, °C', temperatureC, TEMPERATURE_RANGE_C);
  const share = ((temperatureC + 288.9414) * (temperatureC - 3.9863) ** 2) / (508929.2 * (temperatureC + 68.12963));
  return 1000 * (1 - share);
}

/**
 * Kinematic viscosity of fresh water, 0 to 40 °C. [m²/s]
 *   log10(mu / mu20) = (20 - T)/(T + 96) (1.2364 - 0.00137 (20 - T) + 0.0000057 (20 - T)²)
 * @see Kestin, Sokolov & Wakeham (1978), J. Phys. Chem. Ref. Data 7, 941-948 (from memory).
 */
export function waterViscosityM2PerS({ temperatureC }: { temperatureC: number }): number {
  const densityKgPerM3 = waterDensityKgPerM3({ temperatureC });
  const below20 = 20 - temperatureC;
  const exponent = (below20 / (temperatureC + 96)) * (1.2364 - 1.37e-3 * below20 + 5.7e-6 * below20 ** 2);
  return (VISCOSITY_AT_20_C_PA_S * 10 ** exponent) / densityKgPerM3;
}
