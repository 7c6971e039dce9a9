import type { Formula } from './formula.js';
import { HEAT_BALANCE_FORMULAS } from './heat-balance.formulas.js';
import { HEAT_FORECAST_FORMULAS } from './heat-forecast.formulas.js';

/** Water temperature: the balance of a day, ice, the ensemble, dates and readings. */
export const HEAT_FORMULAS: readonly Formula[] = [...HEAT_BALANCE_FORMULAS, ...HEAT_FORECAST_FORMULAS];
