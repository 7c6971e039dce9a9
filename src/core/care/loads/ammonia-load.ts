import { ammoniaLoadGNPerDay, turtleFeedGPerDay } from '../../stock/ammonia-load.js';
import { FEED_PROTEIN_SHARE } from '../../stock/feed-ration.js';
import { addDays, type CivilDay } from '../../units/civil-day.js';
import { livingStock } from '../living-stock.js';
import type { PlanningContext } from '../planning-context.js';

/** Total ammonia from the food of fish and turtles on one day along the median forecast. [g N/day] */
export function ammoniaLoadOn(plan: PlanningContext, day: CivilDay): number {
  const fish = plan.loads.feedOn(day);
  const turtleG = turtleFeedGPerDay({
    stock: livingStock(plan.pond),
    waterTemperature7dMeanC: plan.outlook.median7dMeanC(day),
  });
  const ofFish =
    fish.kind === 'none'
      ? 0
      : ammoniaLoadGNPerDay({ feedGPerDay: fish.feedGPerDay, feedProteinShare: FEED_PROTEIN_SHARE[fish.kind] });
  return ofFish + ammoniaLoadGNPerDay({ feedGPerDay: turtleG, feedProteinShare: FEED_PROTEIN_SHARE.staple });
}

/** Mean load of the days before and with a day. [g N/day] */
export function meanAmmoniaLoadBefore(plan: PlanningContext, day: CivilDay, days: number): number {
  let sum = 0;
  for (let back = 0; back < days; back++) sum += ammoniaLoadOn(plan, addDays(day, -back));
  return sum / days;
}
