import { addDays, type CivilDay } from '../../units/civil-day.js';
import type { Quantity, TaskWindow } from '../care-plan.js';
import type { CareRule, QuantityRecipe } from '../care-rule.js';
import type { PlanningContext } from '../planning-context.js';
import type { Equipment } from '../pond-facts.js';
import { asSolution, roundedToMeasure, roundedToTwoDigits, type SafeSide } from './measure.js';

/** What a recipe works with: the pond, the rule, and the day the amount is for. */
export interface QuantityContext {
  readonly plan: PlanningContext;
  readonly rule: CareRule;
  readonly window: TaskWindow;
  /** The machine the task is for, where each has its own. */
  readonly machine: Equipment | null;
  /** The due day, or today when that has passed; for a standing line today or its first day. */
  readonly day: CivilDay;
}

export type Recipe = (context: QuantityContext) => readonly Quantity[];

/** Where a figure has its parameter in the rule, that value; else the default given. */
export function parameterOr(context: QuantityContext, name: string, otherwise: number): number {
  return context.rule.parameters[name]?.value ?? otherwise;
}

/** Monday of the week a day lies in; day 0 of the calendar was a Thursday. */
export function mondayOf(day: CivilDay): CivilDay {
  return addDays(day, -((((day + 3) % 7) + 7) % 7));
}

export type Unrounded = Omit<Quantity, 'amount' | 'unit' | 'roundedTo' | 'recipe'> & {
  readonly recipe: QuantityRecipe;
  readonly side: SafeSide;
};

/** A dose of something weighed: in steps of a kitchen scale, or millilitres of a made-up solution when too small. */
export function weighedDose(dose: Unrounded): Quantity {
  const { side, ...rest } = dose;
  const amountG = roundedToMeasure(dose.computed, side, 1);
  if (amountG !== null) return { ...rest, amount: amountG, unit: 'g', roundedTo: side };
  const solution = asSolution(dose.computed, side);
  return {
    ...rest,
    amount: solution.amountMl,
    unit: 'mL',
    roundedTo: side,
    remarks: [...dose.remarks, `made-up-solution-${solution.strengthGPerL}-g-per-l`],
  };
}

/** Litres, square metres, hours and the like; two digits where no step fits. */
export function measured(
  quantity: Unrounded & { readonly unit: Quantity['unit']; readonly smallestStep: number },
): Quantity {
  const { side, smallestStep, ...rest } = quantity;
  const amount = roundedToMeasure(quantity.computed, side, smallestStep) ?? roundedToTwoDigits(quantity.computed, side);
  return { ...rest, amount, roundedTo: side };
}

export function pondBasis(volumeL: number): Quantity['basis'] {
  return { of: 'pond', amount: Math.round(volumeL), unit: 'L' };
}
