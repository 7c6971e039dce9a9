import { firstStockShare } from '../../filter/run-in.js';
import { stockBiomass } from '../../stock/fish-mass.js';
import type { Quantity } from '../care-plan.js';
import { measured, parameterOr, pondBasis, type QuantityContext } from './quantity-context.js';

/** Live mass a pond carries comfortably (common practice). [kg/m³] */
const COMFORTABLE_KG_PER_M3 = 1;

/** The most live mass to put in at first: a fifth of the planned stock, or of what the pond carries, whichever is less. */
export function stagedStocking(context: QuantityContext): readonly Quantity[] {
  const { pond } = context.plan;
  const carriesKg = (COMFORTABLE_KG_PER_M3 * pond.volumeL) / 1000;
  const plannedKg = stockBiomass(pond.stock).totalKg;
  const finalKg = plannedKg > 0 ? Math.min(plannedKg, carriesKg) : carriesKg;
  const share = parameterOr(context, 'firstShare', firstStockShare);
  return [
    measured({
      recipe: 'staged-stocking',
      of: 'first-livestock',
      unit: 'kg',
      per: 'once',
      side: 'down',
      smallestStep: 0.1,
      computed: share * finalKg,
      basis:
        plannedKg > 0 ? { of: 'final-stock', amount: Number(finalKg.toFixed(1)), unit: 'kg' } : pondBasis(pond.volumeL),
      formula: 'a fifth of the final stock; the pond carries 1 kg per m³',
      source: 'Hager et al. (2021), staged stocking; capacity common practice',
      remarks: ['next-group-after-14-days'],
    }),
  ];
}
