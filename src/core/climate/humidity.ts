/**
 * Actual vapour pressure from what a station measures. Allen et al. (1998), FAO Irrigation and Drainage Paper 56,
 * eq 14 to 19 and 48, https://www.fao.org/docrep/x0490e/x0490e07.htm. Published source.
 */
import { requireWithin } from '../errors.js';
import { airPressureKPa, meanSaturationKPa, saturationVapourPressureKPa } from './fao56.js';

const HUMIDITY_RANGE_PCT = { min: 0, max: 100 } as const;

/** From the dew point (eq 14). [kPa] */
export function vapourPressureFromDewPointKPa({ dewPointC }: { dewPointC: number }): number {
  return saturationVapourPressureKPa({ temperatureC: dewPointC });
}

/** Dew point where nobody measured it: the day's minimum, in arid places 2 °C less (eq 48 and annex 6). [°C] */
export function dewPointFromMinimumC({ minC, isArid }: { minC: number; isArid: boolean }): number {
  requireWithin('lowest temperature, °C', minC, { min: -88, max: 60 });
  return isArid ? minC - 2 : minC;
}

/** What the air could still take up: saturation at the day's extremes less what it holds; never below zero. [kPa] */
export function vapourPressureDeficitKPa(day: { maxC: number; minC: number; vapourPressureKPa: number }): number {
  requireWithin('vapour pressure, kPa', day.vapourPressureKPa, { min: 0, max: 20 });
  return Math.max(0, meanSaturationKPa(day) - day.vapourPressureKPa);
}

/**
 * From a psychrometer (eq 15, 16). [kPa]
 * @param reading.coefficient 0.000662 ventilated at 5 m/s, 0.0008 with 1 m/s, 0.0012 indoors. [1/°C]
 */
export function vapourPressureFromPsychrometerKPa(reading: {
  wetBulbC: number;
  dryBulbC: number;
  coefficient: number;
  elevationM: number;
}): number {
  requireWithin('wet-bulb depression, °C', reading.dryBulbC - reading.wetBulbC, { min: 0, max: 40 });
  requireWithin('psychrometer coefficient, 1/°C', reading.coefficient, { min: 0.0006, max: 0.0013 });
  const depression = reading.coefficient * airPressureKPa(reading) * (reading.dryBulbC - reading.wetBulbC);
  return Math.max(0, saturationVapourPressureKPa({ temperatureC: reading.wetBulbC }) - depression);
}

/** From the day's extremes of temperature and relative humidity (eq 17). [kPa] */
export function vapourPressureFromExtremesKPa(day: {
  maxC: number;
  minC: number;
  humidityMaxPct: number;
  humidityMinPct: number;
}): number {
  requireWithin('highest relative humidity, %', day.humidityMaxPct, HUMIDITY_RANGE_PCT);
  requireWithin('lowest relative humidity, %', day.humidityMinPct, HUMIDITY_RANGE_PCT);
  const dawn = saturationVapourPressureKPa({ temperatureC: day.minC }) * day.humidityMaxPct;
  const afternoon = saturationVapourPressureKPa({ temperatureC: day.maxC }) * day.humidityMinPct;
  return (dawn + afternoon) / 200;
}

/** From the day's minimum temperature and highest humidity alone (eq 18). [kPa] */
export function vapourPressureFromMaximumHumidityKPa(day: { minC: number; humidityMaxPct: number }): number {
  requireWithin('highest relative humidity, %', day.humidityMaxPct, HUMIDITY_RANGE_PCT);
  return (saturationVapourPressureKPa({ temperatureC: day.minC }) * day.humidityMaxPct) / 100;
}

/** From the day's mean humidity (eq 19). [kPa] */
export function vapourPressureFromMeanHumidityKPa(day: {
  maxC: number;
  minC: number;
  humidityMeanPct: number;
}): number {
  requireWithin('mean relative humidity, %', day.humidityMeanPct, HUMIDITY_RANGE_PCT);
  return (meanSaturationKPa(day) * day.humidityMeanPct) / 100;
}
