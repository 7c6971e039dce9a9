import type { Quantity } from '../care-plan.js';
import { measured, type QuantityContext } from './quantity-context.js';

/** Water that stood in the filters all winter and goes to waste first; nothing where no filter states its volume. */
export function flushStandingWater(context: QuantityContext): readonly Quantity[] {
  const { pond } = context.plan;
  const standingL = pond.equipment
    .filter(({ kind }) => kind === 'mechanical-filter' || kind === 'biological-filter')
    .reduce((sum, { rated }) => sum + (rated.mediaVolumeL ?? 0), 0);
  if (standingL === 0) return [];
  return [
    measured({
      recipe: 'flush-standing-water',
      of: 'flush-water',
      unit: 'L',
      per: 'once',
      side: 'up',
      smallestStep: 1,
      computed: standingL,
      basis: { of: 'media', amount: standingL, unit: 'L' },
      formula: 'the volume of the filter media, plus what stands in the lines',
      source: 'common practice',
      remarks: ['and-the-lines'],
    }),
  ];
}
