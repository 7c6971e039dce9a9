import { textField } from '../../../forms/fields.js';
import type { EnergyModel } from './energy.view-model.js';

/** Energy of the pumps in a year, with a field for the price of a kilowatt-hour. Nothing is stored. */
export function energyOfPumps(pondId: string, energy: EnergyModel): JSX.Element {
  return (
    <details class="why energy" id="energy" open={energy.price !== ''}>
      <summary>
        <u>Energy of the pumps</u>
      </summary>
      <dl class="facts">
        {energy.lines.map((line) => (
          <>
            <dt>
              <span safe>{line.name}</span>
              <small safe>{line.detail}</small>
            </dt>
            <dd safe>{line.value}</dd>
          </>
        ))}
      </dl>
      <form method="get" action={`/ponds/${pondId}#energy`} class="price">
        {textField({
          name: 'kwh',
          label: 'Price of a kWh',
          value: energy.price,
          inputmode: 'decimal',
          hint: 'In your currency, such as 0.17',
          ...(energy.fault && { fault: energy.fault }),
        })}
        <button type="submit" class="btn">
          Work out the cost
        </button>
      </form>
    </details>
  );
}
