import { curveIndex } from '../climate/daily-curve.js';
import type { SiteClimate } from '../climate/station.js';
import { addDays, type CivilDay, monthOf, yearOf } from '../units/civil-day.js';
import { EnsembleNoise, WEATHER_KEEP } from './ensemble-noise.js';
import { columnSettingOf, ExposureBank, type ExposureCandidate, FEWEST_READINGS } from './exposure-bank.js';
import { smallPondFactor } from './heat-balance.js';
import { NEW_ICE_M, shownIceCm } from './ice.js';
import { KnownAir } from './known-air.js';
import { DayWeather, PondForcing } from './pond-forcing.js';
import { type PondYear, pondYearOf } from './pond-year.js';
import { quantileOfSorted, sortByLastOrder } from './quantiles.js';
import {
  advanceModelError,
  FADING_KEEP,
  fadingErrorSdC,
  type ModelErrorState,
  narrowModelError,
  priorModelError,
  takeReading,
  totalVariance,
} from './readings-correction.js';
import { WaterColumns } from './water-columns.js';
import type { DailyAir, LearnedExposure, PondHeat, ReadingVerdict, WaterReading } from './water-forecast.js';
import type { WeatherHistory } from './weather-history.js';

// Bound once: where code runs in a sandbox, each look-up of a global costs more than the sum it does.
const { max, min, sqrt } = Math;

/** Air that no garden has; keeps the far tail of the noise inside the formulas. [°C] */
const AIR_RANGE_C = { min: -60, max: 55 } as const;
/** A measured anomaly beyond this many standard deviations is carried on as this many. */
const LARGEST_CARRIED_SIGMAS = 4;
/** Spread of the upper water under ice about its middle, observed 0 to 1.5; never beyond the densest water. [°C] */
const UNDER_ICE_SD_C = 0.5;
const DENSEST_WATER_C = 4;

export interface EnsembleSetting {
  readonly pond: PondHeat;
  readonly climate: SiteClimate;
  readonly start: CivilDay;
  readonly days: number;
  readonly seed: number;
  readonly traces: number;
  readonly air: readonly DailyAir[];
  readonly offsetSdC: number;
  /** How many readings may come; few of them leave the exposure as told. */
  readonly readings: number;
  /** Weather to come from whole years of record; a chance process where null. */
  readonly history: WeatherHistory | null;
}

/** All traces of one pond on one day, advanced day by day in place; the day loop allocates nothing. */
export class Ensemble {
  /** Water of each trace today, with its model error. [°C] */
  readonly waterC: Float64Array;
  /** Shown ice of each trace today. [cm] */
  readonly iceCm: Float64Array;
  readonly airC: Float64Array;
  /** Variance of today's water over the weather alone. [°C2] */
  weatherVariance = 0;
  /** Share of the traces with open water. [-] */
  openShare = 1;

  private readonly year: PondYear;
  private readonly noise: EnsembleNoise;
  private readonly known: KnownAir;
  private readonly weather: DayWeather;
  private readonly forcing = new PondForcing();
  private readonly columns: WaterColumns;
  private readonly bank: ExposureBank | null;
  private readonly windFactor: number;
  private modelError: ModelErrorState;
  /** The same error behind a thermometer without error. */
  private perfect: ModelErrorState;
  private pond: PondHeat;
  private windShare = 1;
  private isLearned = false;
  /** What the last measured day adds to the unit anomaly, fading. [-] */
  private readonly carried: Float64Array;
  private readonly order: Int32Array;
  private readonly sorted: Float64Array;
  private readonly meanOrder: Int32Array;
  private readonly sortedMeans: Float64Array;
  private dayIndex = -1;

  constructor(private readonly setting: EnsembleSetting) {
    const { climate, pond, traces, offsetSdC } = setting;
    this.waterC = new Float64Array(traces);
    this.iceCm = new Float64Array(traces);
    this.airC = new Float64Array(traces);
    this.carried = new Float64Array(traces);
    this.order = Int32Array.from({ length: traces }, (_, trace) => trace);
    this.meanOrder = Int32Array.from(this.order);
    this.sorted = new Float64Array(traces);
    this.sortedMeans = new Float64Array(traces);
    this.year = pondYearOf(climate);
    this.noise = new EnsembleNoise(setting.seed, traces, addDays(setting.start, -1), FADING_KEEP);
    this.known = new KnownAir(setting.start, setting.days, setting.air);
    this.weather = new DayWeather(this.year, this.known, pond.waterfallFlowLPerH > 0);
    this.windFactor = smallPondFactor(pond);
    this.pond = pond;
    const yearMeanC = climate.meanC.reduce((sum, monthC) => sum + monthC, 0) / 12;
    const columnSetting = columnSettingOf(pond, yearMeanC);
    this.columns = new WaterColumns(traces, columnSetting);
    this.modelError = priorModelError(offsetSdC, fadingErrorSdC(columnSetting.effectiveDepthM));
    this.perfect = { ...this.modelError };
    this.bank = setting.readings >= FEWEST_READINGS ? new ExposureBank(pond, yearMeanC, offsetSdC) : null;
  }

  /** Moves every trace on by one day. */
  advance(): void {
    const index = ++this.dayIndex;
    const day = addDays(this.setting.start, index);
    const year = yearOf(day);
    this.noise.advance(day, year * 12 + monthOf(day));
    if (index > 0) {
      advanceModelError(this.modelError);
      advanceModelError(this.perfect);
    }
    const place = curveIndex(day);
    this.advanceAir(index, place, year);
    this.weather.fill(index, place);
    this.forcing.fill(this.weather, this.pond, this.windFactor, this.windShare);
    const { airC, columns, forcing, weather } = this;
    for (let trace = 0; trace < airC.length; trace++) columns.advance(trace, airC[trace] as number, weather, forcing);
    this.bank?.advance(meanOf(airC), weather);
    this.addModelError();
  }

  private advanceAir(index: number, place: number, year: number): void {
    const { airC, carried, noise, setting } = this;
    const { history } = setting;
    const normalC = this.year.airC[place] as number;
    const daySdC = this.year.daySdC[place] as number;
    const monthSdC = this.year.monthSdC[place] as number;
    const measuredC = this.known.airC[index] as number;
    const isMeasured = !Number.isNaN(measuredC);
    for (let trace = 0; trace < airC.length; trace++) {
      let unit = noise.weather[trace] as number;
      let baseC = normalC + monthSdC * (noise.month[trace] as number);
      if (history !== null) {
        const pastC = history.airOf(trace, year, place);
        if (!Number.isNaN(pastC)) {
          baseC = normalC;
          unit = (pastC - normalC) / daySdC;
        }
      }
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

  /** Adds to each trace its draw from what is still unknown of the model; under ice the water has little room. */
  private addModelError(): void {
    const { columns, iceCm, modelError, noise, waterC } = this;
    const { balanceC, iceM, coldSinceFreezeUpC } = columns;
    const middle = modelError.offsetC + modelError.fadingC;
    const offsetSd = sqrt(modelError.offsetVariance);
    const perOffset = offsetSd + modelError.covariance / offsetSd;
    const alone = modelError.fadingVariance - modelError.covariance ** 2 / modelError.offsetVariance;
    const perFading = sqrt(max(0, alone));
    let open = 0;
    let sum = 0;
    let squares = 0;
    for (let trace = 0; trace < waterC.length; trace++) {
      const balance = balanceC[trace] as number;
      const unit = noise.offset[trace] as number;
      sum += balance;
      squares += balance * balance;
      if ((iceM[trace] as number) > 0) {
        waterC[trace] = min(DENSEST_WATER_C, max(0, balance + UNDER_ICE_SD_C * unit));
        iceCm[trace] = max(100 * NEW_ICE_M, shownIceCm(coldSinceFreezeUpC[trace] as number));
        continue;
      }
      open++;
      iceCm[trace] = 0;
      waterC[trace] = max(0, balance + middle + perOffset * unit + perFading * (noise.fading[trace] as number));
    }
    this.openShare = open / waterC.length;
    this.weatherVariance = max(0, squares / waterC.length - (sum / waterC.length) ** 2);
  }

  /** What a perfect thermometer would have left of the model's error in open water. [°C2] */
  get modelVariance(): number {
    return this.openShare * totalVariance(this.perfect);
  }

  /** What the errors of the thermometer add to it. [°C2] */
  get thermometerVariance(): number {
    return this.openShare * max(0, totalVariance(this.modelError) - totalVariance(this.perfect));
  }

  /** Takes in a reading of today; it changes tomorrow. */
  take(reading: WaterReading): ReadingVerdict {
    const { balanceC, iceM } = this.columns;
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
    const variance = squares / open;
    const { verdict, weatherGain } = takeReading(this.modelError, reading, mean, variance);
    if (verdict.verdict === 'rejected') return verdict;
    narrowModelError(this.perfect, variance, 0);
    this.moveTraces(mean, sqrt(1 - weatherGain), weatherGain * verdict.innovationC);
    const learned = this.bank?.take(reading, variance);
    if (learned) this.goOnWith(learned, mean + weatherGain * verdict.innovationC);
    return verdict;
  }

  /** The weather's share of a surprise moves the traces and narrows them: a scalar ensemble update. */
  private moveTraces(meanC: number, keep: number, shiftC: number): void {
    const { balanceC, iceM } = this.columns;
    for (let trace = 0; trace < balanceC.length; trace++) {
      if ((iceM[trace] as number) > 0) continue;
      balanceC[trace] = max(0.01, meanC + shiftC + keep * ((balanceC[trace] as number) - meanC));
    }
  }

  /** From tomorrow on the traces live under the exposure that the readings point to. */
  private goOnWith(candidate: ExposureCandidate, meanC: number): void {
    this.pond = candidate.pond;
    this.windShare = candidate.windShare;
    this.isLearned = true;
    this.columns.setting = candidate.setting;
    if (!candidate.hasIce) this.moveTraces(meanC, 1, candidate.balanceC - meanC);
    this.modelError = { ...candidate.modelError };
  }

  /** What keeps sun and wind off, as used today. */
  get exposure(): LearnedExposure {
    const { windAt2mMPerS, shadeShare } = this.pond;
    return { windAt2mMPerS, shadeShare, isLearned: this.isLearned };
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

function meanOf(values: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i] as number;
  return sum / values.length;
}
