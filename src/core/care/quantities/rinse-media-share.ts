import { hasEquipment } from '../applicability.js';
import type { Quantity } from '../care-plan.js';
import { parameterOr, type QuantityContext } from './quantity-context.js';

const THIRD = 1 / 3;

/**
 * How much of the media to rinse: all of the mechanical media where the bacteria have a filter of their own, else a
 * third, because the same media carry them.
 */
export function rinseMediaShare(context: QuantityContext): readonly Quantity[] {
  const { pond } = context.plan;
  const isMechanicalOnly = context.rule.appliesTo.equipment?.includes('mechanical-filter') === true;
  const share =
    isMechanicalOnly && hasEquipment(pond, 'biological-filter') ? 1 : parameterOr(context, 'rinseShare', THIRD);
  const mediaVolumeL = pond.equipment
    .filter((machine) =>
      context.machine ? machine.id === context.machine.id : context.rule.appliesTo.equipment?.includes(machine.kind),
    )
    .reduce((sum, machine) => sum + (machine.rated.mediaVolumeL ?? 0), 0);
  return [
    {
      recipe: 'rinse-media-share',
      of: 'media',
      amount: Number(share.toFixed(2)),
      unit: 'share',
      per: 'once',
      computed: share,
      basis: { of: 'media', amount: mediaVolumeL, unit: 'L' },
      formula: 'never all media that carry bacteria at once',
      source: 'common practice',
      remarks: [share === 1 ? 'leave-biological-media' : 'next-part-after-14-days', 'pump-back-within-60-minutes'],
    },
  ];
}
