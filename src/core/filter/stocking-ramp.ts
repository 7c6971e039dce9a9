import { requireWithin } from '../errors.js';
import { addDays, type CivilDay } from '../units/civil-day.js';
import { maturityAfter, NEW_FILTER_SHARE } from './maturation.js';
import { relativeNitrificationRate } from './nitrification.js';
import { firstStockShare, mayStartRunIn, runInDays, STOCK_STAGE_GAP_DAYS } from './run-in.js';

/** No part goes in while the water is colder: fish that are moved below it fall ill (common practice). [°C] */
export const COLDEST_STOCKING_C = 15;
/** A plan that has not ended after so long is given up. [d] */
const LONGEST_PLAN_DAYS = 1100;
const MASS_RANGE_KG = { min: 0.001, max: 1_000_000 } as const;
const WATER_RANGE_C = { min: -1, max: 45 } as const;
/** Left over from rounding. [kg] */
const CRUMB_KG = 1e-9;

export interface StockingStage {
  /** 1 for the first. */
  readonly stage: number;
  /** At most so much goes in. [kg] */
  readonly kg: number;
  /** What then lives in the pond, turtles counted in. [kg] */
  readonly stockedKg: number;
  /** Not before this day, by the water's temperature; null where the plan does not reach so far. */
  readonly notBefore: CivilDay | null;
  /** Ripeness the filter is planned to have by then. [-] */
  readonly maturityShare: number;
}

export interface StockingPlan {
  /** What shall live in the pond in the end. [kg] */
  readonly plannedKg: number;
  /** What the pond carries comfortably: no part is more than a fifth of it, nor of what is planned. [kg] */
  readonly capacityKg: number;
  /** The day the new filter is first fed with ammonia. */
  readonly fedFrom: CivilDay;
  /** 7-day mean of the water on a day. [°C] */
  readonly waterTemperature7dMeanC: (day: CivilDay) => number;
  /** 0.05 to 0.2; a fifth when left out. [-] */
  readonly stageShare?: number;
  /** 14 to 60; 14 when left out. [d] */
  readonly gapDays?: number;
  /** 10 to 20; 15 when left out. [°C] */
  readonly coldestC?: number;
  /** Where some is in already: how much, and when the last part went in. */
  readonly done?: { readonly stockedKg: number; readonly lastOn: CivilDay };
}

/**
 * The parts in which a new pond is stocked, and the day before which none of them goes in. Each is at most a fifth of
 * what is planned, or of what the pond carries if that is less. The first waits until the filter has run in by the water it has had (42 days at 20 °C, longer
 * in colder water, none begun below 10 °C), the others a fortnight each, and all for water of 15 °C. Dates only plan:
 * each part goes in when the readings allow it (`mayStock`), whatever the day.
 * 10 kg in a pond that carries 10, fed from 1 June at 20 °C: 2 kg each on 13 and 27 July, 10 and 24 August, 7 September.
 * @param plan.plannedKg 0.001 to 1,000,000. [kg]
 * @param plan.capacityKg 0.001 to 1,000,000. [kg]
 * @see A fifth first: Hager et al. (2021) (published source); gap, temperatures and days common practice.
 */
export function stockingRamp(plan: StockingPlan): readonly StockingStage[] {
  const { stageShare = firstStockShare, gapDays = STOCK_STAGE_GAP_DAYS, coldestC = COLDEST_STOCKING_C } = plan;
  requireWithin('planned stock, kg', plan.plannedKg, MASS_RANGE_KG);
  requireWithin('what the pond carries, kg', plan.capacityKg, MASS_RANGE_KG);
  requireWithin('part that goes in at once, share', stageShare, { min: 0.05, max: firstStockShare });
  requireWithin('days between two parts', gapDays, { min: STOCK_STAGE_GAP_DAYS, max: 60 });
  requireWithin('coldest water for stocking, °C', coldestC, { min: 10, max: 20 });
  requireWithin('stock already in, kg', plan.done?.stockedKg ?? 0, { min: 0, max: 1_000_000 });

  const largestKg = stageShare * Math.min(plan.plannedKg, plan.capacityKg);
  const run = runIn(plan);
  const stages: StockingStage[] = [];
  let stockedKg = plan.done?.stockedKg ?? 0;
  let from = plan.done ? addDays(plan.done.lastOn, gapDays) : run.readyOn;
  while (plan.plannedKg - stockedKg > CRUMB_KG) {
    const kg = Math.min(largestKg, plan.plannedKg - stockedKg);
    stockedKg += kg;
    const notBefore = from === null ? null : run.warmFrom(from, coldestC);
    stages.push({
      stage: stages.length + 1,
      kg,
      stockedKg,
      notBefore,
      maturityShare: notBefore === null ? 0 : run.maturityOn(notBefore),
    });
    from = notBefore === null ? null : addDays(notBefore, gapDays);
  }
  return stages;
}

/** The run-in day by day: each day gives the part of it that its water is worth. */
function runIn(plan: StockingPlan) {
  const last = addDays(plan.fedFrom, LONGEST_PLAN_DAYS);
  const waterC = (day: CivilDay) => {
    const meanC = plan.waterTemperature7dMeanC(day);
    requireWithin('7-day mean of the water, °C', meanC, WATER_RANGE_C);
    return meanC;
  };
  let begun = plan.fedFrom;
  while (begun <= last && !mayStartRunIn({ waterTemperature7dMeanC: waterC(begun) })) begun = addDays(begun, 1);

  let readyOn: CivilDay | null = null;
  let doneShare = 0;
  for (let day = begun; day <= last && readyOn === null; day = addDays(day, 1)) {
    doneShare += 1 / runInDays({ temperatureC: waterC(day) });
    if (doneShare >= 1 - 1e-9) readyOn = addDays(day, 1);
  }
  return {
    readyOn,
    warmFrom: (from: CivilDay, coldestC: number): CivilDay | null => {
      for (let day = from; day <= last; day = addDays(day, 1)) if (waterC(day) >= coldestC) return day;
      return null;
    },
    maturityOn: (on: CivilDay): number => {
      let daysAt20C = 0;
      for (let day = begun; day < on; day = addDays(day, 1)) {
        daysAt20C += relativeNitrificationRate({ temperatureC: waterC(day) });
      }
      return maturityAfter(daysAt20C, NEW_FILTER_SHARE);
    },
  };
}
