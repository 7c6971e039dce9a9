/**
 * Heat balance of a well-mixed pond: equilibrium temperature, exchange coefficient and the exact daily step.
 * Edinger, Duttweiler & Geyer (1968), Water Resour. Res. 4, 1137-1143; wind function of Brady, Graves & Geyer (1969);
 * clear-sky emissivity of Brutsaert (1975); cloud term after Kasten & Czeplak (1980). Formulas from memory, check rows
 * derived (climate handbook section 7).
 *
 * Every term that does not hang on the water is gathered in three numbers, so that the day loop works on scalars:
 *   H(T) = gain - ew s (T+273.15)^4 - f e_w(T) - k T      [W/m2]
 * with f the wind function [W/m2/hPa] and k the linear exchange (air, waterfall) [W/m2/K].
 */
import { requireWithin } from '../errors.js';
import { clearSkyEmissivity, saturationHPa, tabledSaturationHPa } from './saturation.js';

const { exp, max, min } = Math;

export const STEFAN_BOLTZMANN = 5.670374e-8;
export const WATER_EMISSIVITY = 0.97;
export const WATER_ALBEDO = 0.07;
export const ICE_ALBEDO = 0.4;
/** Ratio of sensible to evaporative exchange. [hPa/K] */
export const BOWEN_HPA_PER_K = 0.62;
/** Heat capacity of a cubic metre of water. [J/m3/K] */
export const WATER_HEAT_J_PER_M3_K = 4.186e6;
export const SECONDS_PER_DAY = 86_400;
const KELVIN = 273.15;

/** Weather over the pond and what the pond lets through; daily means. */
export interface PondWeather {
  /** -60 to 55. [°C] */
  readonly airTemperatureC: number;
  /** 0 to 60. [hPa] */
  readonly vapourPressureHPa: number;
  /** Over this water, at 2 m, 0 to 30. [m/s] */
  readonly windAt2mMPerS: number;
  /** At the ground, before shade. [W/m2] */
  readonly solarWPerM2: number;
  readonly extraterrestrialWPerM2: number;
  /** 0 to 1. */
  readonly shadeShare: number;
  /** See `smallPondFactor`. */
  readonly windFunctionFactor: number;
  /** Share of the sky not hidden by walls and trees; 1 unless given. */
  readonly skyViewShare?: number;
}

/** The balance of one day as a function of the water temperature; see the head of this file. */
export interface HeatForcing {
  readonly gainWPerM2: number;
  readonly windFunctionWPerM2HPa: number;
  readonly linearWPerM2K: number;
}

/** Gathers a day's weather. @throws OutOfRangeError naming the value. */
export function heatForcing(weather: PondWeather): HeatForcing {
  requireWithin('air temperature, °C', weather.airTemperatureC, { min: -60, max: 55 });
  requireWithin('vapour pressure, hPa', weather.vapourPressureHPa, { min: 0, max: 60 });
  requireWithin('wind over the pond, m/s', weather.windAt2mMPerS, { min: 0, max: 30 });
  requireWithin('solar radiation, W/m2', weather.solarWPerM2, { min: 0, max: 600 });
  requireWithin('extraterrestrial radiation, W/m2', weather.extraterrestrialWPerM2, { min: 0, max: 700 });
  requireWithin('shade share', weather.shadeShare, { min: 0, max: 1 });
  requireWithin('wind function factor', weather.windFunctionFactor, { min: 0.5, max: 3 });
  requireWithin('sky view share', weather.skyViewShare ?? 1, { min: 0, max: 1 });

  const windFunctionWPerM2HPa = windFunction(weather.windAt2mMPerS) * weather.windFunctionFactor;
  const view = weather.skyViewShare ?? 1;
  const cloud = cloudTerm(solarRatio(weather.solarWPerM2, weather.extraterrestrialWPerM2));
  const sky = min(1, clearSkyEmissivity(weather.airTemperatureC, weather.vapourPressureHPa) * cloud);
  const airEmissivity = view * sky + (1 - view) * WATER_EMISSIVITY;
  const shortwave = (1 - WATER_ALBEDO) * (1 - weather.shadeShare) * weather.solarWPerM2;
  const longwave = WATER_EMISSIVITY * airEmissivity * STEFAN_BOLTZMANN * (weather.airTemperatureC + KELVIN) ** 4;
  const linearWPerM2K = BOWEN_HPA_PER_K * windFunctionWPerM2HPa;
  return {
    gainWPerM2:
      shortwave +
      longwave +
      windFunctionWPerM2HPa * weather.vapourPressureHPa +
      linearWPerM2K * weather.airTemperatureC,
    windFunctionWPerM2HPa,
    linearWPerM2K,
  };
}

/** Wind function, u at 2 m in m/s. [W/m2/hPa] */
export function windFunction(windAt2mMPerS: number): number {
  return 6.9 + 0.345 * windAt2mMPerS * windAt2mMPerS;
}

/**
 * Small water loses more heat and vapour per area: (A / 1 ha)^-0.05, 1 from one hectare up.
 * Harbeck (1962), quoted by McMahon et al. (2013), Hydrol. Earth Syst. Sci. 17, 1331-1363 (from memory; unproved on
 * garden ponds).
 * @param pond.surfaceAreaM2 0.2 to 1e8. [m2]
 */
export function smallPondFactor({ surfaceAreaM2 }: { surfaceAreaM2: number }): number {
  requireWithin('surface area, m2', surfaceAreaM2, { min: 0.2, max: 1e8 });
  return max(1, (surfaceAreaM2 / 10_000) ** -0.05);
}

/** Share of the clear-sky sun that came through, 0.2 to 1; 0.6 in polar night. [-] */
export function solarRatio(solarWPerM2: number, extraterrestrialWPerM2: number): number {
  if (extraterrestrialWPerM2 <= 0) return 0.6;
  return min(1, max(0.2, solarWPerM2 / (0.75 * extraterrestrialWPerM2)));
}

/** What clouds add to the emissivity of the sky, as a factor on the clear sky. [-] */
export function cloudTerm(ratio: number): number {
  return 1 + 0.22 * min(1, (1 - ratio) / 0.65);
}

/** Net heat into water of this temperature. [W/m2] */
export function netHeatWPerM2(waterC: number, gain: number, windFunctionHPa: number, linear: number): number {
  const kelvin2 = (waterC + KELVIN) * (waterC + KELVIN);
  return (
    gain -
    WATER_EMISSIVITY * STEFAN_BOLTZMANN * kelvin2 * kelvin2 -
    windFunctionHPa * saturationHPa(waterC) -
    linear * waterC
  );
}

/** Exchange coefficient K, the slope of the losses with temperature. [W/m2/K] */
export function exchangeWPerM2K(waterC: number, windFunctionHPa: number, linear: number): number {
  const kelvin = waterC + KELVIN;
  const slopeHPa = (4098 * saturationHPa(waterC)) / ((waterC + 237.3) * (waterC + 237.3));
  return 4 * WATER_EMISSIVITY * STEFAN_BOLTZMANN * kelvin * kelvin * kelvin + windFunctionHPa * slopeHPa + linear;
}

/** Newton's method doubles the digits: the step after one this small would move it by less than a hundred-thousandth. [°C] */
const NEWTON_TOLERANCE_C = 0.02;
const NEWTON_STEPS = 12;
/** Keeps the first steps inside the table however strange the weather. [°C] */
const LARGEST_STEP_C = 30;

/** The same with the saturation pressure looked up, for the day loop. [W/m2/K] */
export function tabledExchangeWPerM2K(waterC: number, windFunctionHPa: number, linear: number): number {
  const kelvin = waterC + KELVIN;
  const offset = waterC + 237.3;
  const slopeHPa = (4098 * tabledSaturationHPa(waterC)) / (offset * offset);
  return 4 * WATER_EMISSIVITY * STEFAN_BOLTZMANN * kelvin * kelvin * kelvin + windFunctionHPa * slopeHPa + linear;
}

/** Net heat of a surface at 0 °C, wet or ice. [W/m2] */
export function netHeatAtZeroWPerM2(gain: number, windFunctionHPa: number): number {
  return gain - EMITTED_AT_ZERO_W_PER_M2 - windFunctionHPa * SATURATION_AT_ZERO_HPA;
}
const SATURATION_AT_ZERO_HPA = saturationHPa(0);
const EMITTED_AT_ZERO_W_PER_M2 = WATER_EMISSIVITY * STEFAN_BOLTZMANN * KELVIN ** 4;

/**
 * Temperature at which the water would neither gain nor lose, by Newton's method. [°C]
 * The same as `netHeatWPerM2` over `exchangeWPerM2K` until nothing changes, with the saturation pressure looked up once a step.
 */
export function equilibriumC(startC: number, gain: number, windFunctionHPa: number, linear: number): number {
  let temperatureC = startC;
  for (let step = 0; step < NEWTON_STEPS; step++) {
    const saturation = tabledSaturationHPa(temperatureC);
    const kelvin = temperatureC + KELVIN;
    const emitted3 = WATER_EMISSIVITY * STEFAN_BOLTZMANN * kelvin * kelvin * kelvin;
    const offset = temperatureC + 237.3;
    const net = gain - emitted3 * kelvin - windFunctionHPa * saturation - linear * temperatureC;
    const slope = 4 * emitted3 + (windFunctionHPa * 4098 * saturation) / (offset * offset) + linear;
    const change = max(-LARGEST_STEP_C, min(LARGEST_STEP_C, net / slope));
    temperatureC += change;
    if (change < NEWTON_TOLERANCE_C && change > -NEWTON_TOLERANCE_C) break;
  }
  return temperatureC;
}

/**
 * Water temperature after a time under constant weather: T + (T - Te) exp(-K t / (rho c d)), K at the midpoint.
 * Exact for constant K, so stable for any depth and any step. [°C]
 * @param pond.effectiveDepthM See `effectiveDepthM`, 0.05 to 100. [m]
 * @param pond.seconds One day unless given.
 */
export function waterAfter(pond: {
  waterTemperatureC: number;
  equilibriumTemperatureC: number;
  forcing: HeatForcing;
  effectiveDepthM: number;
  seconds?: number;
}): number {
  requireWithin('water temperature, °C', pond.waterTemperatureC, { min: -5, max: 60 });
  requireWithin('effective depth, m', pond.effectiveDepthM, { min: 0.05, max: 100 });
  const seconds = pond.seconds ?? SECONDS_PER_DAY;
  requireWithin('step, s', seconds, { min: 0, max: 40 * SECONDS_PER_DAY });
  const { windFunctionWPerM2HPa, linearWPerM2K } = pond.forcing;
  const midpointC = (pond.waterTemperatureC + pond.equilibriumTemperatureC) / 2;
  const exchange = exchangeWPerM2K(midpointC, windFunctionWPerM2HPa, linearWPerM2K);
  const memory = exp((-exchange * seconds) / (WATER_HEAT_J_PER_M3_K * pond.effectiveDepthM));
  return pond.equilibriumTemperatureC + (pond.waterTemperatureC - pond.equilibriumTemperatureC) * memory;
}

/** Equilibrium temperature, exchange coefficient there and, for a depth, the time scale of a pond under this weather. */
export function equilibriumOf(weather: PondWeather): {
  equilibriumTemperatureC: number;
  heatExchangeWPerM2K: number;
  forcing: HeatForcing;
} {
  const forcing = heatForcing(weather);
  const { gainWPerM2, windFunctionWPerM2HPa, linearWPerM2K } = forcing;
  const temperatureC = equilibriumC(weather.airTemperatureC, gainWPerM2, windFunctionWPerM2HPa, linearWPerM2K);
  return {
    equilibriumTemperatureC: temperatureC,
    heatExchangeWPerM2K: exchangeWPerM2K(temperatureC, windFunctionWPerM2HPa, linearWPerM2K),
    forcing,
  };
}

/** Time in which a difference from equilibrium falls to 37 %. [d] */
export function timeScaleDays(pond: { depthM: number; heatExchangeWPerM2K: number }): number {
  requireWithin('depth, m', pond.depthM, { min: 0.05, max: 100 });
  requireWithin('heat exchange, W/m2/K', pond.heatExchangeWPerM2K, { min: 1, max: 2000 });
  return (WATER_HEAT_J_PER_M3_K * pond.depthM) / pond.heatExchangeWPerM2K / SECONDS_PER_DAY;
}
