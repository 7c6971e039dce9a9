import { requireWithin } from '../errors.js';

/** `transitional` flow has no settled law: the factor is a bridge between both and may be off by a third. */
export type FlowRegime = 'still' | 'laminar' | 'transitional' | 'turbulent';

export interface FrictionFactor {
  /** Of Darcy, four times Fanning's. [-] */
  readonly factor: number;
  readonly regime: FlowRegime;
}

const LAMINAR_BELOW = 2000;
const TURBULENT_FROM = 4000;
const REYNOLDS_RANGE = { min: 0, max: 1e8 } as const;
const ROUGHNESS_RANGE = { min: 0, max: 0.05 } as const;

/**
 * Friction factor of Darcy and Weisbach for a full round pipe.
 *   Re < 2000: 64 / Re;  Re >= 4000: Colebrook & White;  between: straight from one to the other, and marked so
 * @param pipe.reynolds 0 to 1e8. [-]
 * @param pipe.roughnessRatio Height of the roughness over the inside diameter, 0 to 0.05. [-]
 * @see Poiseuille's law; Colebrook (1939), J. Inst. Civil Eng. 11, 133-156 (published source).
 */
export function frictionFactor(pipe: { reynolds: number; roughnessRatio: number }): FrictionFactor {
  const { reynolds, roughnessRatio } = pipe;
  requireWithin('Reynolds number', reynolds, REYNOLDS_RANGE);
  requireWithin('roughness over diameter', roughnessRatio, ROUGHNESS_RANGE);
  if (reynolds === 0) return { factor: 0, regime: 'still' };
  if (reynolds < LAMINAR_BELOW) return { factor: 64 / reynolds, regime: 'laminar' };
  if (reynolds >= TURBULENT_FROM) return { factor: colebrook(reynolds, roughnessRatio), regime: 'turbulent' };
  const laminar = 64 / LAMINAR_BELOW;
  const turbulent = colebrook(TURBULENT_FROM, roughnessRatio);
  const along = (reynolds - LAMINAR_BELOW) / (TURBULENT_FROM - LAMINAR_BELOW);
  return { factor: laminar + along * (turbulent - laminar), regime: 'transitional' };
}

/** 1/sqrt(f) = -2 log10(r/3.7 + 2.51/(Re sqrt(f))), solved by Newton's method from a close first guess. */
function colebrook(reynolds: number, roughnessRatio: number): number {
  const rough = roughnessRatio / 3.7;
  const smooth = 2.51 / reynolds;
  let inverseRoot = -2 * Math.log10(rough + 5.74 / reynolds ** 0.9);
  for (let step = 0; step < 20; step++) {
    const inside = rough + smooth * inverseRoot;
    const off = inverseRoot + 2 * Math.log10(inside);
    const next = inverseRoot - off / (1 + (2 * smooth) / (Math.LN10 * inside));
    const moved = Math.abs(next - inverseRoot);
    inverseRoot = next;
    if (moved < 1e-13 * inverseRoot) break;
  }
  return 1 / inverseRoot ** 2;
}

/**
 * Friction factor of turbulent flow in one step, for comparison with Colebrook (within 1 % in its range).
 *   0.25 / log10(r/3.7 + 5.74/Re^0.9)²
 * @param pipe.reynolds 5,000 to 1e8. [-]
 * @param pipe.roughnessRatio 1e-6 to 0.05. [-]
 * @see Swamee & Jain (1976), J. Hydraulics Div. ASCE 102(5), 657-664 (published source).
 */
export function swameeJainFactor(pipe: { reynolds: number; roughnessRatio: number }): number {
  requireWithin('Reynolds number', pipe.reynolds, { min: 5000, max: 1e8 });
  requireWithin('roughness over diameter', pipe.roughnessRatio, { min: 1e-6, max: 0.05 });
  return 0.25 / Math.log10(pipe.roughnessRatio / 3.7 + 5.74 / pipe.reynolds ** 0.9) ** 2;
}
