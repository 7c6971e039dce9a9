import { requireWithin } from '../errors.js';
import { kelvinFromC } from '../units/celsius-fahrenheit.js';

/** Where the ionisation fit was made. [°C] */
const FIT_RANGE_C = { min: 0, max: 50 } as const;
const PH_RANGE = { min: 0, max: 14 } as const;
/** Beyond any pond; a larger figure is a slip of unit. [mg/L N] */
const AMMONIA_RANGE_MG_N_PER_L = { min: 0, max: 1000 } as const;

/** A water sample: pH and temperature of the same hour. The afternoon pH peak is the worst case. */
export interface AmmoniaSample {
  readonly temperatureC: number;
  readonly ph: number;
}

/**
 * Share of total ammonia nitrogen that is un-ionised NH3, in fresh water. [-]
 *   pKa = 0.09018 + 2729.92 / T        f = 1 / (1 + 10^(pKa - pH))        T in K
 * Ionic strength is neglected: at 1 to 5 g/L of salt the true share is a little lower. Outside the fit it throws.
 * `unionisedAmmoniaShare({ temperatureC: 24, ph: 8 })` is 0.0502.
 * @param sample.temperatureC Water temperature, 0 to 50. [°C]
 * @param sample.ph pH of the same sample. [-]
 * @see Emerson, Russo, Lund & Thurston (1975), J. Fish. Res. Board Can. 32, 2379-2383 (published source).
 */
export function unionisedAmmoniaShare(sample: AmmoniaSample): number {
  requireWithin('pH', sample.ph, PH_RANGE);

  return 1 / (1 + 10 ** (ammoniaPKa(sample) - sample.ph));
}

/** pKa of ammonium in fresh water, after the same paper; 9.4025 at 20 °C. [-] */
export function ammoniaPKa(sample: { temperatureC: number }): number {
  requireWithin('water temperature, °C', sample.temperatureC, FIT_RANGE_C);
  return 0.09018 + 2729.92 / kelvinFromC(sample.temperatureC);
}

/**
 * Un-ionised ammonia of a sample. [mg/L N]
 * @param sample.totalAmmoniaMgNPerL NH3 and NH4 together, as N, 0 to 1000. [mg/L N]
 * @see `unionisedAmmoniaShare` for range and source.
 */
export function unionisedAmmoniaMgNPerL(sample: AmmoniaSample & { totalAmmoniaMgNPerL: number }): number {
  requireWithin('total ammonia, mg/L N', sample.totalAmmoniaMgNPerL, AMMONIA_RANGE_MG_N_PER_L);
  return sample.totalAmmoniaMgNPerL * unionisedAmmoniaShare(sample);
}

/**
 * The most total ammonia this water may carry before its un-ionised part passes a limit. [mg/L N]
 * `largestTotalAmmoniaMgNPerL({ limitMgNPerL: 0.05, temperatureC: 20, ph: 8 })` is 1.31.
 * @param sample.limitMgNPerL Limit of un-ionised ammonia, as N. [mg/L N]
 */
export function largestTotalAmmoniaMgNPerL(sample: AmmoniaSample & { limitMgNPerL: number }): number {
  requireWithin('limit of un-ionised ammonia, mg/L N', sample.limitMgNPerL, AMMONIA_RANGE_MG_N_PER_L);
  return sample.limitMgNPerL / unionisedAmmoniaShare(sample);
}
