import { InvalidValueError, requireWithin } from '../errors.js';
import { largestFlowLPerH, type PumpCurve, pumpHeadM, requirePumpCurve } from './pump-curve.js';

export interface WorkingPoint {
  readonly flowLPerH: number;
  readonly headM: number;
  /**
   * `no-flow`: the pump does not reach the lift. `beyond-curve`: at the last point of its curve it still has head to
   * spare; the flow is at least this. `before-curve`: the first point is already too much; the flow is at most this.
   */
  readonly state: 'works' | 'no-flow' | 'beyond-curve' | 'before-curve';
}

/** Halvings of the interval: to a millionth of the flow and further. */
const HALVINGS = 60;

/**
 * Where a pump and its line agree: pump head equals lift plus losses.
 * Found by bisection; a pump's head only falls with flow and a line's only rises, so there is at most one such point.
 * 5 m and 10 m³/h at the ends of a parabola against 1.5 m of lift and 11.7 m of 40.9 mm pipe: 7.46 m³/h at 2.22 m.
 * @param line.headM Head the line takes at a flow; never falls with it. [m]
 */
export function workingPoint(curve: PumpCurve, line: { headM(flowLPerH: number): number }): WorkingPoint {
  requirePumpCurve(curve);
  const leastLPerH = curve.kind === 'rated' ? 0 : (curve.points[0]?.flowLPerH ?? 0);
  const mostLPerH = largestFlowLPerH(curve);
  const spare = (flowLPerH: number) => pumpHeadM(curve, flowLPerH) - lineHead(line, flowLPerH);

  if (spare(leastLPerH) <= 0) {
    // What the pump does below its first point nobody has measured.
    const state = leastLPerH === 0 ? 'no-flow' : 'before-curve';
    return { flowLPerH: leastLPerH, headM: pumpHeadM(curve, leastLPerH), state };
  }
  if (spare(mostLPerH) > 0) {
    return { flowLPerH: mostLPerH, headM: pumpHeadM(curve, mostLPerH), state: 'beyond-curve' };
  }
  let low = leastLPerH;
  let high = mostLPerH;
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (low + high) / 2;
    if (spare(middle) > 0) low = middle;
    else high = middle;
  }
  const flowLPerH = (low + high) / 2;
  return { flowLPerH, headM: pumpHeadM(curve, flowLPerH), state: 'works' };
}

function lineHead(line: { headM(flowLPerH: number): number }, flowLPerH: number): number {
  const headM = line.headM(flowLPerH);
  if (!Number.isFinite(headM)) throw new InvalidValueError('head of the line', headM, 'The line must answer a number.');
  requireWithin('head of the line, m', headM, { min: 0, max: 1e9 });
  return headM;
}
