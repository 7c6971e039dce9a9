import type { Quantity } from '../../core/care/care-plan.js';
import { roundedToMeasure, roundedToTwoDigits } from '../../core/care/quantities/measure.js';
import { shownAmount } from '../../core/care/wording/shown-amount.js';
import { figures, type UnitSystem } from '../../core/units/show.js';
import { L_PER_US_GAL } from '../../core/units/volume-units.js';

/** A product that is measured out for some water. */
export interface ChemicalDose {
  readonly product: string;
  readonly quantity: Quantity;
  /** Unit in which the water is asked. */
  readonly unit: 'gal' | 'L';
  /** Litres in one of them. */
  readonly perUnit: number;
  /** The planned volume, as typed. */
  readonly plannedVolume: string;
  /** The planned dose in the product's own measure. */
  readonly plannedDose: string;
}

/** The products of a task whose dose follows from a volume of water. */
export function chemicalDoses(quantities: readonly Quantity[], units: UnitSystem): ChemicalDose[] {
  return quantities.flatMap((quantity) => {
    if (quantity.productName === undefined || quantity.basis.unit !== 'L') return [];
    const perUnit = units === 'us' ? L_PER_US_GAL : 1;
    return [
      {
        product: quantity.productName,
        quantity,
        unit: units === 'us' ? 'gal' : 'L',
        perUnit,
        plannedVolume: figures(quantity.basis.amount / perUnit),
        plannedDose: shownAmount(quantity, units),
      } as const,
    ];
  });
}

/** Most water a dose is shown for: ten times the planned, beyond which a slip of the pen is likelier. */
export const MOST_TIMES_PLANNED = 10;

/** A dose for some water. */
export interface SizedDose {
  /** In the product's own measure, e.g. "65 g" or "2.3 oz (65 g)". */
  readonly words: string;
  readonly amountG: number;
}

/**
 * The dose for another volume than the planned one, in proportion, rounded to the same safe side.
 * @param volumeL More than 0 and at most ten times the planned; null beyond.
 */
export function doseFor({ quantity }: ChemicalDose, volumeL: number, units: UnitSystem): SizedDose | null {
  const times = volumeL / quantity.basis.amount;
  if (!(times > 0 && times <= MOST_TIMES_PLANNED)) return null;
  // The planned volume is shown with three figures; read back, it is still the plan.
  if (Math.abs(times - 1) < 0.005) {
    return {
      words: shownAmount(quantity, units),
      amountG: quantity.unit === 'mL' ? quantity.computed : quantity.amount,
    };
  }
  const isSolution = quantity.unit === 'mL';
  // A made-up solution is measured in millilitres, although the dose itself was computed as a mass.
  const computed = (isSolution ? quantity.amount : quantity.computed) * times;
  const side = quantity.roundedTo ?? 'down';
  const amount = roundedToMeasure(computed, side, 1) ?? roundedToTwoDigits(computed, side);
  const words = shownAmount({ ...quantity, computed, amount }, units);
  return { words, amountG: isSolution ? (quantity.computed * amount) / quantity.amount : amount };
}
