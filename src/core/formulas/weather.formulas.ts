import type { Formula } from './formula.js';
import { WEATHER_AIR_FORMULAS } from './weather-air.formulas.js';
import { WEATHER_PLACE_FORMULAS } from './weather-place.formulas.js';
import { WEATHER_SEASONS_FORMULAS } from './weather-seasons.formulas.js';
import { WEATHER_SUN_FORMULAS } from './weather-sun.formulas.js';

/** Weather and climate: the place, the air, the sun, the seasons. */
export const WEATHER_FORMULAS: readonly Formula[] = [
  ...WEATHER_PLACE_FORMULAS,
  ...WEATHER_AIR_FORMULAS,
  ...WEATHER_SUN_FORMULAS,
  ...WEATHER_SEASONS_FORMULAS,
];
