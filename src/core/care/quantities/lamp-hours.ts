import { addDays } from '../../units/civil-day.js';
import type { Quantity } from '../care-plan.js';
import { countingFrom, machinesOf } from '../triggers/counting-from.js';
import type { QuantityContext } from './quantity-context.js';

/** Hours the lamp will have run by the due day, to the nearest ten. */
export function lampHours(context: QuantityContext): readonly Quantity[] {
  const { plan, rule, window, machine } = context;
  const since = countingFrom(rule, plan, machine);
  const fitted = (machine ?? machinesOf(rule, plan)[0])?.installedOn ?? null;
  const from = since.isDone || fitted === null ? since.day : fitted;
  let hours = since.actuals.lampHours ?? 0;
  for (let day = addDays(from, 1); day <= window.due; day = addDays(day, 1))
    hours += plan.loads.perDay('lamp-hours', day);
  return [
    {
      recipe: 'lamp-hours',
      of: 'lamp-hours',
      amount: Math.round(hours / 10) * 10,
      unit: 'h',
      per: 'once',
      computed: hours,
      basis: { of: 'lamp', amount: 1, unit: 'count' },
      formula: '24 h a day while the lamp is in season',
      source: 'derived',
      remarks: [],
    },
  ];
}
