import { FILTER_FORMULAS } from './filter.formulas.js';
import { FISH_FORMULAS } from './fish.formulas.js';
import { FORMULA_FIELDS, type Formula, type FormulaField } from './formula.js';
import { HEAT_FORMULAS } from './heat.formulas.js';
import { HYDRAULICS_FORMULAS } from './hydraulics.formulas.js';
import { UV_FORMULAS } from './uv.formulas.js';
import { WATER_FORMULAS } from './water.formulas.js';
import { WATER_LOSS_FORMULAS } from './water-loss.formulas.js';
import { WEATHER_FORMULAS } from './weather.formulas.js';

/** Every formula of the product, field by field in the order they are shown. */
export const ALL_FORMULAS: readonly Formula[] = [
  ...WATER_FORMULAS,
  ...FISH_FORMULAS,
  ...FILTER_FORMULAS,
  ...HYDRAULICS_FORMULAS,
  ...UV_FORMULAS,
  ...WEATHER_FORMULAS,
  ...HEAT_FORMULAS,
  ...WATER_LOSS_FORMULAS,
];

/** The formulas of each field that has any. */
export function formulasByField(): readonly { readonly field: FormulaField; readonly formulas: readonly Formula[] }[] {
  return FORMULA_FIELDS.map((field) => ({
    field,
    formulas: ALL_FORMULAS.filter((formula) => formula.field === field),
  })).filter(({ formulas }) => formulas.length > 0);
}
