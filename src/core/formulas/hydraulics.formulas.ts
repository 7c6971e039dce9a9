import type { Formula } from './formula.js';
import { HYDRAULICS_PIPE_FORMULAS } from './hydraulics-pipe.formulas.js';
import { HYDRAULICS_PUMP_FORMULAS } from './hydraulics-pump.formulas.js';
import { HYDRAULICS_VOLUME_FORMULAS } from './hydraulics-volume.formulas.js';

/** Volumes, pipes, weirs and pumps. */
export const HYDRAULICS_FORMULAS: readonly Formula[] = [
  ...HYDRAULICS_VOLUME_FORMULAS,
  ...HYDRAULICS_PUMP_FORMULAS,
  ...HYDRAULICS_PIPE_FORMULAS,
];
