import { saturationVapourPressureKPa } from '../climate/fao56.js';
import { requireWithin } from '../errors.js';

/** Heat that evaporates a kilogram. [kJ/kg] */
const LATENT_HEAT_KJ_PER_KG = 2450;
const SECONDS_PER_DAY = 86_400;
/** Open water over a Class A pan, 0.6 to 0.85 (published source: note to an EPA table, quoted). [-] */
const PAN_COEFFICIENT = 0.7;
/** Open water less than 2 m deep over reference evapotranspiration (FAO-56 table 12, from memory). [-] */
const SHALLOW_WATER_COEFFICIENT = 1.05;

/**
 * Evaporation of heated or sheltered water from its own temperature. [mm/day]
 *   (pw - pa)(0.089 + 0.0782 v) / L        kPa, m/s, kJ/kg
 * 22 °C water, 25 °C air at 50 %: 3.6 mm/day in still air, 6.3 at 1 m/s; so the wind decides. Never below 0.
 * Not used for a pond's plan, whose water temperature follows from the same weather.
 * @param place.windMPerS At the water, 0.05 to 5. [m/s]
 * @see ASHRAE Handbook, HVAC Applications, natatoriums (from memory).
 */
export function poolEvaporationMmPerDay(place: {
  waterTemperatureC: number;
  airTemperatureC: number;
  relativeHumidityPct: number;
  windMPerS: number;
}): number {
  requireWithin('water temperature, °C', place.waterTemperatureC, { min: 0, max: 45 });
  requireWithin('air temperature, °C', place.airTemperatureC, { min: -30, max: 55 });
  requireWithin('relative humidity, %', place.relativeHumidityPct, { min: 0, max: 100 });
  requireWithin('wind over the water, m/s', place.windMPerS, { min: 0, max: 5 });
  const atWater = saturationVapourPressureKPa({ temperatureC: place.waterTemperatureC });
  const inAir =
    (saturationVapourPressureKPa({ temperatureC: place.airTemperatureC }) * place.relativeHumidityPct) / 100;
  const kgPerM2S = ((atWater - inAir) * (0.089 + 0.0782 * place.windMPerS)) / LATENT_HEAT_KJ_PER_KG;
  return Math.max(0, kgPerM2S * SECONDS_PER_DAY);
}

/** Open water from what a Class A pan lost. [mm] 6.43 in in June: 4.50 in. */
export function evaporationFromPanMm({ panMm }: { panMm: number }): number {
  requireWithin('loss of the pan, mm', panMm, { min: 0, max: 1000 });
  return PAN_COEFFICIENT * panMm;
}

/** Open water less than 2 m deep from reference evapotranspiration. [mm/day] 3.9: 4.1. */
export function evaporationFromReferenceMmPerDay({ referenceMmPerDay }: { referenceMmPerDay: number }): number {
  requireWithin('reference evapotranspiration, mm/day', referenceMmPerDay, { min: 0, max: 30 });
  return SHALLOW_WATER_COEFFICIENT * referenceMmPerDay;
}
