import { requireWithin } from '../errors.js';

/** Tap water whose chlorine nobody measured: the US EPA limit (MRDL) for chlorine and for chloramine. [mg/L Cl2] */
export const DEFAULT_TAP_CHLORINE_MG_PER_L = 4;
/** Computed chlorine below this is none (common practice). [mg/L Cl2] */
export const CHLORINE_GONE_MG_PER_L = 0.01;
/** A reading below this is accepted as none, because kits cannot read 0.01 (common practice). [mg/L Cl2] */
export const ACCEPTED_CHLORINE_READING_MG_PER_L = 0.02;
/** Extra where a hose fills the pond directly, counted once (common practice). [-] */
export const DIRECT_FILL_RESERVE_SHARE = 0.1;

const CHLORINE_RANGE_MG_PER_L = { min: 0, max: 10 } as const;
const SHOCK_CHLORINE_RANGE_MG_PER_L = { min: 0, max: 1000 } as const;
const WATER_RANGE_L = { min: 0, max: 10_000_000 } as const;

/**
 * Dechlorinator for new water. [g]
 * The amount of water is the metered new water, or the whole volume at the first fill. A product label that asks for
 * more wins. 2,000 L at 4.0 mg/L with thiosulfate crystals (7.0) take 56 g, with a reserve of 0.1 61.6 g.
 * @param water.waterL Water to be treated. [L]
 * @param water.totalChlorineMgCl2PerL Total chlorine in it, free and combined, 0 to 1000. [mg/L Cl2]
 * @param water.productMgPerMgChlorine Product needed per chlorine, 0.1 to 100. [mg per mg Cl2]
 * @param water.reserveShare Extra over the need, 0 to 1 (an automatic dose is at most doubled); 0.1 where the pond is
 *        filled directly. [-]
 * @see Mass balance (derived); basis and reserve are common practice.
 */
export function dechlorinatorDoseG(water: {
  waterL: number;
  totalChlorineMgCl2PerL: number;
  productMgPerMgChlorine: number;
  reserveShare?: number;
}): number {
  const { waterL, totalChlorineMgCl2PerL, productMgPerMgChlorine, reserveShare = 0 } = water;
  requireWithin('water to be treated, L', waterL, WATER_RANGE_L);
  requireWithin('total chlorine, mg/L Cl2', totalChlorineMgCl2PerL, SHOCK_CHLORINE_RANGE_MG_PER_L);
  requireWithin('product per chlorine, mg/mg', productMgPerMgChlorine, { min: 0.1, max: 100 });
  requireWithin('reserve, share', reserveShare, { min: 0, max: 1 });

  const doseMg = waterL * totalChlorineMgCl2PerL * productMgPerMgChlorine * (1 + reserveShare);
  return doseMg / 1000;
}

/**
 * Chlorine in the pond if a top-up went in untreated and nothing used it up. [mg/L Cl2]
 * @param topUp.topUpL Water added. [L]
 * @param topUp.volumeL Pond at its normal level, the top-up included. [L]
 */
export function chlorineAfterTopUpMgPerL(topUp: {
  topUpL: number;
  volumeL: number;
  totalChlorineMgCl2PerL: number;
}): number {
  requireWithin('pond volume, L', topUp.volumeL, { min: 1, max: WATER_RANGE_L.max });
  requireWithin('top-up, L', topUp.topUpL, { min: 0, max: topUp.volumeL });
  requireWithin('total chlorine, mg/L Cl2', topUp.totalChlorineMgCl2PerL, CHLORINE_RANGE_MG_PER_L);

  return (topUp.totalChlorineMgCl2PerL * topUp.topUpL) / topUp.volumeL;
}

/** Whether a top-up is so small that it may go in untreated (common practice: less than 0.01 mg/L in the pond). */
export function mayTopUpUntreated(topUp: { topUpL: number; volumeL: number; totalChlorineMgCl2PerL: number }): boolean {
  return chlorineAfterTopUpMgPerL(topUp) < CHLORINE_GONE_MG_PER_L;
}
