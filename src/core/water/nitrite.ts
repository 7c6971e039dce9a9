import { requireWithin } from '../errors.js';
import { mgPerLFromN } from '../units/nitrogen-species.js';
import { LARGEST_PROPOSED_SALINITY_G_PER_L } from './salt.js';

/** Chloride for each part of nitrite by weight: aimed at, and the least that helps (published source; from memory). [-] */
export const CHLORIDE_PER_NITRITE = 10;
export const LEAST_CHLORIDE_PER_NITRITE = 6;

/** Salt per chloride in it: 58.443 / 35.453 (derived). [g NaCl per g Cl] */
const SALT_PER_CHLORIDE = 1.6485;

export interface SaltAgainstNitrite {
  /** Salt, never beyond 1.0 g/L in the pond. [g] */
  readonly saltG: number;
  /** What the ratio alone would ask for. [g] */
  readonly saltForRatioG: number;
  /** False where the cap on salt keeps the ratio from being reached: then only a water change helps. */
  readonly isRatioReached: boolean;
}

/**
 * Salt whose chloride keeps nitrite out of the gills, up to the most salt the product ever proposes.
 *   m = V (r NO2 - Cl) 1.6485, NO2 as the ion
 * Nitrite of 0.1 mg/L N in 1 m³ without chloride: 5.41 g. Not with turtles, zeolite or plants that salt harms; the
 * caller sees to that. Salt helps the fish, it removes no nitrite.
 * @param pond.nitriteMgNPerL 0 to 50. [mg/L N]
 * @param pond.chlorideMgPerL Chloride already there, 0 to 5000. [mg/L]
 * @param pond.salinityGPerL Salt already there, 0 to 40. [g/L]
 * @param pond.chloridePerNitrite By weight, 1 to 100; 10 when left out. [-]
 * @see Ratio of 10 to 1: a catfish extension text (published source, quoted by a reprint); 6 to 1 from memory.
 */
export function saltAgainstNitrite(pond: {
  volumeL: number;
  nitriteMgNPerL: number;
  chlorideMgPerL: number;
  salinityGPerL: number;
  chloridePerNitrite?: number;
}): SaltAgainstNitrite {
  const { volumeL, chloridePerNitrite = CHLORIDE_PER_NITRITE } = pond;
  requireWithin('pond volume, L', volumeL, { min: 1, max: 10_000_000 });
  requireWithin('nitrite, mg/L N', pond.nitriteMgNPerL, { min: 0, max: 50 });
  requireWithin('chloride, mg/L', pond.chlorideMgPerL, { min: 0, max: 5000 });
  requireWithin('salinity, g/L', pond.salinityGPerL, { min: 0, max: 40 });
  requireWithin('chloride per nitrite', chloridePerNitrite, { min: 1, max: 100 });

  const nitriteMgPerL = mgPerLFromN({ mgNPerL: pond.nitriteMgNPerL, basis: 'no2' });
  const missingMgPerL = Math.max(0, chloridePerNitrite * nitriteMgPerL - pond.chlorideMgPerL);
  const saltForRatioG = (volumeL * missingMgPerL * SALT_PER_CHLORIDE) / 1000;
  const roomG = volumeL * Math.max(0, LARGEST_PROPOSED_SALINITY_G_PER_L - pond.salinityGPerL);
  return { saltG: Math.min(saltForRatioG, roomG), saltForRatioG, isRatioReached: saltForRatioG <= roomG };
}
