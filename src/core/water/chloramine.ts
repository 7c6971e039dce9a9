import { requireWithin } from '../errors.js';
import { type AmmoniaSample, unionisedAmmoniaMgNPerL } from './ammonia.js';
import { type ReadingLevel, readingVerdict } from './reading-verdict.js';

/** Nitrogen in monochloramine per chlorine: 14.007 / 70.90 (derived). [mg N per mg Cl2] */
const N_PER_CHLORAMINE_CL2 = 0.1976;
const CHLORINE_RANGE_MG_PER_L = { min: 0, max: 10 } as const;
const AMMONIA_RANGE_MG_N_PER_L = { min: 0, max: 1000 } as const;

/**
 * Total ammonia that stays in the new water when a dechlorinator breaks chloramine but does not bind ammonia. [mg/L N]
 *   NH2Cl + 2e + H+ = NH3 + Cl-        0.1976 mg N for each mg Cl2
 * 1.5 mg/L of chloramine leaves 0.296. Free ammonia a utility adds comes on top.
 * @param water.totalChlorineMgCl2PerL Chloramine as chlorine, 0 to 10. [mg/L Cl2]
 * @param water.freeAmmoniaMgNPerL Ammonia already in the tap water, 0 when left out. [mg/L N]
 */
export function chloramineAmmoniaMgNPerL(water: {
  totalChlorineMgCl2PerL: number;
  freeAmmoniaMgNPerL?: number;
}): number {
  const { totalChlorineMgCl2PerL, freeAmmoniaMgNPerL = 0 } = water;
  requireWithin('total chlorine, mg/L Cl2', totalChlorineMgCl2PerL, CHLORINE_RANGE_MG_PER_L);
  requireWithin('free ammonia of the tap, mg/L N', freeAmmoniaMgNPerL, { min: 0, max: 5 });
  return totalChlorineMgCl2PerL * N_PER_CHLORAMINE_CL2 + freeAmmoniaMgNPerL;
}

/** Total ammonia of a pond when a share of it has been replaced. [mg/L N] */
export function ammoniaAfterChangeMgNPerL(change: {
  pondAmmoniaMgNPerL: number;
  newWaterAmmoniaMgNPerL: number;
  changeShare: number;
}): number {
  requireWithin('total ammonia, mg/L N', change.pondAmmoniaMgNPerL, AMMONIA_RANGE_MG_N_PER_L);
  requireWithin('total ammonia of the new water, mg/L N', change.newWaterAmmoniaMgNPerL, AMMONIA_RANGE_MG_N_PER_L);
  requireWithin('change, share', change.changeShare, { min: 0, max: 1 });
  return (1 - change.changeShare) * change.pondAmmoniaMgNPerL + change.changeShare * change.newWaterAmmoniaMgNPerL;
}

export type AmmoniaCarried =
  /** Oxidised beside the daily load within a day. */
  | 'carried-within-a-day'
  /** Oxidised, but not within a day. */
  | 'carried-slowly'
  /** The filter has no room beside the daily load. */
  | 'not-carried';

/** Hours within which the filter must have taken it, so that no second day adds to it (common practice). [h] */
const WITHIN_H = 24;

/**
 * Whether a filter takes the ammonia set free, beside its daily load.
 *   t = m / (capacity - load)
 * @param water.freedGN Nitrogen set free in all the new water, 0 to 100,000. [g N]
 * @param water.ammoniaLoadGNPerDay Of fish and turtles on that day. [g N/day]
 * @param water.filterCapacityGNPerDay By `nitrificationCapacityGNPerDay` at the temperature. [g N/day]
 */
export function ammoniaCarriedByFilter(water: {
  freedGN: number;
  ammoniaLoadGNPerDay: number;
  filterCapacityGNPerDay: number;
}): { verdict: AmmoniaCarried; hours: number | null } {
  requireWithin('ammonia set free, g N', water.freedGN, { min: 0, max: 100_000 });
  requireWithin('ammonia load, g N/day', water.ammoniaLoadGNPerDay, { min: 0, max: 100_000 });
  requireWithin('filter capacity, g N/day', water.filterCapacityGNPerDay, { min: 0, max: 1_000_000 });
  const roomGPerDay = water.filterCapacityGNPerDay - water.ammoniaLoadGNPerDay;
  if (water.freedGN === 0 && roomGPerDay >= 0) return { verdict: 'carried-within-a-day', hours: 0 };
  if (roomGPerDay <= 0) return { verdict: 'not-carried', hours: null };
  const hours = (24 * water.freedGN) / roomGPerDay;
  return { verdict: hours <= WITHIN_H ? 'carried-within-a-day' : 'carried-slowly', hours };
}

/** The pond right after the change, before any of it has been oxidised. */
export interface AmmoniaAfterChange {
  readonly totalAmmoniaMgNPerL: number;
  readonly unionisedAmmoniaMgNPerL: number;
  readonly level: ReadingLevel;
}

/**
 * Judges the ammonia of a pond right after a change with chloraminated water.
 * 1.5 mg/L in a fifth of a pond of 0.1 mg/L N, pH 8.4 and 24 °C: 0.139 in all, 0.0163 un-ionised, in order.
 * @param change.temperatureC and change.ph Of the pond in the afternoon, the worst hour. [°C, -]
 */
export function ammoniaAfterChange(
  change: AmmoniaSample & {
    totalChlorineMgCl2PerL: number;
    freeAmmoniaMgNPerL?: number;
    pondAmmoniaMgNPerL: number;
    changeShare: number;
  },
): AmmoniaAfterChange {
  const totalAmmoniaMgNPerL = ammoniaAfterChangeMgNPerL({
    ...change,
    newWaterAmmoniaMgNPerL: chloramineAmmoniaMgNPerL(change),
  });
  const { temperatureC, ph } = change;
  return {
    totalAmmoniaMgNPerL,
    unionisedAmmoniaMgNPerL: unionisedAmmoniaMgNPerL({ totalAmmoniaMgNPerL, temperatureC, ph }),
    level: readingVerdict({ quantity: 'total-ammonia', value: totalAmmoniaMgNPerL, temperatureC, ph }).level,
  };
}
