import { doseVolumeL } from '../../hydraulics/dose-volume.js';
import type { CivilDay } from '../../units/civil-day.js';
import {
  type AmmoniaCarried,
  ammoniaAfterChange,
  ammoniaCarriedByFilter,
  chloramineAmmoniaMgNPerL,
} from '../../water/chloramine.js';
import { DIRECT_FILL_RESERVE_SHARE, dechlorinatorDoseG, mayTopUpUntreated } from '../../water/chlorine.js';
import type { Quantity } from '../care-plan.js';
import type { QuantityRecipe } from '../care-rule.js';
import { filterMaturityOn } from '../filter-maturity.js';
import { lastReading } from '../history-index.js';
import { ammoniaLoadOn } from '../loads/ammonia-load.js';
import type { PlanningContext } from '../planning-context.js';
import { filterCapacityGNPerDay } from './filter-capacity.js';
import { measured, type QuantityContext, weighedDose } from './quantity-context.js';
import { type TapChlorine, tapChlorine } from './tap-water.js';
import { weeklyTopUpL } from './top-up.js';
import { sizedChange } from './water-change.js';

/** pH and ammonia of the pond are taken from readings no older than this (common practice). [days] */
const READING_HOLDS_DAYS = 14;
const WATER_RANGE_C = { min: 0, max: 40 } as const;
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

/** What chloramine leaves behind, whether the pond stands it, and whether the filter takes it within a day. */
function ammoniaSetFree(
  context: QuantityContext,
  recipe: QuantityRecipe,
  waterL: number,
  chlorine: TapChlorine,
): Quantity {
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
    remarks: [remarkOnAmmonia(context, { waterL, freedG, ...chlorine })],
  });
}

interface FreedAmmonia extends TapChlorine {
  readonly waterL: number;
  readonly freedG: number;
}

function remarkOnAmmonia({ plan, day, rule }: QuantityContext, freed: FreedAmmonia): string {
  if (plan.input.dechlorinator.bindsAmmonia) return 'ammonia-bound-by-product';
  if (rule.appliesTo.inRunIn === true) return 'ammonia-feeds-the-new-filter';
  if (isPoisonousRightAfter(plan, day, freed)) return 'ammonia-poisonous-right-after';
  const capacityG = filterCapacityGNPerDay(plan.pond, plan.outlook.medianC(day), filterMaturityOn(plan, day));
  if (capacityG === null) return 'filter-capacity-unknown';
  const { verdict } = ammoniaCarriedByFilter({
    freedGN: freed.freedG,
    ammoniaLoadGNPerDay: ammoniaLoadOn(plan, day),
    filterCapacityGNPerDay: capacityG,
  });
  return REMARKS[verdict];
}

/** By the last pH and ammonia read, in the warmest hour; without a fresh pH nobody can say. */
function isPoisonousRightAfter(plan: PlanningContext, day: CivilDay, freed: FreedAmmonia): boolean {
  const ph = freshReading(plan, 'ph');
  if (ph === null) return false;
  const { level } = ammoniaAfterChange({
    totalChlorineMgCl2PerL: freed.totalChlorineMgCl2PerL,
    pondAmmoniaMgNPerL: freshReading(plan, 'total-ammonia') ?? 0,
    changeShare: Math.min(1, freed.waterL / plan.pond.volumeL),
    temperatureC: Math.min(Math.max(plan.outlook.medianMaximumC(day), WATER_RANGE_C.min), WATER_RANGE_C.max),
    ph,
  });
  return level === 'act' || level === 'emergency';
}

function freshReading(plan: PlanningContext, quantity: 'ph' | 'total-ammonia'): number | null {
  const reading = lastReading(plan.history, quantity, plan.today);
  return reading !== null && plan.today - reading.on <= READING_HOLDS_DAYS ? reading.value : null;
}

const REMARKS: Readonly<Record<AmmoniaCarried, string>> = {
  'carried-within-a-day': 'ammonia-carried-by-filter',
  'carried-slowly': 'use-product-that-binds-ammonia',
  'not-carried': 'use-product-that-binds-ammonia',
};
