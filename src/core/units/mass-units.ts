/** Exact by the international yard and pound agreement of 1959. [g] */
export const G_PER_LB = 453.59237;
export const G_PER_OZ = 28.349523125;

export function gramsFromLb(massLb: number): number {
  return massLb * G_PER_LB;
}

export function lbFromG(massG: number): number {
  return massG / G_PER_LB;
}

export function gramsFromOz(massOz: number): number {
  return massOz * G_PER_OZ;
}

export function ozFromG(massG: number): number {
  return massG / G_PER_OZ;
}
