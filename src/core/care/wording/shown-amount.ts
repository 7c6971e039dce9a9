import { cmFromIn } from '../../units/length-units.js';
import { G_PER_LB, G_PER_OZ } from '../../units/mass-units.js';
import { figures, showArea, showMass, showVolume, type UnitSystem } from '../../units/show.js';
import { L_PER_US_GAL } from '../../units/volume-units.js';
import type { Quantity } from '../care-plan.js';
import { roundedToMeasure, roundedToTwoDigits, type SafeSide } from '../quantities/measure.js';

const CM_PER_IN = cmFromIn(1);
/** Below this nobody has an ounce scale that could tell. [g] */
const SMALLEST_OUNCES_G = 5;
const M2_PER_FT2 = 0.09290304;

/**
 * The amount of a quantity in a measure a person can make, with its unit. In US units the amount before rounding is
 * converted and rounded to the same safe side, so that it stays within a tenth there too. A solution is measured in
 * millilitres everywhere.
 */
export function shownAmount(quantity: Quantity, units: UnitSystem): string {
  const { amount, unit } = quantity;
  if (unit === 'share') return `${Math.round(amount * 100)} %`;
  if (unit === 'h' || unit === 'mL' || unit === 'count') return `${amount.toLocaleString('en-US')} ${unit}`.trim();
  if (units === 'metric') return `${amount.toLocaleString('en-US')} ${unit === 'm2' ? 'm²' : unit}`;
  return usAmount(quantity);
}

function usAmount(quantity: Quantity): string {
  const { computed, unit, roundedTo = 'down', amount } = quantity;
  switch (unit) {
    case 'L':
      return `${inMeasure(computed / L_PER_US_GAL, roundedTo, 0.25)} gal`;
    case 'g':
      if (computed < SMALLEST_OUNCES_G) return `${amount.toLocaleString('en-US')} g`;
      return `${usMass(computed, roundedTo)} (${amount.toLocaleString('en-US')} g)`;
    case 'kg':
      return `${inMeasure((computed * 1000) / G_PER_LB, roundedTo, 0.1)} lb`;
    case 'cm':
      return `${inMeasure(computed / CM_PER_IN, roundedTo, 0.5)} in`;
    case 'm2':
      return `${inMeasure(computed / M2_PER_FT2, roundedTo, 1)} sq ft`;
    default:
      return `${amount} ${unit}`;
  }
}

function usMass(massG: number, side: SafeSide): string {
  return massG >= G_PER_LB
    ? `${inMeasure(massG / G_PER_LB, side, 0.05)} lb`
    : `${inMeasure(massG / G_PER_OZ, side, 0.01)} oz`;
}

function inMeasure(amount: number, side: SafeSide, smallestStep: number): string {
  const rounded = roundedToMeasure(amount, side, smallestStep) ?? roundedToTwoDigits(amount, side);
  return rounded.toLocaleString('en-US');
}

/** What an amount was computed for: a volume, a mass, a surface. */
export function shownBasis({ basis }: Quantity, units: UnitSystem): string {
  if (basis.unit === 'L') return showVolume(basis.amount, units);
  if (basis.unit === 'kg') return showMass(basis.amount * 1000, units);
  if (basis.unit === 'm2') return showArea(basis.amount, units);
  return `${figures(basis.amount)} ${basis.unit}`.trim();
}
