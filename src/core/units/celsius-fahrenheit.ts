/** Exact: one kelvin is 1.8 Fahrenheit degrees, and 0 °C is 32 °F. [-, °F] */
const F_DEGREES_PER_C = 1.8;
const FREEZING_F = 32;

/** 0 °C on the absolute scale, exact. [K] */
const ZERO_C_IN_K = 273.15;

/** Temperature in °F of one in °C; exact by definition, any value. */
export function fahrenheitFromC(temperatureC: number): number {
  return temperatureC * F_DEGREES_PER_C + FREEZING_F;
}

/** Temperature in °C of one in °F; exact by definition, any value. */
export function celsiusFromF(temperatureF: number): number {
  return (temperatureF - FREEZING_F) / F_DEGREES_PER_C;
}

/** A difference of temperatures, without the offset of 32: 2 °C apart is 3.6 °F apart. */
export function fahrenheitDifferenceFromC(differenceC: number): number {
  return differenceC * F_DEGREES_PER_C;
}

/** Absolute temperature. [K] */
export function kelvinFromC(temperatureC: number): number {
  return temperatureC + ZERO_C_IN_K;
}
