import type { Quantity } from '../care-plan.js';
import { measured, parameterOr, type QuantityContext } from './quantity-context.js';

/** 225 lb an acre: Lembi, Purdue APM-1-W; more than 100 g/m² can take the oxygen. [g/m²] */
const STRAW_G_PER_M2 = 25;

/** Grams of barley straw for the surface, an uncertain custom that is offered only where it was asked for. */
export function barleyStraw(context: QuantityContext): readonly Quantity[] {
  const { surfaceAreaM2 } = context.plan.pond;
  return [
    measured({
      recipe: 'barley-straw',
      of: 'barley-straw',
      unit: 'g',
      per: 'once',
      side: 'down',
      smallestStep: 5,
      computed: parameterOr(context, 'strawGPerM2', STRAW_G_PER_M2) * surfaceAreaM2,
      basis: { of: 'surface', amount: Number(surfaceAreaM2.toFixed(1)), unit: 'm2' },
      formula: 'grams for each square metre of water',
      source: 'Lembi, Purdue APM-1-W',
      remarks: [],
    }),
  ];
}
