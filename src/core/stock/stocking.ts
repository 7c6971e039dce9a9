import { requireWithin } from '../errors.js';

export type Stocking = 'comfortable' | 'full' | 'over' | 'far-over';

export interface StockVerdict {
  readonly verdict: Stocking;
  /** Live mass per water. [kg/m³] */
  readonly kgPerM3: number;
}

/** Upper ends of the first three (common practice; rules in print differ tenfold). [kg/m³] */
export const COMFORTABLE_TO_KG_PER_M3 = 1;
export const FULL_TO_KG_PER_M3 = 2;
const OVER_TO = 4;

/**
 * How full a pond's water is by live mass, fish and turtle equivalents together.
 * Ten koi of 50 cm in 15 m³ are 1.38 kg/m³: full. With filter and oxygen beside it, `judgeStock`.
 * @param pond.totalKg Live mass, as `stockBiomass` gives it. [kg]
 * @param pond.volumeL 1 to 10,000,000. [L]
 */
export function stockVerdict(pond: { totalKg: number; volumeL: number }): StockVerdict {
  requireWithin('live mass, kg', pond.totalKg, { min: 0, max: 1_000_000 });
  requireWithin('pond volume, L', pond.volumeL, { min: 1, max: 10_000_000 });
  const kgPerM3 = pond.totalKg / (pond.volumeL / 1000);
  return { verdict: verdictOf(kgPerM3), kgPerM3 };
}

function verdictOf(kgPerM3: number): Stocking {
  if (kgPerM3 <= COMFORTABLE_TO_KG_PER_M3) return 'comfortable';
  if (kgPerM3 <= FULL_TO_KG_PER_M3) return 'full';
  return kgPerM3 <= OVER_TO ? 'over' : 'far-over';
}
