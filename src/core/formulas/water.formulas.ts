import type { Formula } from './formula.js';
import { WATER_ALKALINITY_FORMULAS } from './water-alkalinity.formulas.js';
import { WATER_AMMONIA_FORMULAS } from './water-ammonia.formulas.js';
import { WATER_CHANGE_FORMULAS } from './water-change.formulas.js';
import { WATER_DECHLORINATOR_FORMULAS } from './water-dechlorinator.formulas.js';
import { WATER_NIGHT_FORMULAS } from './water-night.formulas.js';
import { WATER_NITRATE_FORMULAS } from './water-nitrate.formulas.js';
import { WATER_OXYGEN_FORMULAS } from './water-oxygen.formulas.js';
import { WATER_SALT_FORMULAS } from './water-salt.formulas.js';

/** What is dissolved in a pond, and what a person does about it. */
export const WATER_FORMULAS: readonly Formula[] = [
  ...WATER_AMMONIA_FORMULAS,
  ...WATER_OXYGEN_FORMULAS,
  ...WATER_NIGHT_FORMULAS,
  ...WATER_DECHLORINATOR_FORMULAS,
  ...WATER_NITRATE_FORMULAS,
  ...WATER_CHANGE_FORMULAS,
  ...WATER_ALKALINITY_FORMULAS,
  ...WATER_SALT_FORMULAS,
];
