import { STOCK_STAGE_GAP_DAYS } from '../filter/run-in.js';
import { type StockingStage, stockingRamp } from '../filter/stocking-ramp.js';
import { stockBiomass } from '../stock/fish-mass.js';
import { fedFrom } from './filter-maturity.js';
import { isInRunIn } from './living-stock.js';
import type { PlanningContext } from './planning-context.js';
import { NEXT_RULE, ruleOf, SLACK_SHARE, stageShare, stagesDone, stockingCapacityKg } from './stocking-stages.js';

export interface StockingOutlook {
  readonly plannedKg: number;
  readonly stockedKg: number;
  readonly capacityKg: number;
  /** The parts still to come. */
  readonly stages: readonly StockingStage[];
}

/** The parts still to come of a new pond, with the days before which they do not go in; null for any other pond. */
export function stockingOutlook(context: PlanningContext): StockingOutlook | null {
  const { pond, input } = context;
  const plannedKg = stockBiomass(pond.stock).totalKg;
  const fedOn = fedFrom(context);
  if (plannedKg === 0 || fedOn === null) return null;
  const done = stagesDone(input);
  if (!isInRunIn(pond) && (done === null || done.share === 1)) return null;

  const capacityKg = stockingCapacityKg(pond);
  const next = ruleOf(input.rules, NEXT_RULE);
  const stages = stockingRamp({
    plannedKg,
    capacityKg,
    fedFrom: fedOn,
    waterTemperature7dMeanC: (day) => context.outlook.median7dMeanC(day),
    stageShare: stageShare(next),
    gapDays: Math.max(STOCK_STAGE_GAP_DAYS, next?.parameters.gapDays?.value ?? STOCK_STAGE_GAP_DAYS),
    ...(next?.parameters.warmEnoughC ? { coldestC: next.parameters.warmEnoughC.value } : {}),
    ...(done ? { done: { stockedKg: done.stockedKg, lastOn: done.lastOn } } : {}),
  });
  const worthIt = stages.filter(({ stockedKg, kg }) => stockedKg - kg < (1 - SLACK_SHARE) * plannedKg);
  return { plannedKg, stockedKg: done?.stockedKg ?? 0, capacityKg, stages: worthIt };
}
