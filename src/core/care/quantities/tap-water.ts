import { DEFAULT_TAP_CHLORINE_MG_PER_L } from '../../water/chlorine.js';
import type { PondFacts } from '../pond-facts.js';

export interface TapChlorine {
  readonly totalChlorineMgCl2PerL: number;
  readonly isChloraminated: boolean;
  /** False where the default stands in for a figure nobody gave. */
  readonly isKnown: boolean;
}

/** Chlorine of the tap water; a tap nobody described is taken for chloramine at the default. Null for a well. */
export function tapChlorine(pond: Pick<PondFacts, 'tap'>): TapChlorine | null {
  const { source, totalChlorineMgPerL } = pond.tap;
  if (source === 'well') return null;
  return {
    totalChlorineMgCl2PerL: totalChlorineMgPerL ?? DEFAULT_TAP_CHLORINE_MG_PER_L,
    isChloraminated: source !== 'chlorine',
    isKnown: totalChlorineMgPerL !== null,
  };
}
