/**
 * Mass of each species that carries one unit of nitrogen: ratio of molar masses to 14.0067. Derived.
 * A test kit may report any of them; stored is always "as N". [-]
 */
const MASS_PER_N = { nh3: 1.2159, nh4: 1.2879, no2: 3.2844, no3: 4.4268 } as const;

/** A form in which a kit may report nitrogen. `n` means the kit already reports "as N". */
export type NitrogenBasis = 'n' | 'nh3' | 'nh4' | 'no2' | 'no3';

/** Concentration as N of a concentration reported as one of the species. [mg/L N] */
export function mgNPerLFrom(reported: { mgPerL: number; basis: NitrogenBasis }): number {
  return reported.basis === 'n' ? reported.mgPerL : reported.mgPerL / MASS_PER_N[reported.basis];
}

/** A stored concentration as N, in the form a kit or a label speaks of. [mg/L of that form] */
export function mgPerLFromN(stored: { mgNPerL: number; basis: NitrogenBasis }): number {
  return stored.basis === 'n' ? stored.mgNPerL : stored.mgNPerL * MASS_PER_N[stored.basis];
}
