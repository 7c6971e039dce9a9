import type { Quantity } from '../care-plan.js';
import { dawnForecast } from '../dawn-forecast.js';
import { roundedToTwoDigits } from './measure.js';
import type { QuantityContext } from './quantity-context.js';

/** Hours fish have without a pump, by the water's temperature, warmest first (common practice). */
const HOURS_ABOVE_C = [
  { aboveC: 25, hours: 2 },
  { aboveC: 20, hours: 4 },
  { aboveC: 12, hours: 12 },
] as const;
/** In colder water oxygen lasts at least a day; nobody should wait longer all the same (common practice). [h] */
const HOURS_IN_THE_COLD = 24;

/**
 * Hours until water without a pump must be aerated in some other way: 2 above 25 °C, 4 above 20 °C, 12 above 12 °C; less
 * where the oxygen of this pond, from full at dusk, falls to 4 mg/L sooner.
 * @see `dawnForecast`
 */
export function outageHours({ plan, day }: QuantityContext): readonly Quantity[] {
  const waterC = plan.outlook.medianMaximumC(day);
  const byTable = HOURS_ABOVE_C.find(({ aboveC }) => waterC > aboveC)?.hours ?? HOURS_IN_THE_COLD;
  const byOxygen = dawnForecast(plan, day)?.hoursWithoutPower ?? byTable;
  const hours = Math.min(byTable, byOxygen);
  return [
    {
      recipe: 'outage-hours',
      of: 'hours-without-a-pump',
      amount: hours < byTable ? roundedToTwoDigits(hours, 'down') : hours,
      unit: 'h',
      per: 'once',
      computed: hours,
      basis: { of: 'water', amount: Math.round(waterC), unit: '°C' },
      formula:
        hours < byTable ? 'oxygen of this pond from dusk down to 4 mg/L' : 'table by the temperature of the water',
      source: 'common practice',
      remarks: [],
    },
  ];
}
