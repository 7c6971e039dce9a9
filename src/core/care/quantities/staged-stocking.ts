import { firstStockShare } from '../../filter/run-in.js';
import { stockBiomass } from '../../stock/fish-mass.js';
import type { Quantity } from '../care-plan.js';
import { stockingOutlook } from '../stocking-outlook.js';
import { stockingCapacityKg } from '../stocking-stages.js';
import { measured, parameterOr, pondBasis, type QuantityContext } from './quantity-context.js';

const FORMULA = 'a fifth of the final stock, or of what water and filter carry comfortably, whichever is less';
const SOURCE = 'Hager et al. (2021), staged stocking; capacity common practice';

/** The most live mass to put in at first: a fifth of the planned stock, or of what the pond carries, whichever is less. */
export function stagedStocking(context: QuantityContext): readonly Quantity[] {
  const { pond } = context.plan;
  const carriesKg = stockingCapacityKg(pond);
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
      formula: FORMULA,
      source: SOURCE,
      remarks: ['next-group-after-14-days'],
    }),
  ];
}

/** The most live mass of the next part, and what of the planned stock is in by then. */
export function followingStock(context: QuantityContext): readonly Quantity[] {
  const outlook = stockingOutlook(context.plan);
  const next = outlook?.stages[0];
  if (!outlook || !next) return [];
  return [
    measured({
      recipe: 'following-stock',
      of: 'next-livestock',
      unit: 'kg',
      per: 'once',
      side: 'down',
      smallestStep: 0.1,
      computed: next.kg,
      basis: { of: 'final-stock', amount: Number(outlook.plannedKg.toFixed(1)), unit: 'kg' },
      formula: FORMULA,
      source: SOURCE,
      remarks: [outlook.stages.length > 1 ? 'next-group-after-14-days' : 'last-group'],
    }),
  ];
}
