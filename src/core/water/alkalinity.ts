import { requireWithin } from '../errors.js';

/** Limits of alkalinity (common practice). [mg/L CaCO3] */
export const ALKALINITY_ACT_BELOW_MG_CACO3_PER_L = 50;
export const ALKALINITY_TOP_UP_BELOW_MG_CACO3_PER_L = 80;
export const ALKALINITY_TARGET_MG_CACO3_PER_L = 100;
export const ALKALINITY_RUN_IN_MG_CACO3_PER_L = 150;
/** Most a pond is raised in one day (common practice). [mg/L CaCO3] */
export const LARGEST_ALKALINITY_RISE_PER_DAY = 20;

/** 84.007 / 50.043 per equivalent (derived). [g NaHCO3 per m³ per mg/L CaCO3] */
const BICARBONATE_PER_ALKALINITY = 1.679;
/** Two bicarbonate ions per ammonia nitrogen oxidised; 6.3 to 7.4 measured (published source). [g CaCO3 per g N] */
const ALKALINITY_PER_AMMONIA_N = 7.14;

const ALKALINITY_RANGE = { min: 0, max: 400 } as const;
const VOLUME_RANGE_L = { min: 1, max: 10_000_000 } as const;

/**
 * Sodium bicarbonate that raises the alkalinity of a volume. [g]
 * 12 m³ from 60 to 100 mg/L: 806 g. The rise is not capped here; see `alkalinityDose`.
 * @param dose.volumeL Water, 1 to 10,000,000. [L]
 * @param dose.alkalinityRiseMgCaCO3PerL Rise, a difference, 0 to 400. [mg/L CaCO3]
 */
export function bicarbonateG(dose: { volumeL: number; alkalinityRiseMgCaCO3PerL: number }): number {
  requireWithin('pond volume, L', dose.volumeL, VOLUME_RANGE_L);
  requireWithin('rise of alkalinity, mg/L CaCO3', dose.alkalinityRiseMgCaCO3PerL, ALKALINITY_RANGE);
  return (BICARBONATE_PER_ALKALINITY * dose.volumeL * dose.alkalinityRiseMgCaCO3PerL) / 1000;
}

export interface AlkalinityDose {
  /** The rise of the first day, at most 20. [mg/L CaCO3] */
  readonly riseTodayMgCaCO3PerL: number;
  readonly bicarbonateTodayG: number;
  /** Whole rise, and how many daily doses it takes, with a new reading before each. */
  readonly riseMgCaCO3PerL: number;
  readonly bicarbonateG: number;
  readonly days: number;
}

/**
 * Daily doses from a reading to a target, at most 20 mg/L a day (common practice). Nothing when the target is met.
 * @param dose.targetMgCaCO3PerL 100 when left out; 150 while a filter runs in. [mg/L CaCO3]
 */
export function alkalinityDose(dose: {
  volumeL: number;
  alkalinityMgCaCO3PerL: number;
  targetMgCaCO3PerL?: number;
}): AlkalinityDose {
  const target = dose.targetMgCaCO3PerL ?? ALKALINITY_TARGET_MG_CACO3_PER_L;
  requireWithin('alkalinity, mg/L CaCO3', dose.alkalinityMgCaCO3PerL, ALKALINITY_RANGE);
  requireWithin('target alkalinity, mg/L CaCO3', target, ALKALINITY_RANGE);

  const rise = Math.max(0, target - dose.alkalinityMgCaCO3PerL);
  const today = Math.min(rise, LARGEST_ALKALINITY_RISE_PER_DAY);
  return {
    riseTodayMgCaCO3PerL: today,
    bicarbonateTodayG: bicarbonateG({ volumeL: dose.volumeL, alkalinityRiseMgCaCO3PerL: today }),
    riseMgCaCO3PerL: rise,
    bicarbonateG: bicarbonateG({ volumeL: dose.volumeL, alkalinityRiseMgCaCO3PerL: rise }),
    days: Math.ceil(rise / LARGEST_ALKALINITY_RISE_PER_DAY),
  };
}

/**
 * Alkalinity a filter uses up per day by oxidising the ammonia load. [mg/L CaCO3 per day]
 * 6.44 g N a day in 15 m³: 3.07.
 */
export function alkalinityUseMgCaCO3PerLDay(pond: { ammoniaLoadGNPerDay: number; volumeL: number }): number {
  requireWithin('ammonia load, g N/day', pond.ammoniaLoadGNPerDay, { min: 0, max: 100_000 });
  requireWithin('pond volume, L', pond.volumeL, VOLUME_RANGE_L);
  return (ALKALINITY_PER_AMMONIA_N * pond.ammoniaLoadGNPerDay * 1000) / pond.volumeL;
}
