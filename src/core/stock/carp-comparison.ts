import { requireWithin } from '../errors.js';

/** The standard mass holds from here on; the longest carp in print is 120 cm. [cm] */
const STANDARD_RANGE_CM = { min: 20, max: 120 } as const;
/** Fork lengths that were weighed. [cm] */
const FORK_RANGE_CM = { min: 10, max: 69 } as const;

/**
 * Mass a carp in good condition has at its length: the 75th percentile of North American waters. [g]
 *   log10 W = -4.639 + 2.920 log10(10 L)
 * 40 cm: 910 g. Plump garden koi lie above it; it is a yardstick, not the mass of the stock.
 * @param fish.lengthCm Total length, 20 to 120. [cm]
 * @see Bister et al. (2000), read in the data of the fishR project (published source).
 */
export function carpStandardMassG(fish: { lengthCm: number }): number {
  requireWithin('length of carp, cm', fish.lengthCm, STANDARD_RANGE_CM);
  return 10 ** (-4.639 + 2.92 * Math.log10(10 * fish.lengthCm));
}

/**
 * Relative mass of a weighed carp or koi: 1 is the standard, below 0.8 is thin. [-]
 * @param fish.massG As weighed, 1 to 50,000. [g]
 * @see Bister et al. (2000) for the standard; the bound common practice.
 */
export function relativeMassShare(fish: { lengthCm: number; massG: number }): number {
  requireWithin('mass of the fish, g', fish.massG, { min: 1, max: 50_000 });
  return fish.massG / carpStandardMassG(fish);
}

/**
 * Mass of a carp from its fork length, by another lake than the koi formula's. [g]
 *   W = 0.0245 FL^2.952
 * Ten observed carp of 10 to 69 cm lie within 11 % of it. For comparison only: stocks are measured by total length.
 * @see Balik et al. (2006), Lake Karamik, quoted in the AmP collection's entry (published source).
 */
export function carpMassByForkLengthG(fish: { forkLengthCm: number }): number {
  requireWithin('fork length of carp, cm', fish.forkLengthCm, FORK_RANGE_CM);
  return 0.0245 * fish.forkLengthCm ** 2.952;
}
