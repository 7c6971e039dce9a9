import { energyCostMinor, energyKWh } from '../../../../core/hydraulics/pump-energy.js';
import { figures } from '../../../../core/units/show.js';
import type { EquipmentEntity } from '../../../../ponds/index.js';
import { readNumber } from '../form/form-units.js';
import { EQUIPMENT_WORDS } from '../form/pond-form-words.js';
import type { FactLine } from './fact-line.js';

/** What the pumps draw in a year of running day and night, and what that costs at a price. */
export interface EnergyModel {
  readonly lines: readonly FactLine[];
  /** Price of a kilowatt-hour as typed, in the currency of whoever types. */
  readonly price: string;
  readonly fault: string;
}

const DAYS_PER_YEAR = 365;
const MINOR_PER_MAJOR = 100;
const LARGEST_PRICE = 10;

export function energyModel(
  machines: readonly Pick<EquipmentEntity, 'kind' | 'name' | 'rated'>[],
  typedPrice: string,
): EnergyModel {
  const { priceMinorPerKWh, fault } = readPrice(typedPrice);
  const pumps = machines.flatMap(({ kind, name, rated }) =>
    kind === 'pump' && rated.powerW !== undefined
      ? [{ name: name || EQUIPMENT_WORDS[kind], powerW: rated.powerW }]
      : [],
  );
  const lines = pumps.map(({ name, powerW }) => {
    const kWh = energyKWh({ powerW, hoursPerDay: 24, days: DAYS_PER_YEAR });
    const energy = `${figures(kWh)} kWh a year`;
    const cost = priceMinorPerKWh === null ? null : energyCostMinor({ energyKWh: kWh, priceMinorPerKWh });
    return {
      name,
      detail: `${figures(powerW)} W, day and night`,
      value: cost === null ? energy : `${energy}, ${money(cost)}`,
    };
  });
  return { lines, price: typedPrice.trim(), fault };
}

function readPrice(typed: string): { priceMinorPerKWh: number | null; fault: string } {
  const price = readNumber(typed);
  if (price === null) return { priceMinorPerKWh: null, fault: '' };
  if (!(price >= 0 && price <= LARGEST_PRICE)) {
    const fault = `Write the price of one kWh in your currency, 0 to ${LARGEST_PRICE}, for example 0.17.`;
    return { priceMinorPerKWh: null, fault };
  }
  return { priceMinorPerKWh: price * MINOR_PER_MAJOR, fault: '' };
}

function money(minor: number): string {
  return (minor / MINOR_PER_MAJOR).toLocaleString('en-US', { minimumFractionDigits: 2, maximumFractionDigits: 2 });
}
