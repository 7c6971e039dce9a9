/** What the weather of one day and the exposure of one pond put into the heat balance; one object, filled anew each day. */
import {
  BOWEN_HPA_PER_K,
  cloudTerm,
  ICE_ALBEDO,
  SECONDS_PER_DAY,
  solarRatio,
  WATER_ALBEDO,
  WATER_HEAT_J_PER_M3_K,
  windFunction,
} from './heat-balance.js';
import { FUSION_HEAT_J_PER_KG } from './ice.js';
import type { KnownAir } from './known-air.js';
import type { PondYear } from './pond-year.js';
import { wetBulbConstant, wetBulbSlope } from './waterfall.js';

const { max, min } = Math;
const SEVENTH = 1 / 7;

/**
 * How far the measured sun of a day is believed against the normal. The day's air temperature already carries most of it:
 * with full weight the error of two lakes rose from 1.08 to 1.41 and from 1.27 to 1.45 °C, with half to 1.16 and 1.33
 * (derived); none at all would never notice that a site is cloudier than its climate class. [-]
 */
const MEASURED_SUN_WEIGHT = 0.5;

/** Weather of a day that all ponds of a place share. */
export class DayWeather {
  solarWPerM2 = 0;
  /** 0 to 1. */
  humidity = 0;
  /** Cloud and humidity as a factor on the emissivity of a clear saturated sky. [-] */
  sky = 0;
  /** Measured wind; NaN where there is none. [m/s] */
  windMPerS = Number.NaN;
  /** Exchange with the rain of the day, toward the wet bulb. [W/m2/K] */
  rainWPerM2K = 0;
  /** Heat that the same amount takes to melt when it falls as snow into open water. [W/m2] */
  snowMeltWPerM2 = 0;
  humidityPct = 0;
  wetBulbSlope = 0;
  wetBulbConstant = 0;

  constructor(
    private readonly year: PondYear,
    private readonly known: KnownAir,
    /** Whether the wet bulb is needed on dry days too. */
    private readonly hasWaterfall: boolean,
  ) {}

  /** @param index Day of the run. @param place Place of the calendar day in the year's curves. */
  fill(index: number, place: number): void {
    const { known, year } = this;
    const extraterrestrial = year.extraterrestrialWPerM2[place] as number;
    const normalSolar = extraterrestrial * (year.sunShare[place] as number);
    const measuredSolar = known.solarWPerM2[index] as number;
    this.solarWPerM2 = Number.isNaN(measuredSolar)
      ? normalSolar
      : normalSolar + MEASURED_SUN_WEIGHT * (min(measuredSolar, extraterrestrial) - normalSolar);
    const measuredHumidity = known.relativeHumidity[index] as number;
    this.humidity = Number.isNaN(measuredHumidity) ? (year.relativeHumidity[place] as number) : measuredHumidity;
    this.sky = cloudTerm(solarRatio(this.solarWPerM2, extraterrestrial)) * this.humidity ** SEVENTH;
    this.windMPerS = known.windMPerS[index] as number;
    const rainKgPerM2 = known.precipitationMm[index] as number;
    this.rainWPerM2K = (WATER_HEAT_J_PER_M3_K * rainKgPerM2) / 1000 / SECONDS_PER_DAY;
    this.snowMeltWPerM2 = (FUSION_HEAT_J_PER_KG * rainKgPerM2) / SECONDS_PER_DAY;
    if (!this.hasWaterfall && rainKgPerM2 === 0) return;
    this.humidityPct = min(99, max(5, 100 * this.humidity));
    this.wetBulbSlope = wetBulbSlope(this.humidityPct);
    this.wetBulbConstant = wetBulbConstant(this.humidityPct);
  }
}

/** The same weather over one water: after shade and shelter. */
export class PondForcing {
  shortwaveWPerM2 = 0;
  /** What ice reflects of it more than water. [W/m2] */
  iceLossWPerM2 = 0;
  windFunctionWPerM2HPa = 0;
  sensibleWPerM2K = 0;

  /**
   * @param windFactor See `smallPondFactor`.
   * @param windShare Multiplies measured wind: 1 unless readings teach otherwise.
   */
  fill(
    weather: DayWeather,
    exposure: { windAt2mMPerS: number; shadeShare: number },
    windFactor: number,
    windShare: number,
  ): void {
    const windMPerS = Number.isNaN(weather.windMPerS) ? exposure.windAt2mMPerS : weather.windMPerS * windShare;
    const sun = (1 - exposure.shadeShare) * weather.solarWPerM2;
    this.shortwaveWPerM2 = (1 - WATER_ALBEDO) * sun;
    this.iceLossWPerM2 = (ICE_ALBEDO - WATER_ALBEDO) * sun;
    this.windFunctionWPerM2HPa = windFunction(windMPerS) * windFactor;
    this.sensibleWPerM2K = BOWEN_HPA_PER_K * this.windFunctionWPerM2HPa;
  }
}
