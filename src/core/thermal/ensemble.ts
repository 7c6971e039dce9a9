import { curveIndex } from '../climate/daily-curve.js';
import type { SiteClimate } from '../climate/station.js';
import { addDays, type CivilDay, monthOf, yearOf } from '../units/civil-day.js';
import { EnsembleNoise, WEATHER_KEEP } from './ensemble-noise.js';
import {
  BOWEN_HPA_PER_K,
  cloudTerm,
  EFFECTIVE_DEPTH_FACTOR,
  equilibriumC,
  exchangeWPerM2K,
  ICE_ALBEDO,
  netHeatWPerM2,
  SECONDS_PER_DAY,
  STEFAN_BOLTZMANN,
  smallPondFactor,
  solarRatio,
  WATER_ALBEDO,
  WATER_EMISSIVITY,
  WATER_HEAT_J_PER_M3_K,
  windFunction,
} from './heat-balance.js';
import { NEW_ICE_M, shownIceCm, simulatedIceM, WATER_AFTER_ICE_C, WATER_UNDER_ICE_C } from './ice.js';
import { KnownAir } from './known-air.js';
import { type PondYear, pondYearOf } from './pond-year.js';
import { quantileOfSorted, sortByLastOrder } from './quantiles.js';
import {
  advanceModelError,
  FADING_KEEP,
  type ModelErrorState,
  priorModelError,
  takeReading,
} from './readings-correction.js';
import { tabledSaturationHPa, tabledSkyEmissivity } from './saturation.js';
import type { DailyAir, PondHeat, ReadingVerdict, WaterReading } from './water-forecast.js';
import {
  WATERFALL_STOPS_BELOW_C,
  waterfallExchangeWPerM2K,
  wetBulbConstant,
  wetBulbFrom,
  wetBulbSlope,
} from './waterfall.js';

// Bound once: where code runs in a sandbox, each look-up of a global costs more than the sum it does.
const { exp, max, min, sqrt } = Math;

const SEVENTH = 1 / 7;
/** Air that no garden has; keeps the far tail of the noise inside the formulas. [°C] */
const AIR_RANGE_C = { min: -60, max: 55 } as const;
/** A measured anomaly beyond this many standard deviations is carried on as this many. */
const LARGEST_CARRIED_SIGMAS = 4;

/**
 * How far the measured sun of a day is believed against the normal. The day's air temperature already carries most of it:
 * with full weight the error of two lakes rose from 1.08 to 1.41 and from 1.27 to 1.45 °C, with half to 1.16 and 1.33
 * (derived); none at all would never notice that a site is cloudier than its climate class. [-]
 */
const MEASURED_SUN_WEIGHT = 0.5;

export interface EnsembleSetting {
  readonly pond: PondHeat;
  readonly climate: SiteClimate;
  readonly start: CivilDay;
  readonly days: number;
  readonly seed: number;
  readonly traces: number;
  readonly air: readonly DailyAir[];
  readonly offsetSdC: number;
}

/** All traces of one pond on one day, advanced day by day in place; the day loop allocates nothing. */
export class Ensemble {
  /** Water of each trace today, with its model error. [°C] */
  readonly waterC: Float64Array;
  /** Shown ice of each trace today. [cm] */
  readonly iceCm: Float64Array;
  readonly airC: Float64Array;

  private readonly year: PondYear;
  private readonly noise: EnsembleNoise;
  private readonly known: KnownAir;
  private readonly modelError: ModelErrorState;
  private readonly windFactor: number;
  private readonly waterfallWPerM2K: number;
  private readonly secondsPerHeat: number;
  /** Water of the heat balance alone. [°C] */
  private readonly balanceC: Float64Array;
  /** Equilibrium less air on the day before: where Newton's method starts. [°C] */
  private readonly lift: Float64Array;
  private readonly iceM: Float64Array;
  private readonly coldSinceFreezeUpC: Float64Array;
  /** What the last measured day adds to the unit anomaly, fading. [-] */
  private readonly carried: Float64Array;
  private readonly order: Int32Array;
  private readonly sorted: Float64Array;
  private readonly meanOrder: Int32Array;
  private readonly sortedMeans: Float64Array;
  private dayIndex = -1;

  constructor(private readonly setting: EnsembleSetting) {
    const { pond, traces } = setting;
    this.waterC = new Float64Array(traces);
    this.iceCm = new Float64Array(traces);
    this.airC = new Float64Array(traces);
    this.balanceC = new Float64Array(traces).fill(Number.NaN);
    this.lift = new Float64Array(traces);
    this.iceM = new Float64Array(traces);
    this.coldSinceFreezeUpC = new Float64Array(traces);
    this.carried = new Float64Array(traces);
    this.order = Int32Array.from({ length: traces }, (_, trace) => trace);
    this.meanOrder = Int32Array.from(this.order);
    this.sorted = new Float64Array(traces);
    this.sortedMeans = new Float64Array(traces);
    this.year = pondYearOf(setting.climate);
    this.noise = new EnsembleNoise(setting.seed, traces, addDays(setting.start, -1), FADING_KEEP);
    this.known = new KnownAir(setting.start, setting.days, setting.air);
    this.modelError = priorModelError(setting.offsetSdC);
    this.windFactor = smallPondFactor(pond);
    this.waterfallWPerM2K = waterfallExchangeWPerM2K(pond);
    this.secondsPerHeat = -SECONDS_PER_DAY / (WATER_HEAT_J_PER_M3_K * EFFECTIVE_DEPTH_FACTOR * pond.meanDepthM);
  }

  /** Moves every trace on by one day. */
  advance(): void {
    const index = ++this.dayIndex;
    const day = addDays(this.setting.start, index);
    this.noise.advance(day, yearOf(day) * 12 + monthOf(day));
    if (index > 0) advanceModelError(this.modelError);
    const place = curveIndex(day);
    this.advanceAir(index, place);
    this.advanceWater(index, place);
    this.addModelError();
  }

  private advanceAir(index: number, place: number): void {
    const { airC, carried, noise, setting } = this;
    const normalC = this.year.airC[place] as number;
    const daySdC = this.year.daySdC[place] as number;
    const monthSdC = this.year.monthSdC[place] as number;
    const measuredC = this.known.airC[index] as number;
    const isMeasured = !Number.isNaN(measuredC);
    for (let trace = 0; trace < setting.traces; trace++) {
      const unit = noise.weather[trace] as number;
      const baseC = normalC + monthSdC * (noise.month[trace] as number);
      if (isMeasured) {
        const sigmas = (measuredC - baseC) / daySdC;
        carried[trace] = max(-LARGEST_CARRIED_SIGMAS, min(LARGEST_CARRIED_SIGMAS, sigmas)) - unit;
        airC[trace] = measuredC;
        continue;
      }
      const kept = (carried[trace] as number) * WEATHER_KEEP;
      carried[trace] = kept;
      const todayC = baseC + daySdC * (unit + kept);
      airC[trace] = min(AIR_RANGE_C.max, max(AIR_RANGE_C.min, todayC));
    }
  }

  private advanceWater(index: number, place: number): void {
    const { pond, traces } = this.setting;
    const { airC, known, lift } = this;
    const extraterrestrial = this.year.extraterrestrialWPerM2[place] as number;
    const normalSolar = extraterrestrial * (this.year.sunShare[place] as number);
    const measuredSolar = known.solarWPerM2(index) ?? normalSolar;
    const solar = normalSolar + MEASURED_SUN_WEIGHT * (min(measuredSolar, extraterrestrial) - normalSolar);
    const humidity = known.relativeHumidity(index) ?? (this.year.relativeHumidity[place] as number);
    const f = windFunction(known.windMPerS(index) ?? pond.windAt2mMPerS) * this.windFactor;
    const cloud = cloudTerm(solarRatio(solar, extraterrestrial)) * humidity ** SEVENTH;
    const shortwave = (1 - WATER_ALBEDO) * (1 - pond.shadeShare) * solar;
    const iceShortwaveLoss = (ICE_ALBEDO - WATER_ALBEDO) * (1 - pond.shadeShare) * solar;
    const sensible = BOWEN_HPA_PER_K * f;
    const fall = this.waterfallWPerM2K;
    const humidityPct = min(99, max(5, 100 * humidity));
    const wetSlope = fall > 0 ? wetBulbSlope(humidityPct) : 0;
    const wetConstant = fall > 0 ? wetBulbConstant(humidityPct) : 0;

    for (let trace = 0; trace < traces; trace++) {
      const air = airC[trace] as number;
      const saturation = tabledSaturationHPa(air);
      const kelvin2 = (air + 273.15) * (air + 273.15);
      const sky = min(1, tabledSkyEmissivity(air) * cloud);
      let gain =
        shortwave +
        WATER_EMISSIVITY * sky * STEFAN_BOLTZMANN * kelvin2 * kelvin2 +
        f * humidity * saturation +
        sensible * air;
      let linear = sensible;
      if ((this.iceM[trace] as number) > 0) {
        this.advanceIce(trace, netHeatWPerM2(0, gain - iceShortwaveLoss, f, linear));
        continue;
      }
      const before = this.balanceC[trace] as number;
      if (fall > 0 && before >= WATERFALL_STOPS_BELOW_C) {
        gain += fall * wetBulbFrom(air, humidityPct, wetSlope, wetConstant);
        linear += fall;
      }
      const equilibrium = equilibriumC(air + (lift[trace] as number), gain, f, linear);
      lift[trace] = equilibrium - air;
      const from = Number.isNaN(before) ? equilibrium : before;
      const exchange = exchangeWPerM2K((from + equilibrium) / 2, f, linear);
      const after = equilibrium + (from - equilibrium) * exp(exchange * this.secondsPerHeat);
      if (after > 0) this.balanceC[trace] = after;
      else this.freezeUp(trace);
    }
  }

  private freezeUp(trace: number): void {
    this.iceM[trace] = NEW_ICE_M;
    this.coldSinceFreezeUpC[trace] = max(0, -(this.airC[trace] as number));
    this.balanceC[trace] = WATER_UNDER_ICE_C;
    this.showIce(trace);
  }

  private advanceIce(trace: number, netHeatAtZero: number): void {
    const air = this.airC[trace] as number;
    this.iceM[trace] = simulatedIceM(this.iceM[trace] as number, air, netHeatAtZero);
    this.coldSinceFreezeUpC[trace] = max(0, (this.coldSinceFreezeUpC[trace] as number) - air);
    const isGone = this.iceM[trace] === 0;
    this.balanceC[trace] = isGone ? WATER_AFTER_ICE_C : WATER_UNDER_ICE_C;
    this.showIce(trace);
  }

  private showIce(trace: number): void {
    this.iceCm[trace] =
      (this.iceM[trace] as number) > 0 ? max(100 * NEW_ICE_M, shownIceCm(this.coldSinceFreezeUpC[trace] as number)) : 0;
  }

  /** Adds to each trace its draw from what is still unknown of the model. Under ice the water is what it is. */
  private addModelError(): void {
    const { modelError, noise, waterC, balanceC, iceM } = this;
    const middle = modelError.offsetC + modelError.fadingC;
    const offsetSd = sqrt(modelError.offsetVariance);
    const perOffset = offsetSd + modelError.covariance / offsetSd;
    const alone = modelError.fadingVariance - modelError.covariance ** 2 / modelError.offsetVariance;
    const perFading = sqrt(max(0, alone));
    for (let trace = 0; trace < waterC.length; trace++) {
      const error = middle + perOffset * (noise.offset[trace] as number) + perFading * (noise.fading[trace] as number);
      const balance = balanceC[trace] as number;
      waterC[trace] = (iceM[trace] as number) > 0 ? balance : max(0, balance + error);
    }
  }

  /** Takes in a reading of today; it changes tomorrow. */
  take(reading: WaterReading): ReadingVerdict {
    const { balanceC, iceM } = this;
    let open = 0;
    let sum = 0;
    for (let trace = 0; trace < balanceC.length; trace++) {
      if ((iceM[trace] as number) > 0) continue;
      open++;
      sum += balanceC[trace] as number;
    }
    if (open * 2 <= balanceC.length) return { reading, verdict: 'under-ice', innovationC: 0, limitC: 0 };
    const mean = sum / open;
    let squares = 0;
    for (let trace = 0; trace < balanceC.length; trace++) {
      if ((iceM[trace] as number) === 0) squares += ((balanceC[trace] as number) - mean) ** 2;
    }
    const { verdict, weatherGain } = takeReading(this.modelError, reading, mean, squares / open);
    this.moveTowardReading(mean, weatherGain, weatherGain * verdict.innovationC);
    return verdict;
  }

  /** The weather's share of a surprise moves the traces and narrows them: a scalar ensemble update. */
  private moveTowardReading(meanC: number, gain: number, shiftC: number): void {
    const keep = sqrt(1 - gain);
    for (let trace = 0; trace < this.balanceC.length; trace++) {
      if ((this.iceM[trace] as number) > 0) continue;
      const moved = meanC + shiftC + keep * ((this.balanceC[trace] as number) - meanC);
      this.balanceC[trace] = max(0.01, moved);
    }
  }

  sortWater(): void {
    sortByLastOrder(this.waterC, this.order, this.sorted);
  }

  /** Quantile of today's water over the traces, after `sortWater`. [°C] */
  waterQuantile(probability: number): number {
    return quantileOfSorted(this.sorted, probability);
  }

  /** Median over the traces of another figure of today, such as the trailing mean. */
  medianOf(values: Float64Array): number {
    sortByLastOrder(values, this.meanOrder, this.sortedMeans);
    return quantileOfSorted(this.sortedMeans, 0.5);
  }
}
