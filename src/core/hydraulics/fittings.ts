import { InvalidValueError, requireWithin } from '../errors.js';

/** Kinds of fitting, make-neutral. */
export type FittingKind = 'elbow-90' | 'elbow-45' | 'tee-branch' | 'tee-run' | 'ball-valve' | 'swing-check';

/**
 * Length of straight pipe, in inside diameters, that takes as much head as the fitting. Elbows and branch: published
 * source (a table of screwed fittings); the others from memory of the tradition of Crane's Technical Paper 410.
 * Sources differ by a factor of two: a total head is never better than 0.1 m.
 */
const EQUIVALENT_DIAMETERS: Readonly<Record<FittingKind, number>> = {
  'elbow-90': 30,
  'elbow-45': 14,
  'tee-branch': 60,
  'tee-run': 20,
  'ball-valve': 8,
  'swing-check': 100,
};

/** Velocity heads lost where a pipe ends in open water or air: all of it. [-] */
export const OUTLET_K = 1;
/** Velocity heads lost at a square-edged inlet, for a pump that stands dry (from memory of Crane 410). [-] */
export const INLET_K = 0.5;

export interface Fitting {
  readonly kind: FittingKind;
  readonly count: number;
}

/** Length of straight pipe with the loss of these fittings. [m] Inside diameter 10 to 300 mm, up to 100 of a kind. */
export function equivalentLengthM(line: { insideDiameterMm: number; fittings: readonly Fitting[] }): number {
  requireWithin('inside diameter, mm', line.insideDiameterMm, { min: 10, max: 300 });
  let diameters = 0;
  for (const { kind, count } of line.fittings) {
    const each = EQUIVALENT_DIAMETERS[kind];
    if (each === undefined) {
      throw new InvalidValueError('fitting', kind, `Use one of: ${Object.keys(EQUIVALENT_DIAMETERS).join(', ')}.`);
    }
    requireWithin(`fittings, ${kind}`, count, { min: 0, max: 100 });
    diameters += each * count;
  }
  return (diameters * line.insideDiameterMm) / 1000;
}

/** Velocity heads lost in a fitting: K = n f. [-] */
export function fittingK(fitting: { kind: FittingKind; frictionFactor: number }): number {
  requireWithin('friction factor', fitting.frictionFactor, { min: 0.005, max: 0.2 });
  return EQUIVALENT_DIAMETERS[fitting.kind] * fitting.frictionFactor;
}
