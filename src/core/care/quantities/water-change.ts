import { annualMean, ofMonth } from '../../climate/twelve-months.js';
import { doseVolumeL } from '../../hydraulics/dose-volume.js';
import { monthOf } from '../../units/civil-day.js';
import { nitrateProductionMgNPerLDay } from '../../water/nitrate.js';
import { type WaterChange, waterChangeFor } from '../../water/water-change.js';
import type { Quantity } from '../care-plan.js';
import { meanAmmoniaLoadBefore } from '../loads/ammonia-load.js';
import { stockingLevel } from '../stocking-level.js';
import { measured, parameterOr, pondBasis, type QuantityContext } from './quantity-context.js';

/** Rhythm of the change by stock (common practice). [days] */
const INTERVAL_DAYS = { heavy: 7, light: 30 } as const;
/** Nitrate of a tap nobody measured (common practice). [mg/L N] */
const DEFAULT_SOURCE_NITRATE_MG_N_PER_L = 2;
/** Mains lie in the ground: they follow the air by half of its swing about the year's mean (common practice). [-] */
const MAINS_SWING_SHARE = 0.5;
const SOURCE_RANGE_C = { min: 3, max: 32 } as const;
const WATER_RANGE_C = { min: -1, max: 45 } as const;

export interface SizedChange extends WaterChange {
  readonly volumeL: number;
  readonly changeL: number;
  readonly sourceTemperatureC: number;
}

/** The regular part change on the day: customary share, nitrate balance, temperature step and the cap of a quarter. */
export function sizedChange(context: QuantityContext): SizedChange {
  const { plan, day } = context;
  const { pond } = plan;
  const stocking = stockingLevel(pond);
  const intervalDays = parameterOr(context, 'intervalDays', INTERVAL_DAYS[stocking]);
  const sourceTemperatureC = mainsTemperatureC(context);
  const change = waterChangeFor({
    productionMgNPerLDay: nitrateProductionMgNPerLDay({
      ammoniaLoadGNPerDay: meanAmmoniaLoadBefore(plan, day, Math.round(intervalDays)),
      volumeL: pond.volumeL,
    }),
    sourceNitrateMgNPerL: parameterOr(context, 'sourceNitrateMgNPerL', DEFAULT_SOURCE_NITRATE_MG_N_PER_L),
    intervalDays,
    heavyStock: stocking === 'heavy',
    pondTemperatureC: Math.min(Math.max(plan.outlook.medianC(day), WATER_RANGE_C.min), WATER_RANGE_C.max),
    sourceTemperatureC,
  });
  const volumeL = doseVolumeL({ ...pond, purpose: 'correction' });
  return { ...change, volumeL, changeL: change.changeShare * volumeL, sourceTemperatureC };
}

function mainsTemperatureC({ plan, day }: QuantityContext): number {
  const { meanC } = plan.input.climate;
  const yearC = annualMean(meanC);
  const nowC = yearC + MAINS_SWING_SHARE * (ofMonth(meanC, monthOf(day) - 1) - yearC);
  return Math.min(Math.max(nowC, SOURCE_RANGE_C.min), SOURCE_RANGE_C.max);
}

/** Litres to exchange. */
export function waterChange(context: QuantityContext): readonly Quantity[] {
  const change = sizedChange(context);
  return [
    measured({
      recipe: 'water-change',
      of: 'new-water',
      unit: 'L',
      per: 'once',
      side: 'down',
      smallestStep: 1,
      computed: change.changeL,
      basis: pondBasis(change.volumeL),
      formula: 'share of the volume by nitrate balance, at most a quarter and at most the temperature step',
      source: 'common practice; mass balance',
      remarks: [`limited-by-${change.limitedBy}`, ...(change.isTargetHeld ? [] : ['nitrate-stays-above-target'])],
    }),
  ];
}
