/**
 * One pond's climate laid out by calendar day, so that the day loop only looks up: 366 places, leap day its own.
 * Everything here is the same for all traces.
 */
import { CURVE_DAYS, curveIndex, dailyCurve } from '../climate/daily-curve.js';
import { extraterrestrialMjPerM2Day } from '../climate/fao56.js';
import type { SiteClimate } from '../climate/station.js';
import { ofMonth, twelveMonths } from '../climate/twelve-months.js';
import { dayFromParts } from '../units/civil-day.js';
import { weatherSpreadOf } from './ensemble-noise.js';
import { saturationHPa } from './saturation.js';

const W_PER_M2_PER_MJ_PER_M2_DAY = 1e6 / 86_400;

export interface PondYear {
  /** Normal daily mean air temperature. [°C] */
  readonly airC: Float64Array;
  /** Standard deviation of the day-to-day anomaly. [°C] */
  readonly daySdC: Float64Array;
  /** Standard deviation of a calendar month's offset. [°C] */
  readonly monthSdC: Float64Array;
  /** Radiation above the atmosphere. [W/m2] */
  readonly extraterrestrialWPerM2: Float64Array;
  /** Normal share of it at the ground. [-] */
  readonly sunShare: Float64Array;
  /** Normal vapour pressure over saturation at the mean temperature. [-] */
  readonly relativeHumidity: Float64Array;
}

export function pondYearOf(climate: SiteClimate): PondYear {
  const humidity = twelveMonths((month) =>
    humidityOverPond(ofMonth(climate.vapourPressureHPa, month) / saturationHPa(ofMonth(climate.meanC, month))),
  );
  return {
    airC: dailyCurve(climate.meanC),
    ...weatherSpreadOf(climate),
    extraterrestrialWPerM2: extraterrestrialYear(climate.latitude),
    sunShare: within(dailyCurve(climate.sunShare), 0.1, 0.85),
    relativeHumidity: within(dailyCurve(humidity), 0.1, 1),
  };
}

/**
 * Humidity the balance was validated with, and how far a station must differ before it is believed: only what lies
 * beyond 0.10 from 0.70 counts. The ratio of monthly means at an airport is not the humidity over water and plants, and
 * it hangs together with the default share of sun (both are a little high where air is dry). Derived: with the bare ratio
 * the error on a prairie lake rises from 1.1 to 1.3 °C; a desert stays dry either way. [-]
 */
const VALIDATED_HUMIDITY = 0.7;
const HUMIDITY_SLACK = 0.1;

function humidityOverPond(stationHumidity: number): number {
  const beyond = Math.max(0, Math.abs(stationHumidity - VALIDATED_HUMIDITY) - HUMIDITY_SLACK);
  return VALIDATED_HUMIDITY + Math.sign(stationHumidity - VALIDATED_HUMIDITY) * beyond;
}

function extraterrestrialYear(latitude: number): Float64Array {
  const year = new Float64Array(CURVE_DAYS);
  for (let dayOfYear = 1; dayOfYear <= CURVE_DAYS; dayOfYear++) {
    const index = curveIndex(dayFromParts(2024, 1, dayOfYear));
    year[index] = extraterrestrialMjPerM2Day({ latitude, dayOfYear }) * W_PER_M2_PER_MJ_PER_M2_DAY;
  }
  return year;
}

function within(curve: Float64Array, min: number, max: number): Float64Array {
  for (let index = 0; index < curve.length; index++) {
    curve[index] = Math.min(max, Math.max(min, curve[index] as number));
  }
  return curve;
}
