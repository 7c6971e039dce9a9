import { type Feed, feedFor } from '../../stock/feed-ration.js';
import { stockBiomass } from '../../stock/fish-mass.js';
import { addDays, type CivilDay } from '../../units/civil-day.js';
import type { Quantity } from '../care-plan.js';
import type { ReadingQuantity } from '../care-rule.js';
import { lastReading } from '../history-index.js';
import { livingStock } from '../living-stock.js';
import type { PlanningContext } from '../planning-context.js';
import { readingsOf } from '../triggers/reading.js';
import { roundedToMeasure, roundedToTwoDigits } from './measure.js';
import { mondayOf, type QuantityContext, type Unrounded } from './quantity-context.js';

const WEEK_DAYS = 7;
/** A reading of ammonia, nitrite or oxygen rules the food for this long. [days] */
const FRESH_DAYS = 7;
const FORMULA = 'ration by body mass and the lower of the 3-day and 7-day mean of the water';
const SOURCE = 'common practice, anchored to Goolish & Adelman (1984)';

/** Grams a day of the week the task lies in, for the fish alone; less or nothing when the latest readings ask for it. */
export function feedRation(context: QuantityContext): readonly Quantity[] {
  const { plan } = context;
  const { fishKg } = stockBiomass(livingStock(plan.pond));
  if (fishKg === 0) return [];

  const weekG = meanFeedGPerDay(plan, mondayOf(context.day));
  const today = feedToday(plan, context.day);
  const computed = weekG === 0 || today.feedGPerDay === 0 ? 0 : today.halved ? weekG / 2 : weekG;
  const quantity: Omit<Unrounded, 'computed' | 'of' | 'per'> = {
    recipe: 'feed-ration',
    side: 'down',
    basis: { of: 'fish', amount: Number(fishKg.toFixed(1)), unit: 'kg' },
    formula: FORMULA,
    source: SOURCE,
    remarks: computed === 0 ? ['do-not-feed', `feed-${today.reason}`] : remarksOf(today),
  };
  const daily = grams({ ...quantity, of: 'feed', per: 'per-day', computed });
  if (computed === 0 || today.feedingDaysPerWeek === WEEK_DAYS) return [daily];
  const perMeal = (computed * WEEK_DAYS) / today.feedingDaysPerWeek;
  return [daily, grams({ ...quantity, of: 'feed-per-meal', per: 'once', computed: perMeal, remarks: [] })];
}

/** Food is never made into a solution: below ten grams a day two digits must do. */
function grams(quantity: Unrounded): Quantity {
  const { side, ...rest } = quantity;
  const amount = roundedToMeasure(quantity.computed, side, 1) ?? roundedToTwoDigits(quantity.computed, side);
  return { ...rest, amount, unit: 'g', roundedTo: side };
}

function meanFeedGPerDay(plan: PlanningContext, monday: CivilDay): number {
  let sumG = 0;
  for (let i = 0; i < WEEK_DAYS; i++) sumG += plan.loads.feedOn(addDays(monday, i)).feedGPerDay;
  return sumG / WEEK_DAYS;
}

function feedToday(plan: PlanningContext, day: CivilDay): Feed {
  const oxygen = fresh(plan, 'dissolved-oxygen', day);
  const ammonia = fresh(plan, 'unionised-ammonia', day);
  const nitrite = fresh(plan, 'nitrite', day);
  return feedFor({
    stock: livingStock(plan.pond),
    waterTemperature7dMeanC: plan.outlook.median7dMeanC(day),
    waterTemperature3dMeanC: plan.outlook.median3dMeanC(day),
    waterTemperatureMaxC: plan.outlook.medianMaximumC(day),
    ...(oxygen === null ? {} : { dawnOxygenMgPerL: oxygen }),
    ...(ammonia === null ? {} : { unionisedAmmoniaMgNPerL: ammonia }),
    ...(nitrite === null ? {} : { nitriteMgNPerL: nitrite }),
  });
}

function fresh(plan: PlanningContext, quantity: ReadingQuantity, day: CivilDay): number | null {
  const latest =
    quantity === 'unionised-ammonia'
      ? readingsOf(quantity, plan).findLast((reading) => reading.on <= plan.today)
      : lastReading(plan.history, quantity, plan.today);
  return latest && day - latest.on <= FRESH_DAYS ? latest.value : null;
}

function remarksOf(feed: Feed): string[] {
  return [
    feed.kind === 'light' ? 'light-food' : 'staple-food',
    `meals-${feed.mealsText}`,
    ...(feed.halved || feed.reason === 'warm-feed-early' ? [`feed-${feed.reason}`] : []),
  ];
}
