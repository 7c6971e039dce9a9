import { requireWithin } from '../errors.js';

/** Volumes an hour through the filters: koi, and a lightly stocked garden pond (common practice). [1/h] */
export const KOI_TURNOVER_PER_HOUR = 1;
export const GARDEN_TURNOVER_PER_HOUR = 0.5;

export interface Turnover {
  /** Volumes an hour through all circuits together. [1/h] */
  readonly perHour: number;
  readonly isMet: boolean;
  /** Flow a further circuit would have to add; 0 when met. [L/h] */
  readonly missingLPerH: number;
}

/**
 * Whether the filter circuits move the water often enough.
 * 4,000 L with one circuit of 3,600 L/h and one volume an hour: not met, 400 L/h missing; with a further 2,000: met.
 * @param pond.volumeL 1 to 10,000,000. [L]
 * @param pond.circuitFlowsLPerH Flow of each filter circuit as it runs, not as its plate says. [L/h]
 * @param pond.neededPerHour 0.1 to 4. [1/h]
 */
export function turnover(pond: {
  volumeL: number;
  circuitFlowsLPerH: readonly number[];
  neededPerHour: number;
}): Turnover {
  requireWithin('pond volume, L', pond.volumeL, { min: 1, max: 10_000_000 });
  requireWithin('turnover needed, volumes an hour', pond.neededPerHour, { min: 0.1, max: 4 });
  let flowLPerH = 0;
  for (const circuitLPerH of pond.circuitFlowsLPerH) {
    requireWithin('flow of a circuit, L/h', circuitLPerH, { min: 0, max: 1_000_000 });
    flowLPerH += circuitLPerH;
  }
  const missingLPerH = Math.max(0, pond.volumeL * pond.neededPerHour - flowLPerH);
  return { perHour: flowLPerH / pond.volumeL, isMet: missingLPerH === 0, missingLPerH };
}
