/**
 * Radiation, pressure, humidity and reference evapotranspiration after FAO Irrigation and Drainage Paper 56:
 * Allen, Pereira, Raes & Smith (1998), read at https://www.fao.org/docrep/x0490e/x0490e07.htm. "eq n" is the equation
 * number there. Published source; the worked examples of the paper are the tests.
 */
import { requireWithin } from '../errors.js';

export const TEMPERATURE_RANGE_C = { min: -90, max: 60 } as const;
const LATITUDE_RANGE = { min: -90, max: 90 } as const;
const DAY_OF_YEAR_RANGE = { min: 1, max: 366 } as const;
const ELEVATION_RANGE_M = { min: -500, max: 9000 } as const;
/** More than any day has, at the top of the atmosphere. [MJ/m2/day] */
const RADIATION_RANGE_MJ = { min: 0, max: 60 } as const;
const VAPOUR_PRESSURE_RANGE_KPA = { min: 0, max: 20 } as const;

const SOLAR_CONSTANT_MJ_PER_M2_MIN = 0.082;
const STEFAN_BOLTZMANN_MJ_PER_M2_DAY_K4 = 4.903e-9;
const FAO_KELVIN_OFFSET = 273.16;
/** Share of the sun that short grass throws back. [-] */
export const GRASS_ALBEDO = 0.23;
/** One millimetre of evaporation takes 2.45 MJ/m2; FAO prints the inverse. [mm per MJ/m2] */
const MM_PER_MJ_PER_M2 = 0.408;

/** An angle in degrees, -360 to 360, as radians (eq 22). [rad] */
export function radiansOf({ degrees }: { degrees: number }): number {
  requireWithin('angle, degrees', degrees, { min: -360, max: 360 });
  return (degrees * Math.PI) / 180;
}

/** Water that a radiation could evaporate, at 2.45 MJ/kg (eq 20). [mm/day] */
export function evaporationEquivalentMmPerDay({ radiationMjPerM2Day }: { radiationMjPerM2Day: number }): number {
  requireWithin('radiation, MJ/m2/day', radiationMjPerM2Day, { min: -60, max: 60 });
  return MM_PER_MJ_PER_M2 * radiationMjPerM2Day;
}

/** Mean air pressure at an elevation, -500 to 9000 m (eq 7). [kPa] */
export function airPressureKPa({ elevationM }: { elevationM: number }): number {
  requireWithin('elevation, m', elevationM, ELEVATION_RANGE_M);
  return 101.3 * ((293 - 0.0065 * elevationM) / 293) ** 5.26;
}

/** Psychrometric constant at an air pressure of 20 to 115 kPa (eq 8). [kPa/°C] */
export function psychrometricKPaPerC({ pressureKPa }: { pressureKPa: number }): number {
  requireWithin('air pressure, kPa', pressureKPa, { min: 20, max: 115 });
  return 0.000665 * pressureKPa;
}

/** Saturation vapour pressure over water, -90 to 60 °C (eq 11). [kPa] */
export function saturationVapourPressureKPa({ temperatureC }: { temperatureC: number }): number {
  requireWithin('temperature, °C', temperatureC, TEMPERATURE_RANGE_C);
  return 0.6108 * Math.exp((17.27 * temperatureC) / (temperatureC + 237.3));
}

/** Mean saturation vapour pressure of a day with these extremes (eq 12). [kPa] */
export function meanSaturationKPa({ maxC, minC }: { maxC: number; minC: number }): number {
  return (
    (saturationVapourPressureKPa({ temperatureC: maxC }) + saturationVapourPressureKPa({ temperatureC: minC })) / 2
  );
}

/** Slope of the saturation curve, -90 to 60 °C (eq 13). [kPa/°C] */
export function vapourPressureSlopeKPaPerC({ temperatureC }: { temperatureC: number }): number {
  return (4098 * saturationVapourPressureKPa({ temperatureC })) / (temperatureC + 237.3) ** 2;
}

/** Inverse relative distance earth to sun, day 1 to 366 (eq 23). [-] */
export function inverseSunDistance({ dayOfYear }: { dayOfYear: number }): number {
  requireWithin('day of the year', dayOfYear, DAY_OF_YEAR_RANGE);
  return 1 + 0.033 * Math.cos((2 * Math.PI * dayOfYear) / 365);
}

/** Solar declination, day 1 to 366 (eq 24). [rad] */
export function solarDeclinationRad({ dayOfYear }: { dayOfYear: number }): number {
  requireWithin('day of the year', dayOfYear, DAY_OF_YEAR_RANGE);
  return 0.409 * Math.sin((2 * Math.PI * dayOfYear) / 365 - 1.39);
}

/** Sunset hour angle (eq 25): 0 in polar night, pi in polar day. [rad] */
export function sunsetHourAngleRad({ latitude, dayOfYear }: { latitude: number; dayOfYear: number }): number {
  requireWithin('latitude, degrees', latitude, LATITUDE_RANGE);
  const cosine = -Math.tan(radiansOf({ degrees: latitude })) * Math.tan(solarDeclinationRad({ dayOfYear }));
  return Math.acos(Math.min(1, Math.max(-1, cosine)));
}

/**
 * Radiation of one day on a horizontal plane above the atmosphere (eq 21). [MJ/m2/day]
 * @param place.latitude Degrees, north positive.
 * @param place.dayOfYear 1 to 366.
 */
export function extraterrestrialMjPerM2Day(place: { latitude: number; dayOfYear: number }): number {
  const sunset = sunsetHourAngleRad(place);
  const latitude = radiansOf({ degrees: place.latitude });
  const declination = solarDeclinationRad(place);
  const path =
    sunset * Math.sin(latitude) * Math.sin(declination) + Math.cos(latitude) * Math.cos(declination) * Math.sin(sunset);
  return Math.max(0, ((24 * 60) / Math.PI) * SOLAR_CONSTANT_MJ_PER_M2_MIN * inverseSunDistance(place) * path);
}

/** Longest possible sunshine (eq 34), 0 to 24. [h] */
export function daylightHours(place: { latitude: number; dayOfYear: number }): number {
  return (24 / Math.PI) * sunsetHourAngleRad(place);
}

/** Solar radiation at the ground from hours of sunshine (eq 35). More sunshine than daylight counts as daylight. [MJ/m2/day] */
export function solarFromSunshine(day: {
  sunshineHours: number;
  daylightHours: number;
  extraterrestrialMjPerM2Day: number;
}): number {
  requireWithin('sunshine, h a day', day.sunshineHours, { min: 0, max: 24 });
  requireWithin('daylight, h', day.daylightHours, { min: 0, max: 24 });
  requireWithin('extraterrestrial radiation, MJ/m2/day', day.extraterrestrialMjPerM2Day, RADIATION_RANGE_MJ);
  const share = day.daylightHours > 0 ? Math.min(1, day.sunshineHours / day.daylightHours) : 0;
  return (0.25 + 0.5 * share) * day.extraterrestrialMjPerM2Day;
}

/**
 * Solar radiation at the ground from the day's temperature range (eq 50; Hargreaves). [MJ/m2/day]
 * @param day.coefficient 0.16 inland, 0.19 at a coast; 0.1 to 0.25.
 */
export function solarFromTemperatureRange(day: {
  maxC: number;
  minC: number;
  coefficient: number;
  extraterrestrialMjPerM2Day: number;
}): number {
  requireWithin('temperature range of the day, °C', day.maxC - day.minC, { min: 0, max: 60 });
  requireWithin('radiation coefficient', day.coefficient, { min: 0.1, max: 0.25 });
  requireWithin('extraterrestrial radiation, MJ/m2/day', day.extraterrestrialMjPerM2Day, RADIATION_RANGE_MJ);
  return Math.min(0.8, day.coefficient * Math.sqrt(day.maxC - day.minC)) * day.extraterrestrialMjPerM2Day;
}

/** Solar radiation at the ground under a clear sky (eq 37). [MJ/m2/day] */
export function clearSkyMjPerM2Day(day: { extraterrestrialMjPerM2Day: number; elevationM: number }): number {
  requireWithin('extraterrestrial radiation, MJ/m2/day', day.extraterrestrialMjPerM2Day, RADIATION_RANGE_MJ);
  requireWithin('elevation, m', day.elevationM, ELEVATION_RANGE_M);
  return (0.75 + 2e-5 * day.elevationM) * day.extraterrestrialMjPerM2Day;
}

/** Solar radiation kept by a surface (eq 38); albedo 0.23 for grass, 0.07 to 0.08 for water. [MJ/m2/day] */
export function netShortwaveMjPerM2Day(day: { solarMjPerM2Day: number; albedo: number }): number {
  requireWithin('solar radiation, MJ/m2/day', day.solarMjPerM2Day, RADIATION_RANGE_MJ);
  requireWithin('albedo', day.albedo, { min: 0, max: 1 });
  return (1 - day.albedo) * day.solarMjPerM2Day;
}

/** What a black body of this temperature gives off, -90 to 60 °C (the sigma T^4 of eq 39). [MJ/m2/day] */
export function blackbodyMjPerM2Day({ temperatureC }: { temperatureC: number }): number {
  requireWithin('temperature, °C', temperatureC, TEMPERATURE_RANGE_C);
  return STEFAN_BOLTZMANN_MJ_PER_M2_DAY_K4 * (temperatureC + FAO_KELVIN_OFFSET) ** 4;
}

/** Net longwave radiation lost by the surface (eq 39). In polar night, where there is no clear-sky value, the sky counts as half clouded. [MJ/m2/day] */
export function netLongwaveMjPerM2Day(day: {
  maxC: number;
  minC: number;
  vapourPressureKPa: number;
  solarMjPerM2Day: number;
  clearSkyMjPerM2Day: number;
}): number {
  requireWithin('highest temperature, °C', day.maxC, TEMPERATURE_RANGE_C);
  requireWithin('lowest temperature, °C', day.minC, TEMPERATURE_RANGE_C);
  requireWithin('vapour pressure, kPa', day.vapourPressureKPa, VAPOUR_PRESSURE_RANGE_KPA);
  requireWithin('solar radiation, MJ/m2/day', day.solarMjPerM2Day, RADIATION_RANGE_MJ);
  requireWithin('clear-sky radiation, MJ/m2/day', day.clearSkyMjPerM2Day, RADIATION_RANGE_MJ);
  const clearness = day.clearSkyMjPerM2Day > 0 ? Math.min(1, day.solarMjPerM2Day / day.clearSkyMjPerM2Day) : 0.6;
  const emitted =
    (blackbodyMjPerM2Day({ temperatureC: day.maxC }) + blackbodyMjPerM2Day({ temperatureC: day.minC })) / 2;
  return emitted * (0.34 - 0.14 * Math.sqrt(day.vapourPressureKPa)) * (1.35 * clearness - 0.35);
}

/** Net radiation of a surface: shortwave kept less longwave lost (eq 38 to 40). [MJ/m2/day] */
export function netRadiationMjPerM2Day(day: {
  albedo: number;
  maxC: number;
  minC: number;
  vapourPressureKPa: number;
  solarMjPerM2Day: number;
  clearSkyMjPerM2Day: number;
}): number {
  return netShortwaveMjPerM2Day(day) - netLongwaveMjPerM2Day(day);
}

/** Monthly heat flux into the soil under grass from the neighbouring months (eq 43), or from the month before alone (eq 44). [MJ/m2/day] */
export function monthlySoilHeatMjPerM2Day(months: { beforeC: number; thisC: number; afterC: number | null }): number {
  for (const value of [months.beforeC, months.thisC, months.afterC ?? 0]) {
    requireWithin('monthly temperature, °C', value, TEMPERATURE_RANGE_C);
  }
  return months.afterC === null ? 0.14 * (months.thisC - months.beforeC) : 0.07 * (months.afterC - months.beforeC);
}

/** Wind at 2 m over grass from wind at 1 to 100 m (eq 47). [m/s] */
export function windAt2m({ windMPerS, heightM }: { windMPerS: number; heightM: number }): number {
  requireWithin('wind, m/s', windMPerS, { min: 0, max: 75 });
  requireWithin('height of the wind measurement, m', heightM, { min: 1, max: 100 });
  return (windMPerS * 4.87) / Math.log(67.8 * heightM - 5.42);
}

/**
 * Reference evapotranspiration of short grass (eq 6, with eq 12, 13, 37 to 40). [mm/day]
 * @param day.meanC Mean temperature; half the sum of the extremes unless given.
 * @param day.soilHeatMjPerM2Day 0 for one day, eq 43 for a month.
 */
export function referenceEvapotranspirationMmPerDay(day: {
  maxC: number;
  minC: number;
  meanC?: number;
  vapourPressureKPa: number;
  windAt2mMPerS: number;
  solarMjPerM2Day: number;
  extraterrestrialMjPerM2Day: number;
  elevationM: number;
  soilHeatMjPerM2Day?: number;
}): number {
  requireWithin('wind at 2 m, m/s', day.windAt2mMPerS, { min: 0, max: 75 });
  const meanC = day.meanC ?? (day.maxC + day.minC) / 2;
  const net = netRadiationMjPerM2Day({ ...day, albedo: GRASS_ALBEDO, clearSkyMjPerM2Day: clearSkyMjPerM2Day(day) });
  const slope = vapourPressureSlopeKPaPerC({ temperatureC: meanC });
  const gamma = psychrometricKPaPerC({ pressureKPa: airPressureKPa(day) });
  const deficit = Math.max(0, meanSaturationKPa(day) - day.vapourPressureKPa);
  const radiative = slope * evaporationEquivalentMmPerDay({ radiationMjPerM2Day: net - (day.soilHeatMjPerM2Day ?? 0) });
  const aerodynamic = ((gamma * 900) / (meanC + 273)) * day.windAt2mMPerS * deficit;
  return Math.max(0, (radiative + aerodynamic) / (slope + gamma * (1 + 0.34 * day.windAt2mMPerS)));
}
