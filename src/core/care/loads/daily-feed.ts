import { feedFor } from '../../stock/feed-ration.js';
import { addDays, type CivilDay } from '../../units/civil-day.js';
import type { PondFacts } from '../pond-facts.js';
import type { WaterOutlook } from '../water-outlook.js';

export interface DailyFeed {
  readonly feedGPerDay: number;
  readonly kind: 'none' | 'light' | 'staple';
}

export const NO_FEED: DailyFeed = { feedGPerDay: 0, kind: 'none' };

/** Feeding stops at once below this, on either mean, and starts again after a week at or above it (common practice). [°C] */
const STOP_BELOW_C = 10;
const RESTART_AFTER_DAYS = 7;
/** Lowest daily mean of the last five days at a restart (common practice). [°C] */
const RESTART_LOWEST_C = 8;
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
  let isFeeding = outlook.median7dMeanC(span.from) >= STOP_BELOW_C;
  let warmDays = isFeeding ? RESTART_AFTER_DAYS : 0;
  for (let day = span.from; day <= span.until; day = addDays(day, 1)) {
    const weekC = outlook.median7dMeanC(day);
    const threeDaysC = outlook.median3dMeanC(day);
    warmDays = weekC >= STOP_BELOW_C ? warmDays + 1 : 0;
    if (Math.min(weekC, threeDaysC) < STOP_BELOW_C) isFeeding = false;
    else if (!isFeeding) isFeeding = warmDays >= RESTART_AFTER_DAYS && isWarmEnoughToRestart(outlook, day);
    days.push(isFeeding ? ration(pond, outlook, day, { weekC, threeDaysC }) : NO_FEED);
  }
  return days;
}

function isWarmEnoughToRestart(outlook: WaterOutlook, day: CivilDay): boolean {
  return outlook.lowestMedianC(day, RESTART_LOWEST_DAYS) > RESTART_LOWEST_C;
}

function ration(
  pond: PondFacts,
  outlook: WaterOutlook,
  day: CivilDay,
  water: { weekC: number; threeDaysC: number },
): DailyFeed {
  const feed = feedFor({
    stock: pond.stock,
    waterTemperature7dMeanC: water.weekC,
    waterTemperature3dMeanC: water.threeDaysC,
    waterTemperatureMaxC: outlook.medianMaximumC(day),
  });
  return { feedGPerDay: feed.feedGPerDay, kind: feed.kind };
}
