/**
 * What thermometer readings teach about one pond: a static offset of the model and an error that fades in days, by a
 * two-state Kalman filter with a gate (climate handbook 10.1, derived from four lakes; common practice).
 */
import { requireWithin } from '../errors.js';
import { addDays, type CivilDay } from '../units/civil-day.js';
import type { ReadingVerdict, WaterReading } from './water-forecast.js';

/** Offset of the model on a pond whose wind and shade are guessed. [°C] */
export const OFFSET_SD_C = { value: 2.0, min: 0.2, max: 4 } as const;
/** Error of the daily model that fades. [°C] */
export const FADING_ERROR_SD_C = 1.1;
export const FADING_ERROR_DAYS = 8;
export const FADING_KEEP = Math.exp(-1 / FADING_ERROR_DAYS);
const OFFSET_DRIFT_C2_PER_DAY = 0.002;
/** Sensor and time of day together. [°C] */
export const READING_NOISE_SD_C = 0.8;
const GATE_SIGMAS = 3;

/** Offset b and fading error r with their covariance. Mutable: the day loop advances it in place. */
export interface ModelErrorState {
  offsetC: number;
  fadingC: number;
  offsetVariance: number;
  covariance: number;
  fadingVariance: number;
  readonly priorOffsetVariance: number;
}

/** Before any reading. @param offsetSdC 0.2 to 4. [°C] */
export function priorModelError(offsetSdC: number): ModelErrorState {
  requireWithin('standard deviation of the model offset, °C', offsetSdC, OFFSET_SD_C);
  return {
    offsetC: 0,
    fadingC: 0,
    offsetVariance: offsetSdC * offsetSdC,
    covariance: 0,
    fadingVariance: FADING_ERROR_SD_C * FADING_ERROR_SD_C,
    priorOffsetVariance: offsetSdC * offsetSdC,
  };
}

/** One day without a reading: the offset stays and drifts a little, never past what was unknown at first; the rest fades. */
export function advanceModelError(state: ModelErrorState): void {
  state.fadingC *= FADING_KEEP;
  state.covariance *= FADING_KEEP;
  state.fadingVariance =
    state.fadingVariance * FADING_KEEP * FADING_KEEP +
    FADING_ERROR_SD_C * FADING_ERROR_SD_C * (1 - FADING_KEEP * FADING_KEEP);
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
  const toOffset = state.offsetVariance + state.covariance;
  const toFading = state.covariance + state.fadingVariance;
  const expectedVariance = toOffset + toFading + weatherVariance + READING_NOISE_SD_C * READING_NOISE_SD_C;
  const limitC = GATE_SIGMAS * Math.sqrt(expectedVariance);
  if (Math.abs(innovationC) > limitC) {
    return { verdict: { reading, verdict: 'rejected', innovationC, limitC }, weatherGain: 0 };
  }
  state.offsetC += (toOffset / expectedVariance) * innovationC;
  state.fadingC += (toFading / expectedVariance) * innovationC;
  state.offsetVariance -= (toOffset * toOffset) / expectedVariance;
  state.covariance -= (toOffset * toFading) / expectedVariance;
  state.fadingVariance -= (toFading * toFading) / expectedVariance;
  return {
    verdict: { reading, verdict: 'used', innovationC, limitC },
    weatherGain: weatherVariance / expectedVariance,
  };
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
    sdC[i] = Math.sqrt(state.offsetVariance + 2 * state.covariance + state.fadingVariance);
    for (const reading of series.readings) {
      if (reading.on === addDays(series.firstDay, i)) verdicts.push(takeReading(state, reading, modelC, 0).verdict);
    }
  }
  return { correctedC, sdC, verdicts };
}
