import { daylightHours } from '../climate/fao56.js';
import { oxygenDemand } from '../stock/oxygen-demand.js';
import { type CivilDay, dayOfYear } from '../units/civil-day.js';
import { CALM_TRANSFER_VELOCITY_M_PER_DAY } from '../water/aeration.js';
import {
  type DawnOxygen,
  type DawnOxygenRange,
  dawnOxygen,
  dawnOxygenRange,
  hoursUntilOxygen,
  type NightPond,
} from '../water/dawn-oxygen.js';
import {
  type BottomLook,
  bottomLookOf,
  nitrificationOxygenGPerDay,
  type WaterLook,
  waterLookOf,
} from '../water/pond-respiration.js';
import { lastReading } from './history-index.js';
import { livingStock } from './living-stock.js';
import { ammoniaLoadOn } from './loads/ammonia-load.js';
import type { PlanningContext } from './planning-context.js';
import { aeratorsStandardGPerH } from './pond-aerators.js';

/** What the models of aeration and saturation take; more on a record counts as this. */
const WATER_RANGE_C = { min: 0, max: 40 } as const;
const ELEVATION_RANGE_M = { min: -500, max: 5400 } as const;
const NIGHT_RANGE_H = { min: 0.5, max: 24 } as const;
/** Ice over more than half of the traces closes the surface. [-] */
const ICED_SHARE = 0.5;
/** A look at the water holds for a month, sludge for a year (common practice). [days] */
const CLARITY_HOLDS_DAYS = 30;
const SLUDGE_HOLDS_DAYS = 366;
/** Oxygen at which fish are in danger when the power fails (common practice). [mg/L] */
const EMERGENCY_MG_PER_L = 4;

export interface DawnForecast {
  readonly dawn: DawnOxygen;
  readonly range: DawnOxygenRange;
  /** From dusk until 4 mg/L with every machine stopped; null where the pond lasts. [h] */
  readonly hoursWithoutPower: number | null;
  /** More comes in by a fall, a pump's return or an aerator without figures than is counted here. */
  readonly isAtLeast: boolean;
}

/**
 * Oxygen to expect at the dawn that ends a day's night, from the record of the pond and the median forecast; null without
 * fish. Clarity and sludge are those last read; without a reading a running lamp stands for clear water, else it counts as
 * tinted, and some sludge lies on the bottom. The night is calm, dusk is full of oxygen, a waterfall is not counted.
 * @see `dawnOxygen`; what is taken for granted is common practice.
 */
export function dawnForecast(plan: PlanningContext, day: CivilDay): DawnForecast | null {
  const { pond } = plan;
  if (!livingStock(pond).some(({ species, count }) => species !== 'slider-turtle' && count > 0)) return null;
  const night = nightPond(plan, day);
  // A filter without flow takes nothing from the pond.
  const stopped = { ...night, aeratorStandardGPerH: 0, filterGPerH: 0, limitMgPerL: EMERGENCY_MG_PER_L };
  return {
    dawn: dawnOxygen(night),
    range: dawnOxygenRange(night),
    hoursWithoutPower: hoursUntilOxygen(stopped),
    isAtLeast:
      pond.waterfall ||
      pond.equipment.some(
        ({ kind, rated }) => kind === 'pump' || (kind === 'aerator' && rated.flowLPerH === undefined),
      ),
  };
}

function nightPond(plan: PlanningContext, day: CivilDay): NightPond {
  const { pond, outlook } = plan;
  const temperatureC = within(outlook.medianC(day), WATER_RANGE_C);
  return {
    ...usesOf(plan, day, temperatureC),
    volumeL: pond.volumeL,
    surfaceAreaM2: pond.surfaceAreaM2,
    temperatureC,
    elevationM: within(pond.elevationM, ELEVATION_RANGE_M),
    nightH: within(24 - daylightHours({ latitude: pond.latitude, dayOfYear: dayOfYear(day) }), NIGHT_RANGE_H),
    waterLook: waterLookOn(plan, day),
    bottomLook: bottomLookOn(plan),
    aeratorStandardGPerH: aeratorsStandardGPerH(pond),
    waterfall: null,
    transferVelocityMPerDay: outlook.iceShare(day) > ICED_SHARE ? 0 : CALM_TRANSFER_VELOCITY_M_PER_DAY,
  };
}

function waterLookOn({ pond, loads, history, today }: PlanningContext, day: CivilDay): WaterLook {
  const clarity = lastReading(history, 'clarity', today);
  if (clarity && today - clarity.on <= CLARITY_HOLDS_DAYS) return waterLookOf({ discDepthCm: clarity.value });
  const hasLamp = pond.equipment.some(({ kind }) => kind === 'uv-lamp');
  return hasLamp && loads.lampIsOn(day) ? 'clear' : 'tinted';
}

function bottomLookOn({ history, today }: PlanningContext): BottomLook {
  const sludge = lastReading(history, 'sludge-depth', today);
  if (sludge && today - sludge.on <= SLUDGE_HOLDS_DAYS) return bottomLookOf({ sludgeDepthMm: sludge.value });
  return 'some-sludge';
}

/** Fish by themselves, and what filter bacteria use beside them; by the feed where that is more in all. */
function usesOf(
  plan: PlanningContext,
  day: CivilDay,
  waterTemperatureC: number,
): Pick<NightPond, 'fishGPerH' | 'filterGPerH'> {
  const stock = livingStock(plan.pond);
  const { feedGPerDay } = plan.loads.feedOn(day);
  const fishGPerH = oxygenDemand({ stock, waterTemperatureC, feedGPerDay: 0 }).demandGPerH;
  const byFeedGPerH = oxygenDemand({ stock, waterTemperatureC, feedGPerDay }).demandGPerH - fishGPerH;
  const byLoadGPerH = nitrificationOxygenGPerDay({ ammoniaLoadGNPerDay: ammoniaLoadOn(plan, day) }) / 24;
  return { fishGPerH, filterGPerH: Math.max(byFeedGPerH, byLoadGPerH) };
}

function within(value: number, { min, max }: { readonly min: number; readonly max: number }): number {
  return Math.min(Math.max(value, min), max);
}
