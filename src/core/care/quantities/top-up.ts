import { largestTopUpL } from '../../evaporation/top-up.js';
import { addDays } from '../../units/civil-day.js';
import type { Quantity } from '../care-plan.js';
import { measured, mondayOf, type QuantityContext } from './quantity-context.js';

const WEEK_DAYS = 7;

/** Less than this nobody sees at the mark. [mm] */
const SMALLEST_MM_PER_WEEK = 1;

/** Net loss of the week the day lies in, none where it could not be seen. [L] */
export function weeklyTopUpL({ plan, day }: QuantityContext): number {
  const monday = mondayOf(day);
  let sumL = 0;
  for (let i = 0; i < WEEK_DAYS; i++) sumL += plan.loads.netLossL(addDays(monday, i));
  return sumL < SMALLEST_MM_PER_WEEK * plan.pond.surfaceAreaM2 ? 0 : sumL;
}

/** Litres a week that evaporation takes and rain does not bring back, in an average year. */
export function topUp(context: QuantityContext): readonly Quantity[] {
  const { pond } = context.plan;
  const computed = weeklyTopUpL(context);
  const isAutomatic = pond.equipment.some((machine) => machine.kind === 'auto-fill');
  const perDayL = largestTopUpL({ volumeL: pond.volumeL, isAutomatic });
  return [
    measured({
      recipe: 'top-up',
      of: 'top-up-water',
      unit: 'L',
      per: 'per-week',
      side: 'down',
      smallestStep: 1,
      computed,
      basis: { of: 'surface', amount: Number(pond.surfaceAreaM2.toFixed(1)), unit: 'm2' },
      formula: 'Penman evaporation without wind, less mean rain, over the surface',
      source: 'Valiantzas (2006), J. Hydrology 331, 690-702; monthly means of the stations',
      remarks: computed === 0 ? ['rain-covers-it'] : computed > perDayL ? ['spread-over-days'] : [],
    }),
  ];
}
