/**
 * Calcium carbonate in one German degree, which is 10 mg/L of CaO: 10 x 100.087 / 56.077. Derived from molar
 * masses; 17.8 to 17.9 in print. The same factor serves carbonate hardness (dKH) and total hardness (dGH).
 * [mg/L CaCO3]
 */
export const MG_CACO3_PER_L_PER_DKH = 17.848;

/** Alkalinity, or total hardness, in mg/L CaCO3 of a reading in German degrees. */
export function mgCaCO3PerLFromDkh(dkh: number): number {
  return dkh * MG_CACO3_PER_L_PER_DKH;
}

/** German degrees of an alkalinity, or total hardness, in mg/L CaCO3. */
export function dkhFromMgCaCO3PerL(mgCaCO3PerL: number): number {
  return mgCaCO3PerL / MG_CACO3_PER_L_PER_DKH;
}
