import { airPumpStandardGPerH, UNKNOWN_BUBBLES_PCT_PER_M } from '../water/aeration.js';
import type { PondFacts } from './pond-facts.js';

/** What the model of aeration takes; more on a record counts as this. */
const DIFFUSER_DEPTH_M = { min: 0.05, max: 10 } as const;
const MOST_AIR_L_PER_MIN = 10_000;

/**
 * Standard transfer of all aerators of a pond: their rated flow is air, their stones are taken to lie at the mean
 * depth, and one without figures counts as nothing. [g/h]
 * @see `airPumpStandardGPerH`; what is taken for granted is common practice.
 */
export function aeratorsStandardGPerH(pond: Pick<PondFacts, 'equipment' | 'meanDepthM'>): number {
  const airLPerH = pond.equipment
    .filter(({ kind }) => kind === 'aerator')
    .reduce((sum, { rated }) => sum + (rated.flowLPerH ?? 0), 0);
  return airPumpStandardGPerH({
    airLPerMin: Math.min(airLPerH / 60, MOST_AIR_L_PER_MIN),
    depthM: Math.min(Math.max(pond.meanDepthM, DIFFUSER_DEPTH_M.min), DIFFUSER_DEPTH_M.max),
    efficiencyPctPerM: UNKNOWN_BUBBLES_PCT_PER_M,
  });
}
