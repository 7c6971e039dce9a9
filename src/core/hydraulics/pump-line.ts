import { requireWithin } from '../errors.js';
import type { Fitting } from './fittings.js';
import { FASTEST_DELIVERY_M_PER_S, type PipeWall, pipeLoss } from './pipe-loss.js';
import type { PumpCurve } from './pump-curve.js';
import { type WorkingPoint, workingPoint } from './working-point.js';

/** What a pump pumps through, as the office types it. */
export interface PumpLine {
  /** From the open water to the crest or outlet the water leaves by; not from the pump. */
  readonly liftM: number;
  readonly lengthM: number;
  readonly insideDiameterMm: number;
  readonly wall: PipeWall;
  /** Right-angle bends. */
  readonly elbows: number;
  readonly checkValves?: number;
  /** Taken by a pressure filter and a UV lamp at the working flow; 0 when not known. */
  readonly filterHeadM?: number;
}

/** The figures of a pump's plate of which the working point needs two. */
export interface PumpPlate {
  readonly flowLPerH?: number;
  /** Head at which nothing flows any more. */
  readonly maxHeadM?: number;
}

export interface CircuitFlow {
  readonly flowLPerH: number;
  /** `rated`: lift or line are not known, so the plate has to do; a real circuit moves less. */
  readonly basis: 'working-point' | 'rated';
  /** Null for the plate. */
  readonly point: (WorkingPoint & { readonly velocityMPerS: number; readonly isFast: boolean }) | null;
}

/** The circuits of a register: the flow of each pump of which it is known. */
export function pumpFlows(
  machines: readonly { readonly kind: string; readonly rated: PumpPlate & { readonly line?: PumpLine } }[],
): readonly CircuitFlow[] {
  return machines.flatMap(({ kind, rated }) => {
    const flow = kind === 'pump' ? circuitFlow(rated, rated.line) : null;
    return flow ? [flow] : [];
  });
}

/** Head a line takes at a flow: lift, filter, pipe, bends and the velocity lost at the outlet. [m] */
export function lineHeadM(line: PumpLine, flowLPerH: number): number {
  requireWithin('lift, m', line.liftM, { min: 0, max: 30 });
  const { filterHeadM = 0 } = line;
  requireWithin('head taken by the filter, m', filterHeadM, { min: 0, max: 30 });
  return line.liftM + filterHeadM + pipeLoss({ flowLPerH, run: runOf(line) }).headM;
}

/**
 * Flow of a circuit as it runs: the working point where plate and line are known, else what the plate says. [L/h]
 * Null where not even the rated flow is known.
 * @see `workingPoint`; the pump's curve is the parabola through its two rated ends (common practice).
 */
export function circuitFlow(plate: PumpPlate, line: PumpLine | undefined): CircuitFlow | null {
  const { flowLPerH, maxHeadM } = plate;
  if (flowLPerH === undefined) return null;
  if (maxHeadM === undefined || line === undefined) return { flowLPerH, basis: 'rated', point: null };
  const curve: PumpCurve = { kind: 'rated', freeFlowLPerH: flowLPerH, shutOffHeadM: maxHeadM };
  const point = workingPoint(curve, { headM: (flow) => lineHeadM(line, flow) });
  const { velocityMPerS } = pipeLoss({ flowLPerH: point.flowLPerH, run: runOf(line) });
  return {
    flowLPerH: point.flowLPerH,
    basis: 'working-point',
    point: { ...point, velocityMPerS, isFast: velocityMPerS > FASTEST_DELIVERY_M_PER_S },
  };
}

function runOf(line: PumpLine) {
  const fittings: readonly Fitting[] = [
    { kind: 'elbow-90', count: line.elbows },
    { kind: 'swing-check', count: line.checkValves ?? 0 },
  ];
  return { lengthM: line.lengthM, insideDiameterMm: line.insideDiameterMm, wall: line.wall, fittings };
}
