import { requireWithin } from '../errors.js';
import { WATER_HEAT_J_PER_M3_K } from './heat-balance.js';

/**
 * Share of the way to the wet-bulb temperature that water comes while it falls. The handbook's estimate is 0.05 to 0.15
 * for 0.3 to 1 m (no measurement found); the low end is taken, since 0.05 already means far more evaporation than the
 * fifth that ruling 38 counts. Common practice. [-]
 */
export const WATERFALL_APPROACH = { value: 0.05, min: 0, max: 0.15 } as const;
/** Below this water the falls are taken to be shut, as the winter rule has it. [°C] */
export const WATERFALL_STOPS_BELOW_C = 5;

/**
 * Heat exchange of a waterfall per area of pond, toward the wet-bulb temperature: rho c Q eta / A. [W/m2/K]
 * @param pond.waterfallFlowLPerH 0 to 500,000. [L/h]
 * @param pond.waterfallApproach 0 to 0.15, 0.05 unless given. [-]
 */
export function waterfallExchangeWPerM2K(pond: {
  waterfallFlowLPerH: number;
  surfaceAreaM2: number;
  waterfallApproach?: number;
}): number {
  const approach = pond.waterfallApproach ?? WATERFALL_APPROACH.value;
  requireWithin('approach of falling water to the wet bulb', approach, WATERFALL_APPROACH);
  requireWithin('waterfall flow, L/h', pond.waterfallFlowLPerH, { min: 0, max: 500_000 });
  requireWithin('surface area, m2', pond.surfaceAreaM2, { min: 0.2, max: 1e8 });
  const flowM3PerS = pond.waterfallFlowLPerH / 3_600_000;
  return (WATER_HEAT_J_PER_M3_K * flowM3PerS * approach) / pond.surfaceAreaM2;
}

/**
 * Wet-bulb temperature at sea-level pressure. Stull (2011), J. Appl. Meteorol. Climatol. 50, 2267-2269 (from memory);
 * for 5 to 99 % humidity and -20 to 50 °C, within 1 °C. [°C]
 */
export function wetBulbC({
  airTemperatureC,
  relativeHumidityPct,
}: {
  airTemperatureC: number;
  relativeHumidityPct: number;
}): number {
  requireWithin('air temperature, °C', airTemperatureC, { min: -20, max: 50 });
  requireWithin('relative humidity, %', relativeHumidityPct, { min: 5, max: 99 });
  return wetBulbFrom(
    airTemperatureC,
    relativeHumidityPct,
    wetBulbSlope(relativeHumidityPct),
    wetBulbConstant(relativeHumidityPct),
  );
}

/** The parts of Stull's formula that hang on the humidity alone, so that a day computes them once. */
export function wetBulbSlope(relativeHumidityPct: number): number {
  return Math.atan(0.151977 * Math.sqrt(relativeHumidityPct + 8.313659));
}
export function wetBulbConstant(relativeHumidityPct: number): number {
  const curve = 0.00391838 * relativeHumidityPct ** 1.5 * Math.atan(0.023101 * relativeHumidityPct);
  return curve - Math.atan(relativeHumidityPct - 1.676331) - 4.686035;
}
export function wetBulbFrom(airC: number, relativeHumidityPct: number, slope: number, constant: number): number {
  return airC * slope + Math.atan(airC + relativeHumidityPct) + constant;
}
