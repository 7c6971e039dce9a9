import { FISH_BODY_FORMULAS } from './fish-body.formulas.js';
import { FISH_FOOD_FORMULAS } from './fish-food.formulas.js';
import { FISH_STOCK_FORMULAS } from './fish-stock.formulas.js';
import type { Formula } from './formula.js';

/** Fish and turtles: bodies, food, oxygen and stock. */
export const FISH_FORMULAS: readonly Formula[] = [...FISH_BODY_FORMULAS, ...FISH_FOOD_FORMULAS, ...FISH_STOCK_FORMULAS];
