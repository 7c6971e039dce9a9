import { requireWithin } from '../errors.js';
import { pipeVelocityMPerS } from './pipe-loss.js';

/** New smooth plastic (published tables use 145 and 150), and pond lines with slime (common practice, 120 to 130). [-] */
export const HAZEN_WILLIAMS_C = { 'smooth-plastic': 150, 'slimed-plastic': 125 } as const;

/** The formula is empirical: water near 15 °C, more than 15 mm wide, turbulent and below 3 m/s. */
const FASTEST_M_PER_S = 3;

export interface HazenWilliamsLoss {
  readonly headM: number;
  readonly velocityMPerS: number;
  /** False above 3 m/s, for which it was not made; the head is then a guide at best. */
  readonly isInRange: boolean;
}

/**
 * Head lost to friction by Hazen and Williams, to compare with Darcy-Weisbach.
 *   h = 10.67 L Q^1.852 / (C^1.852 d^4.8704)        Q in m³/s, d in m
 * 5 m³/h through 10 m of 40.9 mm at C 150: 0.294 m.
 * @param pipe.insideDiameterMm 15 to 300. [mm]
 * @param pipe.c 60 to 160, 150 when left out. [-]
 * @see Hazen & Williams in SI (from memory; agrees with published tables to 3 %).
 */
export function hazenWilliamsLoss(pipe: {
  flowLPerH: number;
  lengthM: number;
  insideDiameterMm: number;
  c?: number;
}): HazenWilliamsLoss {
  const { lengthM, insideDiameterMm, c = HAZEN_WILLIAMS_C['smooth-plastic'] } = pipe;
  requireWithin('pipe length, m', lengthM, { min: 0, max: 1000 });
  requireWithin('inside diameter, mm', insideDiameterMm, { min: 15, max: 300 });
  requireWithin('Hazen-Williams C', c, { min: 60, max: 160 });
  const velocityMPerS = pipeVelocityMPerS(pipe);
  const flowM3PerS = pipe.flowLPerH / 3.6e6;
  const headM = (10.67 * lengthM * flowM3PerS ** 1.852) / (c ** 1.852 * (insideDiameterMm / 1000) ** 4.8704);
  return { headM, velocityMPerS, isInRange: velocityMPerS <= FASTEST_M_PER_S };
}
