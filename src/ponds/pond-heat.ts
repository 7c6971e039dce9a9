import { pumpFlows } from '../core/hydraulics/pump-line.js';
import { shadeShareFrom, windOverPond } from '../core/thermal/shade.js';
import type { PondHeat } from '../core/thermal/water-forecast.js';
import type { PondRecord } from './pond-record.js';

/** A waterfall whose pump is not known is taken to move the pond once in two hours (common practice). [1/h] */
const USUAL_FALLS_TURNOVER_PER_H = 0.5;
const LARGEST_FALLS_L_PER_H = 500_000;

/** What the water forecast needs to know of a pond: its form, and what its surroundings keep off. */
export function pondHeat({ pond, equipment }: PondRecord): PondHeat {
  return {
    latitude: pond.latitude,
    elevationM: pond.elevationM,
    surfaceAreaM2: pond.surfaceAreaM2,
    meanDepthM: pond.meanDepthM,
    shadeShare: shadeShareFrom({ directSunHours: pond.directSunHours, latitude: pond.latitude }),
    windAt2mMPerS: windOverPond({ shelter: pond.windShelter }),
    waterfallFlowLPerH: pond.waterfall ? fallsFlowLPerH(pond.volumeL, equipment) : 0,
  };
}

/** The strongest pump feeds the falls. */
function fallsFlowLPerH(volumeL: number, equipment: PondRecord['equipment']): number {
  const flows = pumpFlows(equipment).map((pump) => pump.flowLPerH);
  const flowLPerH = flows.length > 0 ? Math.max(...flows) : volumeL * USUAL_FALLS_TURNOVER_PER_H;
  return Math.min(flowLPerH, LARGEST_FALLS_L_PER_H);
}
