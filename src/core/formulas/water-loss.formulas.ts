import type { Formula } from './formula.js';
import { WATER_LOSS_EVAPORATION_FORMULAS } from './water-loss-evaporation.formulas.js';
import { WATER_LOSS_LEAK_FORMULAS } from './water-loss-leak.formulas.js';

/** What leaves a pond: into the air, and into the ground. */
export const WATER_LOSS_FORMULAS: readonly Formula[] = [
  ...WATER_LOSS_EVAPORATION_FORMULAS,
  ...WATER_LOSS_LEAK_FORMULAS,
];
