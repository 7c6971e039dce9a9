import { requireWithin } from '../errors.js';
import type { CarbonateSample } from './carbonate.js';
import { largestChangeShareByPh, type MixedWater, mixedWater } from './mixed-water.js';
import { LARGEST_CHANGE_SHARE, largestChangeShareByTemperature, largestTemperatureStepC } from './water-change.js';

/**
 * Fastest change of the whole pond's temperature while it fills (common practice; from 0.56 °C a day to 0.56 °C a minute
 * in print, the latter for fish in a tank). [°C/h]
 */
export const LARGEST_TEMPERATURE_RATE_C_PER_H = 1;
/** A step of the allowed size is not repeated sooner (common practice). [h] */
export const HOURS_BETWEEN_STEPS = 24;
const ROUNDING = 1e-9;

/** Whether one change is gentle enough in temperature. */
export interface TemperatureStep {
  readonly mixedTemperatureC: number;
  /** The pond's new temperature less its old one. [°C] */
  readonly stepC: number;
  readonly largestStepC: number;
  readonly isAllowed: boolean;
  /** Changes a day apart that would exchange as much water in all, each within the step. */
  readonly changes: number;
}

/**
 * Judges the temperature of a water change.
 *   T_mix = (1 - x) T_p + x T_s        |T_mix - T_p| at most 2.0 °C, 1.0 below 12 °C
 * A fifth of 12 °C water into 22 °C meets the limit, a quarter passes it.
 * @param change.changeShare 0 to 1. [-]
 * @see Common practice.
 */
export function temperatureStep(change: {
  pondTemperatureC: number;
  sourceTemperatureC: number;
  changeShare: number;
}): TemperatureStep {
  const { pondTemperatureC, sourceTemperatureC, changeShare } = change;
  requireWithin('change, share', changeShare, { min: 0, max: 1 });
  const largestShare = largestChangeShareByTemperature(change);
  const stepC = changeShare * (sourceTemperatureC - pondTemperatureC);
  const largestStepC = largestTemperatureStepC(change);
  return {
    mixedTemperatureC: pondTemperatureC + stepC,
    stepC,
    largestStepC,
    isAllowed: Math.abs(stepC) <= largestStepC + ROUNDING,
    changes: Math.ceil(changeShare / largestShare - ROUNDING),
  };
}

/**
 * The fastest inflow that changes the temperature of the whole pond by no more than a rate. [L/h]
 *   Q = rate V / |T_s - T_p|        infinite where both are alike
 * 10 °C colder water into 10 m³ at 1 °C an hour: 1,000 L/h.
 * @param fill.largestRateCPerH 0.05 to 30; 1 when left out. [°C/h]
 * @see Mass balance (derived); the rate is common practice.
 */
export function largestInflowLPerH(fill: {
  volumeL: number;
  pondTemperatureC: number;
  sourceTemperatureC: number;
  largestRateCPerH?: number;
}): number {
  const { volumeL, largestRateCPerH = LARGEST_TEMPERATURE_RATE_C_PER_H } = fill;
  requireWithin('pond volume, L', volumeL, { min: 1, max: 10_000_000 });
  requireWithin('largest rate, °C/h', largestRateCPerH, { min: 0.05, max: 30 });
  largestChangeShareByTemperature(fill);
  const differenceC = Math.abs(fill.sourceTemperatureC - fill.pondTemperatureC);
  return differenceC === 0 ? Number.POSITIVE_INFINITY : (largestRateCPerH * volumeL) / differenceC;
}

export interface SafeChange {
  /** The largest share for one visit. [-] */
  readonly changeShare: number;
  readonly limitedBy: 'visit-cap' | 'temperature-step' | 'ph-step';
  /** What the pond is after it, before the air has its say. */
  readonly after: MixedWater;
  readonly largestInflowLPerH: number;
  /** The least time the filling may take. [h] */
  readonly shortestFillH: number;
}

/**
 * The largest change of one visit that keeps temperature, pH and the cap of a quarter, and how slowly to let it in.
 * @param change.pond and change.source Temperature, pH and alkalinity of the pond and of the treated new water.
 * @see `temperatureStep`, `largestChangeShareByPh`, `largestInflowLPerH`.
 */
export function safeChange(change: { volumeL: number; pond: CarbonateSample; source: CarbonateSample }): SafeChange {
  const { volumeL, pond, source } = change;
  const temperatures = { pondTemperatureC: pond.temperatureC, sourceTemperatureC: source.temperatureC };
  const byTemperature = largestChangeShareByTemperature(temperatures);
  const byPh = largestChangeShareByPh({ pond, source });
  const changeShare = Math.min(LARGEST_CHANGE_SHARE, byTemperature, byPh);
  const inflowLPerH = largestInflowLPerH({ volumeL, ...temperatures });
  return {
    changeShare,
    limitedBy:
      changeShare === LARGEST_CHANGE_SHARE
        ? 'visit-cap'
        : changeShare === byTemperature
          ? 'temperature-step'
          : 'ph-step',
    after: mixedWater({ pond, source, changeShare }),
    largestInflowLPerH: inflowLPerH,
    shortestFillH: (changeShare * volumeL) / inflowLPerH,
  };
}
