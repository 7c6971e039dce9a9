import type { Quantity } from '../care-plan.js';
import { measured, parameterOr, type QuantityContext } from './quantity-context.js';

/** Net over the water with the overlap on every side, as for a square pond. */
export function netArea(context: QuantityContext): readonly Quantity[] {
  const { surfaceAreaM2 } = context.plan.pond;
  const overlapM = parameterOr(context, 'overlapM', 0.3);
  return [
    measured({
      recipe: 'net-area',
      of: 'net',
      unit: 'm2',
      per: 'once',
      side: 'up',
      smallestStep: 0.1,
      computed: (Math.sqrt(surfaceAreaM2) + 2 * overlapM) ** 2,
      basis: { of: 'surface', amount: Number(surfaceAreaM2.toFixed(1)), unit: 'm2' },
      formula: '(side of a square of this surface + overlap on both sides) squared',
      source: 'derived; overlap common practice',
      remarks: [],
    }),
  ];
}
