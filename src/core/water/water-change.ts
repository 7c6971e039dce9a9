import { requireWithin } from '../errors.js';
import {
  changeShareHolding,
  NITRATE_LIMIT_MG_N_PER_L,
  NITRATE_TARGET_MG_N_PER_L,
  nitrateBeforeChangeMgNPerL,
  type RegularChange,
  requireRegular,
} from './nitrate.js';

/** Most of a pond exchanged in one visit (common practice). [-] */
export const LARGEST_CHANGE_SHARE = 0.25;

/** Where the size of a change starts: a tenth a week with heavy stock (koi), a fifth a month with light stock. [1/day] */
const HEAVY_STOCK_SHARE_PER_DAY = 0.1 / 7;
const LIGHT_STOCK_SHARE_PER_DAY = 0.2 / 30;
/** Largest step of the pond's temperature, and the smaller one for cold water (common practice). [°C] */
const TEMPERATURE_STEP_C = 2;
const COLD_TEMPERATURE_STEP_C = 1;
const COLD_WATER_BELOW_C = 12;
/** Guards comparisons against the last bit of a division. */
const ROUNDING = 1e-9;

const TEMPERATURE_RANGE_C = { min: -1, max: 45 } as const;

export type ChangeLimit = 'start-share' | 'nitrate' | 'visit-cap' | 'temperature-step';

export interface WaterChange {
  /** Part of the volume to exchange, 0 to 0.25. [-] */
  readonly changeShare: number;
  /** What decided the size. */
  readonly limitedBy: ChangeLimit;
  /** Nitrate before each change once this rhythm has settled. [mg/L N] */
  readonly expectedNitrateMgNPerL: number;
  /** 40 mg/L as NO3, or 80 where 40 would take more than a quarter of the pond. [mg/L N] */
  readonly targetMgNPerL: number;
  /** False where even the target cannot be held by this change. */
  readonly isTargetHeld: boolean;
}

/**
 * Size of the regular part water change, in season (in winter there is none).
 * Starts at the customary share for the stock, grows until nitrate stays at 40 mg/L as NO3, aims at 80 where 40 would
 * need more than a quarter, and is never larger than a quarter or than the temperature step allows.
 * @param change.heavyStock Koi, or as much feed: a tenth a week; else a fifth a month.
 * @param change.pondTemperatureC Pond before the change, -1 to 45. [°C]
 * @param change.sourceTemperatureC New water, -1 to 45. [°C]
 * @see Sizes, limits and steps are common practice; the nitrate balance is `nitrateBeforeChangeMgNPerL`.
 */
export function waterChangeFor(
  change: RegularChange & { heavyStock: boolean; pondTemperatureC: number; sourceTemperatureC: number },
): WaterChange {
  requireRegular(change);
  const byNitrate = shareByNitrate(change);
  const byTemperature = largestChangeShareByTemperature(change);

  const isTooWarmOrCold = byNitrate.changeShare > byTemperature;
  const changeShare = isTooWarmOrCold ? byTemperature : byNitrate.changeShare;
  const expectedNitrateMgNPerL = nitrateBeforeChangeMgNPerL({ ...change, changeShare });
  return {
    changeShare,
    limitedBy: isTooWarmOrCold ? 'temperature-step' : byNitrate.limitedBy,
    expectedNitrateMgNPerL,
    targetMgNPerL: byNitrate.targetMgNPerL,
    isTargetHeld: expectedNitrateMgNPerL <= byNitrate.targetMgNPerL + ROUNDING,
  };
}

function shareByNitrate(
  change: RegularChange & { heavyStock: boolean },
): Pick<WaterChange, 'changeShare' | 'limitedBy' | 'targetMgNPerL'> {
  const perDay = change.heavyStock ? HEAVY_STOCK_SHARE_PER_DAY : LIGHT_STOCK_SHARE_PER_DAY;
  const startShare = Math.min(perDay * change.intervalDays, LARGEST_CHANGE_SHARE);

  for (const targetMgNPerL of [NITRATE_TARGET_MG_N_PER_L, NITRATE_LIMIT_MG_N_PER_L]) {
    const needed = changeShareHolding({ ...change, targetMgNPerL });
    if (needed <= startShare) return { changeShare: startShare, limitedBy: 'start-share', targetMgNPerL };
    if (needed <= LARGEST_CHANGE_SHARE) return { changeShare: needed, limitedBy: 'nitrate', targetMgNPerL };
  }
  return { changeShare: LARGEST_CHANGE_SHARE, limitedBy: 'visit-cap', targetMgNPerL: NITRATE_LIMIT_MG_N_PER_L };
}

/**
 * The largest share that moves the pond by no more than 2.0 °C, or 1.0 °C below 12 °C. [-]
 *   x = step / |T_s - T_p|, at most 1
 * 12 °C water into a pond of 22 °C: 0.20.
 * @see Common practice.
 */
export function largestChangeShareByTemperature(change: {
  pondTemperatureC: number;
  sourceTemperatureC: number;
}): number {
  requireWithin('pond temperature, °C', change.pondTemperatureC, TEMPERATURE_RANGE_C);
  requireWithin('temperature of the new water, °C', change.sourceTemperatureC, TEMPERATURE_RANGE_C);

  const stepC = largestTemperatureStepC(change);
  const differenceC = Math.abs(change.sourceTemperatureC - change.pondTemperatureC);
  return differenceC <= stepC ? 1 : stepC / differenceC;
}

/** Largest change of temperature in one visit: 2.0 °C, or 1.0 in a pond below 12 °C (common practice). [°C] */
export function largestTemperatureStepC(pond: { pondTemperatureC: number }): number {
  requireWithin('pond temperature, °C', pond.pondTemperatureC, TEMPERATURE_RANGE_C);
  return pond.pondTemperatureC < COLD_WATER_BELOW_C ? COLD_TEMPERATURE_STEP_C : TEMPERATURE_STEP_C;
}

/** Temperature of the pond after a change, well mixed, heat content alike. [°C] */
export function mixedTemperatureC(change: {
  pondTemperatureC: number;
  sourceTemperatureC: number;
  changeShare: number;
}): number {
  requireWithin('pond temperature, °C', change.pondTemperatureC, TEMPERATURE_RANGE_C);
  requireWithin('temperature of the new water, °C', change.sourceTemperatureC, TEMPERATURE_RANGE_C);
  requireWithin('change, share', change.changeShare, { min: 0, max: 1 });
  return (1 - change.changeShare) * change.pondTemperatureC + change.changeShare * change.sourceTemperatureC;
}
