import { InvalidValueError, requireWithin } from '../errors.js';
import { mgNPerLFrom } from '../units/nitrogen-species.js';

/** Nitrate aimed at, and the most that is put up with: 40 and 80 mg/L as NO3 (common practice). [mg/L N] */
export const NITRATE_TARGET_MG_N_PER_L = mgNPerLFrom({ mgPerL: 40, basis: 'no3' });
export const NITRATE_LIMIT_MG_N_PER_L = mgNPerLFrom({ mgPerL: 80, basis: 'no3' });
/** Guards `ceil` against the last bit of a division. */
const ROUNDING = 1e-9;

const NITRATE_RANGE_MG_N_PER_L = { min: 0, max: 500 } as const;
const PRODUCTION_RANGE_MG_N_PER_L_DAY = { min: 0, max: 50 } as const;
const INTERVAL_RANGE_DAYS = { min: 0.01, max: 366 } as const;
const SHARE_RANGE = { min: 1e-6, max: 1 } as const;

/** A pond that makes nitrate evenly and is changed by the same share at the same interval. */
export interface RegularChange {
  /** Nitrate made, as N: ammonia load over volume, less what plants take. [mg/L N per day] */
  readonly productionMgNPerLDay: number;
  /** Nitrate in the new water. [mg/L N] */
  readonly sourceNitrateMgNPerL: number;
  readonly intervalDays: number;
}

/**
 * Nitrate made per day in a well-mixed pond whose whole ammonia load is nitrified. [mg/L N per day]
 * 6.44 g N a day in 15 m³: 0.4293.
 * @param pond.takenUpShare Taken up by plants or given off as gas, 0 to 1; 0 when left out, for nobody measures it. [-]
 */
export function nitrateProductionMgNPerLDay(pond: {
  ammoniaLoadGNPerDay: number;
  volumeL: number;
  takenUpShare?: number;
}): number {
  const { takenUpShare = 0 } = pond;
  requireWithin('nitrate taken up, share', takenUpShare, { min: 0, max: 1 });
  requireWithin('ammonia load, g N/day', pond.ammoniaLoadGNPerDay, { min: 0, max: 100_000 });
  requireWithin('pond volume, L', pond.volumeL, { min: 1, max: 10_000_000 });
  return (pond.ammoniaLoadGNPerDay * 1000 * (1 - takenUpShare)) / pond.volumeL;
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

/**
 * Nitrate under a steady trickle of new water. [mg/L N]        C = c_s + p / q
 * The same as just before changes of as much water in all. Evaporation and its top-up are no exchange: they dilute
 * nothing.
 * @param steady.exchangePerDay Share of the pond exchanged in a day, 0.0001 to 2. [1/day]
 */
export function nitrateUnderSteadyExchangeMgNPerL(
  steady: Omit<RegularChange, 'intervalDays'> & { exchangePerDay: number },
): number {
  requireRegular({ ...steady, intervalDays: 1 });
  requireWithin('exchange, share per day', steady.exchangePerDay, { min: 0.0001, max: 2 });
  return steady.sourceNitrateMgNPerL + steady.productionMgNPerLDay / steady.exchangePerDay;
}

/**
 * The share at each interval that holds a target for good; infinite where the new water itself is at or above it. [-]
 *   x = p n / (C_t - c_s)        above 1 no change holds it at this interval
 */
export function changeShareHolding(change: RegularChange & { targetMgNPerL: number }): number {
  requireRegular(change);
  requireWithin('nitrate target, mg/L N', change.targetMgNPerL, NITRATE_RANGE_MG_N_PER_L);
  const roomMgNPerL = change.targetMgNPerL - change.sourceNitrateMgNPerL;
  if (roomMgNPerL <= 0) return Number.POSITIVE_INFINITY;
  return (change.productionMgNPerLDay * change.intervalDays) / roomMgNPerL;
}

/**
 * The longest interval at which changes of one share hold a target. [days]
 *   n = x (C_t - c_s) / p        infinite where no nitrate is made
 * Throws where the new water is at or above the target.
 */
export function changeIntervalHoldingDays(
  change: Omit<RegularChange, 'intervalDays'> & { changeShare: number; targetMgNPerL: number },
): number {
  requireRegular({ ...change, intervalDays: 1 });
  requireStep({ ...change, nitrateMgNPerL: change.targetMgNPerL });
  requireWithin('change, share', change.changeShare, SHARE_RANGE);
  if (change.productionMgNPerLDay === 0) return Number.POSITIVE_INFINITY;
  return (change.changeShare * (change.targetMgNPerL - change.sourceNitrateMgNPerL)) / change.productionMgNPerLDay;
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

/** Throws where production, new water or interval make no sense. */
export function requireRegular(change: RegularChange): void {
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
