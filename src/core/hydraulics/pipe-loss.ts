import { requireWithin } from '../errors.js';
import { equivalentLengthM, type Fitting, OUTLET_K } from './fittings.js';
import { type FlowRegime, frictionFactor } from './friction-factor.js';
import { GRAVITY_M_PER_S2, waterViscosityM2PerS } from './water-viscosity.js';

/** Height of the roughness: smooth plastic (from memory), and hose with ribs inside (common practice, 0.3 to 1). [mm] */
export const ROUGHNESS_MM = { 'smooth-plastic': 0.0015, 'ribbed-hose': 0.5 } as const;
export type PipeWall = keyof typeof ROUGHNESS_MM;

/** Ponds are reckoned at this temperature unless told otherwise; 10 °C colder takes 3 to 6 % more head. [°C] */
const USUAL_WATER_C = 15;
/** Above this, water hammers and wears (common practice; deliver at no more than 1.8). [m/s] */
export const FASTEST_DELIVERY_M_PER_S = 2.4;
export const GOOD_DELIVERY_M_PER_S = 1.8;

/** One run of pipe or hose of one diameter. */
export interface PipeRun {
  readonly lengthM: number;
  readonly insideDiameterMm: number;
  readonly wall: PipeWall;
  readonly fittings: readonly Fitting[];
}

export interface PipeLoss {
  readonly headM: number;
  readonly velocityMPerS: number;
  readonly reynolds: number;
  readonly frictionFactor: number;
  readonly regime: FlowRegime;
}

/** Mean velocity in a full pipe: Q / (pi d² / 4). [m/s] */
export function pipeVelocityMPerS(pipe: { flowLPerH: number; insideDiameterMm: number }): number {
  requireWithin('flow, L/h', pipe.flowLPerH, { min: 0, max: 1_000_000 });
  requireWithin('inside diameter, mm', pipe.insideDiameterMm, { min: 10, max: 300 });
  return pipe.flowLPerH / 3.6e6 / ((Math.PI * (pipe.insideDiameterMm / 1000) ** 2) / 4);
}

/**
 * Head lost in a run of pipe with its fittings and its outlet.
 *   h = (f (L + Leq)/d + K) v²/2g
 * @param pipe.flowLPerH 0 to 1,000,000. [L/h]
 * @param pipe.run Length 0 to 1000 m, inside diameter 10 to 300 mm.
 * @param pipe.outletK 1 when left out: the pipe ends in the open. 0 for a run that goes on in another. [-]
 * @param pipe.waterTemperatureC 0 to 40, 15 when left out. [°C]
 * @see Darcy-Weisbach with `frictionFactor`; fittings as equivalent lengths (see there).
 */
export function pipeLoss(pipe: {
  flowLPerH: number;
  run: PipeRun;
  outletK?: number;
  waterTemperatureC?: number;
}): PipeLoss {
  const { run, outletK = OUTLET_K } = pipe;
  const diameterM = run.insideDiameterMm / 1000;
  requireWithin('pipe length, m', run.lengthM, { min: 0, max: 1000 });
  requireWithin('outlet loss, velocity heads', outletK, { min: 0, max: 10 });
  const velocityMPerS = pipeVelocityMPerS({ flowLPerH: pipe.flowLPerH, insideDiameterMm: run.insideDiameterMm });
  const viscosity = waterViscosityM2PerS({ temperatureC: pipe.waterTemperatureC ?? USUAL_WATER_C });
  const reynolds = (velocityMPerS * diameterM) / viscosity;
  const { factor, regime } = frictionFactor({
    reynolds,
    roughnessRatio: ROUGHNESS_MM[run.wall] / run.insideDiameterMm,
  });
  const lengthM = run.lengthM + equivalentLengthM(run);
  const headM = (factor * (lengthM / diameterM) + outletK) * (velocityMPerS ** 2 / (2 * GRAVITY_M_PER_S2));
  return { headM, velocityMPerS, reynolds, frictionFactor: factor, regime };
}
