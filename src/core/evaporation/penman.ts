import {
  airPressureKPa,
  clearSkyMjPerM2Day,
  extraterrestrialMjPerM2Day,
  meanSaturationKPa,
  netLongwaveMjPerM2Day,
  psychrometricKPaPerC,
  saturationVapourPressureKPa,
  vapourPressureSlopeKPaPerC,
} from '../climate/fao56.js';
import { requireWithin } from '../errors.js';

/** Heat that evaporates a kilogram, and albedo of open water. [MJ/kg, -] */
const LATENT_HEAT_MJ_PER_KG = 2.45;
const OPEN_WATER_ALBEDO = 0.08;
/** Still-air term of the wind function, 1948 from small tanks, 1956 for open lakes. [mm/day per kPa] */
const STILL_AIR_TERM = { 1948: 2.626, 1956: 1.313 } as const;
/** Radiation under an overcast sky over that under a clear one, FAO-56 eq 35 and 37. [-] */
const OVERCAST_SHARE = 1 / 3;

/** One day over a pond. */
export interface EvaporationDay {
  /** Degrees, north positive. */
  readonly latitude: number;
  /** 1 to 366. */
  readonly dayOfYear: number;
  readonly elevationM: number;
  readonly airTemperatureMinC: number;
  readonly airTemperatureMaxC: number;
  readonly solarMjPerM2Day: number;
}

/**
 * Evaporation of open water by Penman with his wind function of 1948. [mm/day]
 *   E = D/(D+g) Rn/L + g/(D+g) (2.626 + 1.381 u2)(es - ea), not below 0; with 1.313 it is that of 1956
 * No area factor for small ponds: the wind function comes from small tanks. Good to 1 to 2 mm on one day, better by the
 * week. Shallow ponds only: heat stored in the water is left out.
 * @param day.vapourPressureKPa Of the air. [kPa]
 * @param day.windAt2mMPerS Over the pond itself: 0.748 of the wind at 10 m, times the shelter. [m/s]
 * @param day.windFunction 1948 when left out, which is what the product uses.
 * @see Penman (1948, 1956) as given by McMahon et al. (2013), Hydrol. Earth Syst. Sci. 17, 1331-1363, supplement S4
 *      (published source); radiation after FAO-56.
 */
export function penmanEvaporationMmPerDay(
  day: EvaporationDay & {
    vapourPressureKPa: number;
    windAt2mMPerS: number;
    windFunction?: keyof typeof STILL_AIR_TERM;
  },
): number {
  requireWithin('wind at 2 m, m/s', day.windAt2mMPerS, { min: 0, max: 40 });
  const temperature = { maxC: day.airTemperatureMaxC, minC: day.airTemperatureMinC };
  const meanC = (temperature.maxC + temperature.minC) / 2;

  const slope = vapourPressureSlopeKPaPerC({ temperatureC: meanC });
  const gamma = psychrometricKPaPerC({ pressureKPa: airPressureKPa(day) });
  const radiationMm = netRadiationMjPerM2Day(day) / LATENT_HEAT_MJ_PER_KG;
  const dryness = Math.max(0, meanSaturationKPa(temperature) - day.vapourPressureKPa);
  const windMm = (STILL_AIR_TERM[day.windFunction ?? 1948] + 1.381 * day.windAt2mMPerS) * dryness;
  return Math.max(0, (slope * radiationMm + gamma * windMm) / (slope + gamma));
}

function netRadiationMjPerM2Day(day: EvaporationDay & { vapourPressureKPa: number }): number {
  const clearSky = clearSkyMjPerM2Day({
    extraterrestrialMjPerM2Day: extraterrestrialMjPerM2Day(day),
    elevationM: day.elevationM,
  });
  requireWithin('solar radiation, MJ/m2/day', day.solarMjPerM2Day, { min: 0, max: 60 });
  const lost = netLongwaveMjPerM2Day({
    maxC: day.airTemperatureMaxC,
    minC: day.airTemperatureMinC,
    vapourPressureKPa: day.vapourPressureKPa,
    // No sky is darker than an overcast one (eq 35 without sunshine); below, eq 39 would turn the loss into a gain.
    solarMjPerM2Day: Math.max(day.solarMjPerM2Day, clearSky * OVERCAST_SHARE),
    clearSkyMjPerM2Day: clearSky,
  });
  return (1 - OPEN_WATER_ALBEDO) * day.solarMjPerM2Day - lost;
}

/**
 * Penman without wind, for places where none is measured. [mm/day]
 *   E = 0.047 Rs sqrt(T + 9.5) - 2.4 (Rs/Ra)^2 + 0.09 (T + 20)(1 - RH/100), not below 0; 0 below -9.5 °C
 * @param day.airTemperatureC Daily mean, -60 to 60. [°C]
 * @param day.relativeHumidityPct 0 to 100. [%]
 * @param day.extraterrestrialMjPerM2Day Above the atmosphere; 0 in polar night. [MJ/m²/day]
 * @see Valiantzas (2006), J. Hydrology 331, 690-702, eq. 33 (published source, quoted by McMahon et al. 2013).
 */
export function noWindEvaporationMmPerDay(day: {
  airTemperatureC: number;
  relativeHumidityPct: number;
  solarMjPerM2Day: number;
  extraterrestrialMjPerM2Day: number;
}): number {
  const { airTemperatureC, relativeHumidityPct, solarMjPerM2Day, extraterrestrialMjPerM2Day: above } = day;
  requireWithin('air temperature, °C', airTemperatureC, { min: -60, max: 60 });
  requireWithin('relative humidity, %', relativeHumidityPct, { min: 0, max: 100 });
  requireWithin('solar radiation, MJ/m2/day', solarMjPerM2Day, { min: 0, max: 60 });
  requireWithin('extraterrestrial radiation, MJ/m2/day', above, { min: 0, max: 60 });
  if (airTemperatureC <= -9.5) return 0;

  const clearness = above > 0 ? solarMjPerM2Day / above : 0;
  const sunMm = 0.047 * solarMjPerM2Day * Math.sqrt(airTemperatureC + 9.5) - 2.4 * clearness ** 2;
  return Math.max(0, sunMm + 0.09 * (airTemperatureC + 20) * (1 - relativeHumidityPct / 100));
}

/**
 * Evaporation with what is known: Penman 1948 with wind and humidity, else the form without wind. [mm/day]
 * Where humidity is not known the night's lowest temperature stands in for the dew point (FAO-56 eq 48).
 */
export function openWaterEvaporationMmPerDay(
  day: EvaporationDay & { vapourPressureKPa: number | null; windAt2mMPerS: number | null },
): number {
  const { vapourPressureKPa, windAt2mMPerS } = day;
  if (vapourPressureKPa !== null && windAt2mMPerS !== null) {
    return penmanEvaporationMmPerDay({ ...day, vapourPressureKPa, windAt2mMPerS });
  }
  const saturation = meanSaturationKPa({ maxC: day.airTemperatureMaxC, minC: day.airTemperatureMinC });
  const vapour = vapourPressureKPa ?? saturationVapourPressureKPa({ temperatureC: day.airTemperatureMinC });
  return noWindEvaporationMmPerDay({
    airTemperatureC: (day.airTemperatureMaxC + day.airTemperatureMinC) / 2,
    relativeHumidityPct: Math.min(100, (100 * vapour) / saturation),
    solarMjPerM2Day: day.solarMjPerM2Day,
    extraterrestrialMjPerM2Day: extraterrestrialMjPerM2Day(day),
  });
}
