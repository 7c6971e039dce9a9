/**
 * What thermometer readings teach about one pond: a static offset of the model and an error that fades in days, by a
 * two-state Kalman filter with a gate (climate handbook 10.1, derived from four lakes; common practice).
 */
import { requireWithin } from '../errors.js';
import { addDays, type CivilDay } from '../units/civil-day.js';
import type { ReadingVerdict, WaterReading } from './water-forecast.js';

/** Offset of the model on a pond whose wind and shade are guessed. [°C] */
export const OFFSET_SD_C = { value: 2.0, min: 0.2, max: 4 } as const;
/** Error of the daily model that fades, of water 1.4 m deep. [°C] */
export const FADING_ERROR_SD_C = 1.1;
export const FADING_ERROR_DAYS = 8;
const FADING_ERROR_DEPTH_M = 1.45;
/** Days in which an error of the weather over the water fades; the water's own memory makes eight of them. */
const WEATHER_ERROR_DAYS = 4;
/** Days in which a metre of water forgets, at the usual exchange of 25 W/m2/K. [d/m] */
const MEMORY_DAYS_PER_M = 1.94;
export const FADING_KEEP = Math.exp(-1 / FADING_ERROR_DAYS);
const OFFSET_DRIFT_C2_PER_DAY = 0.002;
/** Sensor and time of day together. [°C] */
export const READING_NOISE_SD_C = 0.8;
const GATE_SIGMAS = 3;

/**
 * Error of the daily model that fades, by depth: what the weather does unseen moves deep water less. An error of the
 * equilibrium that fades in 4 days, seen through water that forgets in 1.94 days a metre (derived). [°C]
 * @param effectiveDepthM 0.05 to 100.
 */
export function fadingErrorSdC(effectiveDepthM: number): number {
  requireWithin('effective depth, m', effectiveDepthM, { min: 0.05, max: 100 });
  const days = (depthM: number) => WEATHER_ERROR_DAYS + MEMORY_DAYS_PER_M * depthM;
  return FADING_ERROR_SD_C * Math.sqrt(days(FADING_ERROR_DEPTH_M) / days(effectiveDepthM));
}

/** Offset b and fading error r with their covariance. Mutable: the day loop advances it in place. */
export interface ModelErrorState {
  offsetC: number;
  fadingC: number;
  offsetVariance: number;
  covariance: number;
  fadingVariance: number;
  readonly priorOffsetVariance: number;
  readonly priorFadingVariance: number;
}

/** Before any reading. @param offsetSdC 0.2 to 4. [°C] @param fadingSdC See `fadingErrorSdC`. [°C] */
export function priorModelError(offsetSdC: number, fadingSdC: number = FADING_ERROR_SD_C): ModelErrorState {
  requireWithin('standard deviation of the model offset, °C', offsetSdC, OFFSET_SD_C);
  requireWithin('standard deviation of the fading error, °C', fadingSdC, { min: 0.1, max: 4 });
  return {
    offsetC: 0,
    fadingC: 0,
    offsetVariance: offsetSdC * offsetSdC,
    covariance: 0,
    fadingVariance: fadingSdC * fadingSdC,
    priorOffsetVariance: offsetSdC * offsetSdC,
    priorFadingVariance: fadingSdC * fadingSdC,
  };
}

/** One day without a reading: the offset stays and drifts a little, never past what was unknown at first; the rest fades. */
export function advanceModelError(state: ModelErrorState): void {
  state.fadingC *= FADING_KEEP;
  state.covariance *= FADING_KEEP;
  state.fadingVariance =
    state.fadingVariance * FADING_KEEP * FADING_KEEP + state.priorFadingVariance * (1 - FADING_KEEP * FADING_KEEP);
  state.offsetVariance = Math.min(state.priorOffsetVariance, state.offsetVariance + OFFSET_DRIFT_C2_PER_DAY);
}

/**
 * Takes in one reading, or rejects it beyond three standard deviations.
 * @param modelC Model temperature of that day without its error.
 * @param weatherVariance Variance of the model through unknown weather, 0 where the air was measured.
 * @returns the share of the surprise that belongs to the weather, 0 where rejected.
 */
export function takeReading(
  state: ModelErrorState,
  reading: WaterReading,
  modelC: number,
  weatherVariance: number,
): { verdict: ReadingVerdict; weatherGain: number } {
  requireWithin('water temperature, °C', reading.waterTemperatureC, { min: -1, max: 45 });
  const innovationC = reading.waterTemperatureC - modelC - state.offsetC - state.fadingC;
  const expectedVariance = totalVariance(state) + weatherVariance + READING_NOISE_SD_C * READING_NOISE_SD_C;
  const limitC = GATE_SIGMAS * Math.sqrt(expectedVariance);
  if (Math.abs(innovationC) > limitC) {
    return { verdict: { reading, verdict: 'rejected', innovationC, limitC }, weatherGain: 0 };
  }
  state.offsetC += ((state.offsetVariance + state.covariance) / expectedVariance) * innovationC;
  state.fadingC += ((state.covariance + state.fadingVariance) / expectedVariance) * innovationC;
  narrowModelError(state, weatherVariance, READING_NOISE_SD_C);
  return {
    verdict: { reading, verdict: 'used', innovationC, limitC },
    weatherGain: weatherVariance / expectedVariance,
  };
}

/** Variance of offset and fading error together. [°C2] */
export function totalVariance(state: ModelErrorState): number {
  return state.offsetVariance + 2 * state.covariance + state.fadingVariance;
}

/**
 * What a reading takes from the variances, whatever it showed.
 * @param noiseSdC Error of the thermometer; 0 gives what a perfect one would have left. [°C]
 */
export function narrowModelError(state: ModelErrorState, weatherVariance: number, noiseSdC: number): void {
  const toOffset = state.offsetVariance + state.covariance;
  const toFading = state.covariance + state.fadingVariance;
  const expectedVariance = toOffset + toFading + weatherVariance + noiseSdC * noiseSdC;
  if (expectedVariance <= 0) return;
  state.offsetVariance -= (toOffset * toOffset) / expectedVariance;
  state.covariance -= (toOffset * toFading) / expectedVariance;
  state.fadingVariance -= (toFading * toFading) / expectedVariance;
}

/** Correction of one modelled series. [°C] */
export interface CorrectedSeries {
  /** Model + offset + fading error, from readings strictly before each day. */
  readonly correctedC: Float64Array;
  /** Standard deviation of what remains. */
  readonly sdC: Float64Array;
  readonly verdicts: readonly ReadingVerdict[];
}

/**
 * Corrects a modelled daily series by readings; a reading changes the days after it.
 * @param series.modelC One value a day from `firstDay` on.
 * @param series.offsetSdC What is unknown of the pond's exposure; 2.0 unless given.
 */
export function correctByReadings(series: {
  firstDay: CivilDay;
  modelC: ArrayLike<number>;
  readings: readonly WaterReading[];
  offsetSdC?: number;
}): CorrectedSeries {
  const state = priorModelError(series.offsetSdC ?? OFFSET_SD_C.value);
  const correctedC = new Float64Array(series.modelC.length);
  const sdC = new Float64Array(series.modelC.length);
  const verdicts: ReadingVerdict[] = [];
  for (let i = 0; i < series.modelC.length; i++) {
    if (i > 0) advanceModelError(state);
    const modelC = series.modelC[i] as number;
    correctedC[i] = modelC + state.offsetC + state.fadingC;
    sdC[i] = Math.sqrt(totalVariance(state));
    for (const reading of series.readings) {
      if (reading.on === addDays(series.firstDay, i)) verdicts.push(takeReading(state, reading, modelC, 0).verdict);
    }
  }
  return { correctedC, sdC, verdicts };
}
