import { InvalidValueError, requireWithin } from '../errors.js';

export interface PumpPoint {
  readonly flowLPerH: number;
  readonly headM: number;
}

/** How a pump's head falls with its flow. */
export type PumpCurve =
  /** Read off the plate or measured, at least three, by rising flow. */
  | { readonly kind: 'points'; readonly points: readonly PumpPoint[] }
  /** Only the two ends are known: flow without any head, and the head at which nothing flows. */
  | { readonly kind: 'rated'; readonly freeFlowLPerH: number; readonly shutOffHeadM: number };

const FLOW_RANGE_L_PER_H = { min: 0, max: 1_000_000 } as const;
const HEAD_RANGE_M = { min: 0, max: 100 } as const;

/** Throws unless a curve can be one: flows rise, heads fall. */
export function requirePumpCurve(curve: PumpCurve): void {
  if (curve.kind === 'rated') {
    requireWithin('flow without head, L/h', curve.freeFlowLPerH, { min: 1, max: FLOW_RANGE_L_PER_H.max });
    requireWithin('head without flow, m', curve.shutOffHeadM, { min: 0.1, max: HEAD_RANGE_M.max });
    return;
  }
  if (curve.points.length < 3) {
    throw new InvalidValueError('pump curve', curve.points.length, 'Give at least three points of flow and head.');
  }
  for (const [i, point] of curve.points.entries()) {
    requireWithin('flow of a point, L/h', point.flowLPerH, FLOW_RANGE_L_PER_H);
    requireWithin('head of a point, m', point.headM, HEAD_RANGE_M);
    const before = curve.points[i - 1];
    if (before && (point.flowLPerH <= before.flowLPerH || point.headM >= before.headM)) {
      throw new InvalidValueError('pump curve', point, 'From point to point the flow must rise and the head fall.');
    }
  }
}

/**
 * Head of a pump at a flow. [m]
 *   rated: H0 (1 - (Q/Q0)²);  points: straight between neighbours
 * Outside its points a curve is not known: below the first its head, above the last 0.
 * @see The parabola through the two ends is common practice; real curves differ by up to a tenth in the middle.
 */
export function pumpHeadM(curve: PumpCurve, flowLPerH: number): number {
  requireWithin('flow, L/h', flowLPerH, FLOW_RANGE_L_PER_H);
  if (curve.kind === 'rated') return Math.max(0, curve.shutOffHeadM * (1 - (flowLPerH / curve.freeFlowLPerH) ** 2));
  const first = curve.points[0] as PumpPoint;
  if (flowLPerH <= first.flowLPerH) return first.headM;
  const at = curve.points.findIndex((point) => point.flowLPerH >= flowLPerH);
  if (at < 0) return 0;
  const [left, right] = [curve.points[at - 1] as PumpPoint, curve.points[at] as PumpPoint];
  const along = (flowLPerH - left.flowLPerH) / (right.flowLPerH - left.flowLPerH);
  return left.headM + along * (right.headM - left.headM);
}

/** The highest flow of which a curve says anything. [L/h] */
export function largestFlowLPerH(curve: PumpCurve): number {
  return curve.kind === 'rated' ? curve.freeFlowLPerH : (curve.points.at(-1) as PumpPoint).flowLPerH;
}

/**
 * A pump at another speed: flow with n, head with n², power with n³. Moves the pump's curve, not the working point.
 * 3500 to 1700 rpm: 400 gpm, 126 ft and 17.5 hp become 194.3, 29.7 and 2.01.
 * @param pump.speedShare New speed over old, 0.1 to 2. [-]
 * @see Affinity laws, worked as problem 7.33 of Crane's Technical Paper 410 (published source).
 */
export function atOtherSpeed(pump: { flowLPerH: number; headM: number; powerW: number; speedShare: number }): {
  flowLPerH: number;
  headM: number;
  powerW: number;
} {
  requireWithin('speed, share', pump.speedShare, { min: 0.1, max: 2 });
  requireWithin('flow, L/h', pump.flowLPerH, FLOW_RANGE_L_PER_H);
  requireWithin('head, m', pump.headM, HEAD_RANGE_M);
  requireWithin('power, W', pump.powerW, { min: 0, max: 50_000 });
  const { speedShare } = pump;
  return {
    flowLPerH: pump.flowLPerH * speedShare,
    headM: pump.headM * speedShare ** 2,
    powerW: pump.powerW * speedShare ** 3,
  };
}
