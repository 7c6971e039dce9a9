import { addDays, type CivilDay } from '../../units/civil-day.js';
import type { Quantity } from '../care-plan.js';
import type { QuantityRecipe } from '../care-rule.js';
import type { DraftTask } from '../draft-task.js';
import type { PlanningContext } from '../planning-context.js';
import { alkalinityDoses } from './alkalinity-dose.js';
import { barleyStraw } from './barley-straw.js';
import { dechlorinatorFirstFill, dechlorinatorForChange, dechlorinatorForTopUp } from './dechlorinator.js';
import { feedRation } from './feed-ration.js';
import { flushStandingWater } from './flush-standing-water.js';
import { iceOpening } from './ice-opening.js';
import { lampHours } from './lamp-hours.js';
import { netArea } from './net-area.js';
import { outageHours } from './outage-hours.js';
import type { Recipe } from './quantity-context.js';
import { rinseMediaShare } from './rinse-media-share.js';
import { followingStock, stagedStocking } from './staged-stocking.js';
import { topUp } from './top-up.js';
import { waterChange } from './water-change.js';

/** Every named recipe a rule may ask for. */
export const RECIPES: Readonly<Record<QuantityRecipe, Recipe>> = {
  'feed-ration': feedRation,
  'water-change': waterChange,
  'top-up': topUp,
  'dechlorinator-for-change': dechlorinatorForChange,
  'dechlorinator-for-top-up': dechlorinatorForTopUp,
  'dechlorinator-first-fill': dechlorinatorFirstFill,
  'lamp-hours': lampHours,
  'rinse-media-share': rinseMediaShare,
  'alkalinity-dose': alkalinityDoses,
  'ice-opening': iceOpening,
  'net-area': netArea,
  'staged-stocking': stagedStocking,
  'following-stock': followingStock,
  'flush-standing-water': flushStandingWater,
  'outage-hours': outageHours,
  'barley-straw': barleyStraw,
};

/** The amounts of a task on the day it is for. */
export function quantitiesOf(draft: DraftTask, plan: PlanningContext): readonly Quantity[] {
  const { rule, window } = draft;
  const day = dayOfInterest(draft, plan.today);
  const machine = plan.pond.equipment.find(({ id }) => id === draft.machine?.id) ?? null;
  return rule.quantities.flatMap((recipe) => RECIPES[recipe]({ plan, rule, window, day, machine }));
}

/** Into a standing line that has not begun: its first week may still lie between the seasons. [days] */
const FIRST_WEEK_DAYS = 7;

/** A standing line speaks of this week, or of its second one; a task of the day it is due, or of today when late. */
function dayOfInterest({ rule, window }: DraftTask, today: CivilDay): CivilDay {
  if (!rule.routineLine) return Math.max(window.due, today) as CivilDay;
  return window.earliest > today ? addDays(window.earliest, FIRST_WEEK_DAYS) : today;
}
