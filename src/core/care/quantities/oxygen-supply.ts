import { OXYGEN_JUDGED_AT_C } from '../../stock/stock-judgement.js';
import { aeratorExchange, surfaceExchange } from '../../water/aeration.js';
import { aeratorsStandardGPerH } from '../pond-aerators.js';
import type { PondFacts } from '../pond-facts.js';

/** Oxygen the pond is to keep while it is judged. [mg/L] */
const KEPT_MG_PER_L = 5;
/** A pond in a garden lies between calm and breezy (from memory). [m/day] */
const SURFACE_VELOCITY_M_PER_DAY = 0.6;
/** What the models of aeration and saturation take; more on a record counts as this. */
const HIGHEST_M = 5400;
const MOST_SURFACE_M2 = 1_000_000;

export interface OxygenSupply {
  readonly gPerH: number;
  /** Whether more comes in by ways nobody measured: a waterfall, the return of a pump, an aerator without figures. */
  readonly isAtLeast: boolean;
}

/**
 * Oxygen the surface and the aerators of a pond bring in at 30 °C while the water keeps 5 mg/L. The rated flow of an
 * aerator is air; its stones are taken to lie at the mean depth.
 */
export function oxygenSupply(
  pond: Pick<PondFacts, 'equipment' | 'surfaceAreaM2' | 'meanDepthM' | 'elevationM' | 'waterfall'>,
): OxygenSupply {
  const water = { temperatureC: OXYGEN_JUDGED_AT_C, elevationM: Math.min(pond.elevationM, HIGHEST_M) };
  const aerators = pond.equipment.filter(({ kind }) => kind === 'aerator');
  const standardGPerH = aeratorsStandardGPerH(pond);
  const ways = [
    surfaceExchange({
      ...water,
      surfaceAreaM2: Math.min(pond.surfaceAreaM2, MOST_SURFACE_M2),
      transferVelocityMPerDay: SURFACE_VELOCITY_M_PER_DAY,
    }),
    aeratorExchange({ ...water, standardGPerH }),
  ];
  return {
    gPerH: ways.reduce((sum, way) => sum + way.perDeficitM3PerH * Math.max(0, way.towardsMgPerL - KEPT_MG_PER_L), 0),
    isAtLeast:
      pond.waterfall ||
      pond.equipment.some(({ kind }) => kind === 'pump') ||
      aerators.some(({ rated }) => rated.flowLPerH === undefined),
  };
}
