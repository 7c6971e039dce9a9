import { doseVolumeL } from '../../hydraulics/dose-volume.js';
import {
  chloramineAmmoniaMgNPerL,
  DIRECT_FILL_RESERVE_SHARE,
  dechlorinatorDoseG,
  mayTopUpUntreated,
} from '../../water/chlorine.js';
import type { Quantity } from '../care-plan.js';
import type { QuantityRecipe } from '../care-rule.js';
import { ammoniaLoadOn } from '../loads/ammonia-load.js';
import { filterCapacityGNPerDay } from './filter-capacity.js';
import { measured, type QuantityContext, weighedDose } from './quantity-context.js';
import { type TapChlorine, tapChlorine } from './tap-water.js';
import { weeklyTopUpL } from './top-up.js';
import { sizedChange } from './water-change.js';

const FORMULA = 'new litres x mg/L of total chlorine x mg of product per mg of chlorine x 1.1';

/** Dose for the litres of a part water change, and the ammonia chloramine sets free in them. */
export function dechlorinatorForChange(context: QuantityContext): readonly Quantity[] {
  const { changeL } = sizedChange(context);
  return treated(context, 'dechlorinator-for-change', changeL, 'new-water');
}

/** Dose for the top-up of a week; none where so little cannot be found in the pond. */
export function dechlorinatorForTopUp(context: QuantityContext): readonly Quantity[] {
  const chlorine = tapChlorine(context.plan.pond);
  const topUpL = weeklyTopUpL(context);
  if (!chlorine || topUpL === 0) return [];
  const { volumeL } = context.plan.pond;
  if (mayTopUpUntreated({ topUpL: Math.min(topUpL, volumeL), volumeL, ...chlorine })) return [];
  const [dose] = treated(context, 'dechlorinator-for-top-up', topUpL, 'new-water');
  return dose ? [{ ...dose, per: 'per-week' }] : [];
}

/** Dose for the whole first fill, for the larger volume where it is uncertain. */
export function dechlorinatorFirstFill(context: QuantityContext): readonly Quantity[] {
  const fillL = doseVolumeL({ ...context.plan.pond, purpose: 'first-fill' });
  return treated(context, 'dechlorinator-first-fill', fillL, 'pond');
}

function treated(
  context: QuantityContext,
  recipe: QuantityRecipe,
  waterL: number,
  basisOf: string,
): readonly Quantity[] {
  const chlorine = tapChlorine(context.plan.pond);
  if (!chlorine || waterL === 0) return [];
  const product = context.plan.input.dechlorinator;
  const dose = weighedDose({
    recipe,
    of: 'dechlorinator',
    productName: product.name,
    per: 'once',
    side: 'up',
    computed: dechlorinatorDoseG({
      waterL,
      totalChlorineMgCl2PerL: chlorine.totalChlorineMgCl2PerL,
      productMgPerMgChlorine: product.productMgPerMgChlorine,
      reserveShare: DIRECT_FILL_RESERVE_SHARE,
    }),
    basis: { of: basisOf, amount: Math.round(waterL), unit: 'L' },
    formula: FORMULA,
    source: product.source,
    remarks: [`product-${product.id}`, chlorine.isKnown ? 'tap-chlorine-known' : 'tap-chlorine-assumed'],
  });
  if (!chlorine.isChloraminated) return [dose];
  return [dose, ammoniaSetFree(context, recipe, waterL, chlorine)];
}

/** What chloramine leaves behind, and whether the filter takes it within a day. */
function ammoniaSetFree(
  context: QuantityContext,
  recipe: QuantityRecipe,
  waterL: number,
  chlorine: TapChlorine,
): Quantity {
  const { plan, day } = context;
  const freedG = (chloramineAmmoniaMgNPerL(chlorine) * waterL) / 1000;
  return measured({
    recipe,
    of: 'ammonia-set-free',
    unit: 'g',
    per: 'once',
    side: 'up',
    smallestStep: 1,
    computed: freedG,
    basis: { of: 'new-water', amount: Math.round(waterL), unit: 'L' },
    formula: '0.1976 mg of nitrogen per mg of chloramine chlorine',
    source: 'derived',
    remarks: [remarkOnAmmonia(context, freedG, filterCapacityGNPerDay(plan.pond, plan.outlook.medianC(day)))],
  });
}

function remarkOnAmmonia({ plan, day, rule }: QuantityContext, freedG: number, capacityG: number | null): string {
  if (plan.input.dechlorinator.bindsAmmonia) return 'ammonia-bound-by-product';
  if (rule.appliesTo.inRunIn === true) return 'ammonia-feeds-the-new-filter';
  if (capacityG === null) return 'filter-capacity-unknown';
  return ammoniaLoadOn(plan, day) + freedG <= capacityG
    ? 'ammonia-carried-by-filter'
    : 'use-product-that-binds-ammonia';
}
