import type { Quantity } from '../care-plan.js';
import { measured, type QuantityContext } from './quantity-context.js';

/** One foot of diameter per 100 ft² of water, 0.79 % of the surface. [-] */
const OPEN_SHARE = 0.00785;

/** Diameter of the opening to keep in the ice, as one round hole. */
export function iceOpening(context: QuantityContext): readonly Quantity[] {
  const { surfaceAreaM2 } = context.plan.pond;
  const openM2 = OPEN_SHARE * surfaceAreaM2;
  return [
    measured({
      recipe: 'ice-opening',
      of: 'opening-diameter',
      unit: 'cm',
      per: 'once',
      side: 'up',
      smallestStep: 1,
      computed: 200 * Math.sqrt(openM2 / Math.PI),
      basis: { of: 'surface', amount: Number(surfaceAreaM2.toFixed(1)), unit: 'm2' },
      formula: 'one foot of diameter per 100 ft² of water',
      source: 'published source: cold weather care column, Gwinnett Daily Post, 14 December 2006',
      remarks: [],
    }),
  ];
}
