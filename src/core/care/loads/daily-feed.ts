import { FEED_LOCK_BELOW_C, FEED_STOP_BELOW_C, feedFor } from '../../stock/feed-ration.js';
import { addDays, type CivilDay } from '../../units/civil-day.js';
import { livingStock } from '../living-stock.js';
import type { PondFacts } from '../pond-facts.js';
import type { WaterOutlook } from '../water-outlook.js';

export interface DailyFeed {
  readonly feedGPerDay: number;
  readonly kind: 'none' | 'light' | 'staple';
}

export const NO_FEED: DailyFeed = { feedGPerDay: 0, kind: 'none' };

/** Feeding starts again after a week that is warm enough, with no very cold day at its end (common practice). [days] */
const RESTART_AFTER_DAYS = 7;
const RESTART_LOWEST_DAYS = 5;

/**
 * Feed of each day of a span along the median forecast: the ration by temperature, stopped at once in the cold and
 * restarted only after a warm week.
 */
export function dailyFeed(
  pond: PondFacts,
  outlook: WaterOutlook,
  span: { readonly from: CivilDay; readonly until: CivilDay },
): readonly DailyFeed[] {
  const days: DailyFeed[] = [];
  let isFeeding = outlook.median7dMeanC(span.from) >= FEED_STOP_BELOW_C;
  let warmDays = isFeeding ? RESTART_AFTER_DAYS : 0;
  for (let day = span.from; day <= span.until; day = addDays(day, 1)) {
    const weekC = outlook.median7dMeanC(day);
    const threeDaysC = outlook.median3dMeanC(day);
    warmDays = weekC >= FEED_STOP_BELOW_C ? warmDays + 1 : 0;
    if (Math.min(weekC, threeDaysC) < FEED_STOP_BELOW_C) isFeeding = false;
    else if (!isFeeding) isFeeding = warmDays >= RESTART_AFTER_DAYS && isWarmEnoughToRestart(outlook, day);
    days.push(isFeeding ? ration(pond, outlook, day, { weekC, threeDaysC }) : NO_FEED);
  }
  return days;
}

function isWarmEnoughToRestart(outlook: WaterOutlook, day: CivilDay): boolean {
  return outlook.lowestMedianC(day, RESTART_LOWEST_DAYS) > FEED_LOCK_BELOW_C;
}

function ration(
  pond: PondFacts,
  outlook: WaterOutlook,
  day: CivilDay,
  water: { weekC: number; threeDaysC: number },
): DailyFeed {
  const feed = feedFor({
    stock: livingStock(pond),
    waterTemperature7dMeanC: water.weekC,
    waterTemperature3dMeanC: water.threeDaysC,
    waterTemperatureMaxC: outlook.medianMaximumC(day),
  });
  return { feedGPerDay: feed.feedGPerDay, kind: feed.kind };
}
