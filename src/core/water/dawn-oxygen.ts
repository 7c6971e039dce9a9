import { requireWithin } from '../errors.js';
import {
  balanceOf,
  concentrationAfter,
  type DarkPond,
  hoursTo,
  type NightBalance,
  nightRates,
  withUses,
} from './night-balance.js';
import { oxygenSaturationMgPerL } from './oxygen.js';
import { type ReadingLevel, readingVerdict } from './reading-verdict.js';

/** A pond on one evening. */
export interface NightPond extends DarkPond {
  /** Oxygen at dusk, 0 to 25; full to saturation when left out. [mg/L] */
  readonly duskOxygenMgPerL?: number;
  /** Dusk to dawn, 0.5 to 24. [h] */
  readonly nightH: number;
}

export interface DawnOxygen {
  /** [mg/L] */
  readonly dawnMgPerL: number;
  /** The lowest of the night: dawn, or dusk where the water gains over night. [mg/L] */
  readonly lowestMgPerL: number;
  /** By the limits for a reading at dawn. */
  readonly level: ReadingLevel;
  /** Hours after dusk at which nothing was left, or null. [h] */
  readonly emptyAfterH: number | null;
  readonly balance: NightBalance;
}

/**
 * Oxygen at dawn from what lives in the pond and what brings air into it, the pond well mixed.
 *   V dC/dt = -F - N - w V - s A C + sum of k (C* - C)
 * F fish, N filter, w the water, s the bottom, k and C* of aerator, fall and surface; solved in closed form. Once nothing
 * is left only what comes in is used, shared alike. Show it as a range (`dawnOxygenRange`): fish alone are known to a
 * factor of two, and in the ponds measured they were the small part (water 42 %, bottom 50 %).
 * @see Mass balance (derived); shares of the uses: Madenjian et al. (1987), Aquacult. Eng. 6, 191-208 (published source).
 */
export function dawnOxygen(pond: NightPond): DawnOxygen {
  const rates = nightRates(pond);
  const duskMgPerL = duskOxygen(pond);
  requireWithin('length of the night, h', pond.nightH, { min: 0.5, max: 24 });

  const emptyAfterH = hoursTo(rates, duskMgPerL, 0);
  const isEmptied = emptyAfterH !== null && emptyAfterH < pond.nightH;
  const fallingH = isEmptied ? emptyAfterH : pond.nightH;
  const dawnMgPerL = isEmptied ? 0 : concentrationAfter(rates, duskMgPerL, fallingH);
  const lowestMgPerL = Math.min(duskMgPerL, dawnMgPerL);
  return {
    dawnMgPerL,
    lowestMgPerL,
    level: readingVerdict({ quantity: 'dissolved-oxygen', value: Math.min(lowestMgPerL, 20) }).level,
    emptyAfterH: isEmptied ? emptyAfterH : null,
    balance: balanceOf({ rates, duskMgPerL, dawnMgPerL, fallingH, emptyH: pond.nightH - fallingH }),
  };
}

/** Fish, filter, water and bottom together over their likeliest figure (common practice). [-] */
const LOW_USE_SHARE = 0.6;
const HIGH_USE_SHARE = 1.6;

/** [mg/L] */
export interface DawnOxygenRange {
  readonly lowMgPerL: number;
  readonly likelyMgPerL: number;
  readonly highMgPerL: number;
}

/** The same with all uses low and high; what air brings in stays. [mg/L] */
export function dawnOxygenRange(pond: NightPond): DawnOxygenRange {
  const likely = dawnOxygen(pond);
  const rates = nightRates(pond);
  const duskMgPerL = duskOxygen(pond);
  const dawnAt = (share: number) => Math.max(0, concentrationAfter(withUses(rates, share), duskMgPerL, pond.nightH));
  return {
    lowMgPerL: dawnAt(HIGH_USE_SHARE),
    likelyMgPerL: likely.dawnMgPerL,
    highMgPerL: dawnAt(LOW_USE_SHARE),
  };
}

/**
 * Hours until the oxygen has come down to a limit in the dark, or null where it never does: the clock of a power failure
 * (leave out what has stopped). [h]
 * @param pond.limitMgPerL 0 to 20. [mg/L]
 */
export function hoursUntilOxygen(pond: Omit<NightPond, 'nightH'> & { readonly limitMgPerL: number }): number | null {
  requireWithin('oxygen limit, mg/L', pond.limitMgPerL, { min: 0, max: 20 });
  return hoursTo(nightRates(pond), duskOxygen(pond), pond.limitMgPerL);
}

function duskOxygen(pond: Omit<NightPond, 'nightH'>): number {
  const duskMgPerL = pond.duskOxygenMgPerL ?? oxygenSaturationMgPerL(pond);
  requireWithin('oxygen at dusk, mg/L', duskMgPerL, { min: 0, max: 25 });
  return duskMgPerL;
}
