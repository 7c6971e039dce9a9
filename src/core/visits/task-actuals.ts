import type { PlannedTask } from '../care/care-plan.js';

type Actuals = Readonly<Record<string, number>>;

/**
 * The actual state a closing teaches when the technician says "done" and nothing else: the task as it was planned. A
 * new lamp starts at 0 hours; the media share rinsed and the litres changed are the planned ones.
 */
export function plannedActuals(planned: Pick<PlannedTask, 'quantities'>): Record<string, number> {
  const actuals: Record<string, number> = {};
  for (const quantity of planned.quantities) {
    if (quantity.recipe === 'lamp-hours') actuals.lampHours = 0;
    if (quantity.recipe === 'rinse-media-share') actuals.mediaShareRinsed = quantity.amount;
    if (quantity.recipe === 'water-change') actuals.changedL = quantity.amount;
    if (quantity.of === 'first-livestock' || quantity.of === 'next-livestock') actuals.stockedKg = quantity.amount;
  }
  return actuals;
}

/** Ranges of what a technician may type. */
export const ACTUAL_RANGES = {
  lampHours: { min: 0, max: 50_000 },
  mediaShareRinsed: { min: 0, max: 1 },
  changedL: { min: 0, max: 10_000_000 },
  stockedKg: { min: 0, max: 100_000 },
} as const;

export function actualsOf(planned: Pick<PlannedTask, 'quantities'>, typed: Actuals): Record<string, number> {
  return { ...plannedActuals(planned), ...typed };
}
