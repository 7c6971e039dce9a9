/** Exact by the international yard and pound agreement of 1959. [m, cm, m²] */
export const M_PER_FT = 0.3048;
export const CM_PER_IN = 2.54;
const M2_PER_FT2 = M_PER_FT * M_PER_FT;

export function metresFromFt(lengthFt: number): number {
  return lengthFt * M_PER_FT;
}

export function ftFromM(lengthM: number): number {
  return lengthM / M_PER_FT;
}

export function cmFromIn(lengthIn: number): number {
  return lengthIn * CM_PER_IN;
}

export function inFromCm(lengthCm: number): number {
  return lengthCm / CM_PER_IN;
}

export function squareMetresFromFt2(areaFt2: number): number {
  return areaFt2 * M2_PER_FT2;
}

export function ft2FromSquareMetres(areaM2: number): number {
  return areaM2 / M2_PER_FT2;
}
