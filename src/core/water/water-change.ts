import { InvalidValueError, requireWithin } from '../errors.js';
import { mgNPerLFrom } from '../units/nitrogen-species.js';

/** Nitrate aimed at, and the most that is put up with: 40 and 80 mg/L as NO3 (common practice). [mg/L N] */
export const NITRATE_TARGET_MG_N_PER_L = mgNPerLFrom({ mgPerL: 40, basis: 'no3' });
export const NITRATE_LIMIT_MG_N_PER_L = mgNPerLFrom({ mgPerL: 80, basis: 'no3' });
/** Most of a pond exchanged in one visit (common practice). [-] */
export const LARGEST_CHANGE_SHARE = 0.25;

/** Where the size of a change starts: a tenth a week with heavy stock (koi), a fifth a month with light stock. [1/day] */
const HEAVY_STOCK_SHARE_PER_DAY = 0.1 / 7;
const LIGHT_STOCK_SHARE_PER_DAY = 0.2 / 30;
/** Largest step of the pond's temperature, and the smaller one for cold water (common practice). [°C] */
const TEMPERATURE_STEP_C = 2;
const COLD_TEMPERATURE_STEP_C = 1;
const COLD_WATER_BELOW_C = 12;
/** Guards `ceil` and comparisons against the last bit of a division. */
const ROUNDING = 1e-9;

const NITRATE_RANGE_MG_N_PER_L = { min: 0, max: 500 } as const;
const PRODUCTION_RANGE_MG_N_PER_L_DAY = { min: 0, max: 50 } as const;
const INTERVAL_RANGE_DAYS = { min: 0.01, max: 366 } as const;
const SHARE_RANGE = { min: 1e-6, max: 1 } as const;
const TEMPERATURE_RANGE_C = { min: -1, max: 45 } as const;

/** A pond that makes nitrate evenly and is changed by the same share at the same interval. */
export interface RegularChange {
  /** Nitrate made, as N: ammonia load over volume, less what plants take. [mg/L N per day] */
  readonly productionMgNPerLDay: number;
  /** Nitrate in the new water. [mg/L N] */
  readonly sourceNitrateMgNPerL: number;
  readonly intervalDays: number;
}

/** Nitrate made per day in a well-mixed pond whose whole ammonia load is nitrified. [mg/L N per day] */
export function nitrateProductionMgNPerLDay(pond: { ammoniaLoadGNPerDay: number; volumeL: number }): number {
  requireWithin('ammonia load, g N/day', pond.ammoniaLoadGNPerDay, { min: 0, max: 100_000 });
  requireWithin('pond volume, L', pond.volumeL, { min: 1, max: 10_000_000 });
  return (pond.ammoniaLoadGNPerDay * 1000) / pond.volumeL;
}

/**
 * Nitrate just before a change once the pond has settled into the regular rhythm. [mg/L N]
 *   C = c_s + p n / x
 * @see Well-mixed mass balance (derived).
 */
export function nitrateBeforeChangeMgNPerL(regular: RegularChange & { changeShare: number }): number {
  requireRegular(regular);
  requireWithin('change, share', regular.changeShare, SHARE_RANGE);
  return regular.sourceNitrateMgNPerL + (regular.productionMgNPerLDay * regular.intervalDays) / regular.changeShare;
}

/**
 * Nitrate just after a change in the same rhythm. [mg/L N]
 *   C = c_s + p n (1 - x) / x
 */
export function nitrateAfterChangeMgNPerL(regular: RegularChange & { changeShare: number }): number {
  return nitrateBeforeChangeMgNPerL(regular) - regular.productionMgNPerLDay * regular.intervalDays;
}

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
    const needed = shareHolding({ ...change, targetMgNPerL });
    if (needed <= startShare) return { changeShare: startShare, limitedBy: 'start-share', targetMgNPerL };
    if (needed <= LARGEST_CHANGE_SHARE) return { changeShare: needed, limitedBy: 'nitrate', targetMgNPerL };
  }
  return { changeShare: LARGEST_CHANGE_SHARE, limitedBy: 'visit-cap', targetMgNPerL: NITRATE_LIMIT_MG_N_PER_L };
}

/** The share that holds a target for good; infinite where the new water itself is at or above it. [-] */
function shareHolding(change: RegularChange & { targetMgNPerL: number }): number {
  const roomMgNPerL = change.targetMgNPerL - change.sourceNitrateMgNPerL;
  if (roomMgNPerL <= 0) return Number.POSITIVE_INFINITY;
  return (change.productionMgNPerLDay * change.intervalDays) / roomMgNPerL;
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

  const stepC = change.pondTemperatureC < COLD_WATER_BELOW_C ? COLD_TEMPERATURE_STEP_C : TEMPERATURE_STEP_C;
  const differenceC = Math.abs(change.sourceTemperatureC - change.pondTemperatureC);
  return differenceC <= stepC ? 1 : stepC / differenceC;
}

/** Temperature of the pond after a change, well mixed, heat content alike. [°C] */
export function mixedTemperatureC(change: {
  pondTemperatureC: number;
  sourceTemperatureC: number;
  changeShare: number;
}): number {
  requireWithin('change, share', change.changeShare, { min: 0, max: 1 });
  return (1 - change.changeShare) * change.pondTemperatureC + change.changeShare * change.sourceTemperatureC;
}

/** From a nitrate reading down to a target by changes close together, so that none is made meanwhile. */
export interface NitrateStep {
  readonly nitrateMgNPerL: number;
  readonly targetMgNPerL: number;
  readonly sourceNitrateMgNPerL: number;
}

/**
 * How many changes of one share bring nitrate down to a target; 0 when it is there already.
 *   k = ceil( ln((C_t - c_s) / (C_0 - c_s)) / ln(1 - x) )
 * Throws when the new water is at or above the target: no number of changes reaches it.
 */
export function changesNeeded(step: NitrateStep & { changeShare: number }): number {
  requireStep(step);
  requireWithin('change, share', step.changeShare, SHARE_RANGE);
  if (step.nitrateMgNPerL <= step.targetMgNPerL) return 0;

  const left = (step.targetMgNPerL - step.sourceNitrateMgNPerL) / (step.nitrateMgNPerL - step.sourceNitrateMgNPerL);
  return step.changeShare === 1 ? 1 : Math.ceil(Math.log(left) / Math.log(1 - step.changeShare) - ROUNDING);
}

/** The single change that would reach a target; above 0.25 it must be split. Throws as `changesNeeded`. [-] */
export function changeShareToReach(step: NitrateStep): number {
  requireStep(step);
  if (step.nitrateMgNPerL <= step.targetMgNPerL) return 0;
  return (step.nitrateMgNPerL - step.targetMgNPerL) / (step.nitrateMgNPerL - step.sourceNitrateMgNPerL);
}

/** Nitrate after a number of changes, none made meanwhile: C_k = c_s + (C_0 - c_s)(1 - x)^k. [mg/L N] */
export function nitrateAfterChangesMgNPerL(step: {
  nitrateMgNPerL: number;
  sourceNitrateMgNPerL: number;
  changeShare: number;
  changes: number;
}): number {
  requireWithin('nitrate, mg/L N', step.nitrateMgNPerL, NITRATE_RANGE_MG_N_PER_L);
  requireWithin('nitrate of the new water, mg/L N', step.sourceNitrateMgNPerL, NITRATE_RANGE_MG_N_PER_L);
  requireWithin('change, share', step.changeShare, { min: 0, max: 1 });
  requireWithin('changes', step.changes, { min: 0, max: 1000 });
  const excess = step.nitrateMgNPerL - step.sourceNitrateMgNPerL;
  return step.sourceNitrateMgNPerL + excess * (1 - step.changeShare) ** step.changes;
}

function requireRegular(change: RegularChange): void {
  requireWithin('nitrate made, mg/L N per day', change.productionMgNPerLDay, PRODUCTION_RANGE_MG_N_PER_L_DAY);
  requireWithin('nitrate of the new water, mg/L N', change.sourceNitrateMgNPerL, NITRATE_RANGE_MG_N_PER_L);
  requireWithin('interval, days', change.intervalDays, INTERVAL_RANGE_DAYS);
}

function requireStep(step: NitrateStep): void {
  requireWithin('nitrate, mg/L N', step.nitrateMgNPerL, NITRATE_RANGE_MG_N_PER_L);
  requireWithin('nitrate target, mg/L N', step.targetMgNPerL, NITRATE_RANGE_MG_N_PER_L);
  requireWithin('nitrate of the new water, mg/L N', step.sourceNitrateMgNPerL, NITRATE_RANGE_MG_N_PER_L);
  if (step.targetMgNPerL <= step.sourceNitrateMgNPerL) {
    throw new InvalidValueError(
      'nitrate target, mg/L N',
      step.targetMgNPerL,
      `The source water is above the target: it carries ${step.sourceNitrateMgNPerL} mg/L N. Aim higher, or find other water.`,
    );
  }
}
