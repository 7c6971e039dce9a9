import { doseVolumeL } from '../../hydraulics/dose-volume.js';
import {
  ALKALINITY_RUN_IN_MG_CACO3_PER_L,
  ALKALINITY_TARGET_MG_CACO3_PER_L,
  alkalinityDose,
} from '../../water/alkalinity.js';
import type { Quantity } from '../care-plan.js';
import { lastReading } from '../history-index.js';
import { isInRunIn } from '../living-stock.js';
import { pondBasis, type QuantityContext, weighedDose } from './quantity-context.js';

/** Bicarbonate for today, at most 20 mg/L of rise, from the latest reading; nothing without one or at the target. */
export function alkalinityDoses(context: QuantityContext): readonly Quantity[] {
  const { plan } = context;
  const reading = lastReading(plan.history, 'alkalinity', plan.today);
  if (!reading) return [];
  const target = isInRunIn(plan.pond) ? ALKALINITY_RUN_IN_MG_CACO3_PER_L : ALKALINITY_TARGET_MG_CACO3_PER_L;
  if (reading.value >= target) return [];
  const volumeL = doseVolumeL({ ...plan.pond, purpose: 'correction' });
  const dose = alkalinityDose({
    volumeL,
    alkalinityMgCaCO3PerL: reading.value,
    targetMgCaCO3PerL: target,
  });
  return [
    weighedDose({
      recipe: 'alkalinity-dose',
      of: 'sodium-bicarbonate',
      per: 'per-day',
      side: 'down',
      computed: dose.bicarbonateTodayG,
      basis: pondBasis(volumeL),
      formula: '1.679 g per m³ and mg/L of rise, at most 20 mg/L a day',
      source: 'derived; daily limit common practice',
      remarks: [`days-${dose.days}`, 'test-before-each-day'],
    }),
  ];
}
