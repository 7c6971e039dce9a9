import { requireWithin } from '../errors.js';
import { bicarbonateG } from './alkalinity.js';

const ALKALINITY_RANGE = { min: 0, max: 400 } as const;
/** Beyond this a reading is due anyway, and no forecast is worth anything. [days] */
const LONGEST_DAYS = 366;
const ROUNDING = 1e-9;

/** What a filter uses up of a pond's alkalinity, and what changed water brings. */
export interface AlkalinityBudget {
  /** By `alkalinityUseMgCaCO3PerLDay`, 0 to 50. [mg/L CaCO3 per day] */
  readonly useMgCaCO3PerLDay: number;
  /** Alkalinity of the new water, 0 to 400. [mg/L CaCO3] */
  readonly sourceAlkalinityMgCaCO3PerL: number;
  /** Replaced at each change, 0.001 to 1. [-] */
  readonly changeShare: number;
  /** 1 to 366. [days] */
  readonly intervalDays: number;
}

export interface SettledAlkalinity {
  /** Lowest, just before a change; 0 where all of it is used up. [mg/L CaCO3] */
  readonly beforeChangeMgCaCO3PerL: number;
  /** Highest, just after a change. [mg/L CaCO3] */
  readonly afterChangeMgCaCO3PerL: number;
  /** The new water does not bring what the filter uses: without bicarbonate the pH falls and nitrification stops. */
  readonly isUsedUp: boolean;
}

/**
 * Alkalinity once the rhythm of changes has settled.
 *   before = A_s - u n / x        after = before + u n
 * @see Well-mixed mass balance (derived). Carbonate given off by lime or taken by plants is not counted.
 */
export function settledAlkalinity(budget: AlkalinityBudget): SettledAlkalinity {
  requireBudget(budget);
  const usedMgPerL = budget.useMgCaCO3PerLDay * budget.intervalDays;
  const before = budget.sourceAlkalinityMgCaCO3PerL - usedMgPerL / budget.changeShare;
  if (before >= 0) {
    return { beforeChangeMgCaCO3PerL: before, afterChangeMgCaCO3PerL: before + usedMgPerL, isUsedUp: false };
  }
  return {
    beforeChangeMgCaCO3PerL: 0,
    afterChangeMgCaCO3PerL: budget.changeShare * budget.sourceAlkalinityMgCaCO3PerL,
    isUsedUp: true,
  };
}

/**
 * Days until alkalinity has come down to a limit, or null where it does not within a year. [days]
 * The next change is a whole interval away. 100 mg/L at 3.07 a day without change: 6.5 days to 80.
 * @param pond.alkalinityMgCaCO3PerL Now, 0 to 400. [mg/L CaCO3]
 * @param pond.limitMgCaCO3PerL 0 to 400. [mg/L CaCO3]
 */
export function daysUntilAlkalinity(
  pond: AlkalinityBudget & { alkalinityMgCaCO3PerL: number; limitMgCaCO3PerL: number },
): number | null {
  requireBudget(pond);
  requireWithin('alkalinity, mg/L CaCO3', pond.alkalinityMgCaCO3PerL, ALKALINITY_RANGE);
  requireWithin('limit of alkalinity, mg/L CaCO3', pond.limitMgCaCO3PerL, ALKALINITY_RANGE);
  const { useMgCaCO3PerLDay, changeShare, sourceAlkalinityMgCaCO3PerL, intervalDays, limitMgCaCO3PerL } = pond;
  let now = pond.alkalinityMgCaCO3PerL;
  if (now <= limitMgCaCO3PerL) return 0;
  if (useMgCaCO3PerLDay === 0 && sourceAlkalinityMgCaCO3PerL > limitMgCaCO3PerL) return null;
  for (let day = 0; day <= LONGEST_DAYS; day += intervalDays) {
    const before = now - useMgCaCO3PerLDay * intervalDays;
    if (before <= limitMgCaCO3PerL) return day + (now - limitMgCaCO3PerL) / useMgCaCO3PerLDay;
    now = (1 - changeShare) * before + changeShare * sourceAlkalinityMgCaCO3PerL;
    if (now <= limitMgCaCO3PerL) return day + intervalDays;
  }
  return null;
}

/**
 * Bicarbonate at each change that keeps a pond at a target just before the next one. [g]
 *   m = 1.679 V (u n - x (A_s - A_t)), nothing where the new water brings enough
 * @param pond.targetMgCaCO3PerL 0 to 400. [mg/L CaCO3]
 */
export function bicarbonatePerChangeG(pond: AlkalinityBudget & { volumeL: number; targetMgCaCO3PerL: number }): number {
  requireBudget(pond);
  requireWithin('target alkalinity, mg/L CaCO3', pond.targetMgCaCO3PerL, ALKALINITY_RANGE);
  const broughtMgPerL = pond.changeShare * (pond.sourceAlkalinityMgCaCO3PerL - pond.targetMgCaCO3PerL);
  const missingMgPerL = pond.useMgCaCO3PerLDay * pond.intervalDays - broughtMgPerL;
  return missingMgPerL <= ROUNDING
    ? 0
    : bicarbonateG({ volumeL: pond.volumeL, alkalinityRiseMgCaCO3PerL: missingMgPerL });
}

function requireBudget(budget: AlkalinityBudget): void {
  requireWithin('alkalinity used, mg/L CaCO3 per day', budget.useMgCaCO3PerLDay, { min: 0, max: 50 });
  requireWithin('alkalinity of the new water, mg/L CaCO3', budget.sourceAlkalinityMgCaCO3PerL, ALKALINITY_RANGE);
  requireWithin('change, share', budget.changeShare, { min: 0.001, max: 1 });
  requireWithin('interval, days', budget.intervalDays, { min: 1, max: 366 });
}
