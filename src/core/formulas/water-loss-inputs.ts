import type { ChoiceInput, FormulaValues } from './formula.js';
import { asked } from './stock-inputs.js';

export const EVAPORATION = asked('evaporationMmPerDay', 'E', 'Evaporation', 'mm/d', [0, 15, 4]);
export const AREA = asked('surfaceAreaM2', 'A', 'Surface', 'm²', [0.5, 10_000, 12]);

export const FALLS: ChoiceInput = {
  kind: 'choice',
  name: 'falls',
  symbol: 'falls',
  meaning: 'Waterfall',
  choices: [
    { value: 'no', label: 'None, or off' },
    { value: 'yes', label: 'Running' },
  ],
  example: 'no',
};
export const hasFalls = (values: FormulaValues) => values.choice('falls') === 'yes';
