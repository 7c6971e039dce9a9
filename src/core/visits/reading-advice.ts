import type { ReadingQuantity } from '../care/care-rule.js';
import { DIRECT_FILL_RESERVE_SHARE, dechlorinatorDoseG } from '../water/chlorine.js';
import type { ReadingLevel } from '../water/reading-verdict.js';
import { LARGEST_CHANGE_SHARE } from '../water/water-change.js';

/** What to do now, in this order. Words belong to the page. */
export type ReadingAction =
  | 'aerate'
  | 'stop-feed'
  | 'half-feed'
  | 'no-filling'
  | 'treat-chlorine'
  | 'no-livestock'
  | 'change-water'
  | 'larger-next-change'
  | 'test-alkalinity'
  | 'test-ammonia'
  | 'leave-ph-alone'
  | 'raise-alkalinity'
  | 'leave-deep-water'
  | 'test-at-dawn'
  | 'test-in-hours'
  | 'test-tomorrow'
  | 'test-in-two-days'
  | 'tell-office';

/** The pond and the water it is filled with. */
export interface AdvisedPond {
  readonly volumeL: number;
  /** Total chlorine of the tap; 0 for well water. [mg/L Cl2] */
  readonly tapChlorineMgPerL: number;
  readonly productMgPerMgChlorine: number;
}

export interface ReadingAdvice {
  readonly actions: readonly ReadingAction[];
  /** With `change-water`: the most one visit may exchange, and the dechlorinator for it. */
  readonly change: { readonly share: number; readonly waterL: number; readonly doseG: number } | null;
}

const TOXIC_NITROGEN: Readonly<Record<ReadingLevel, readonly ReadingAction[]>> = {
  'in-order': [],
  watch: ['half-feed', 'test-in-two-days'],
  act: ['stop-feed', 'change-water', 'test-tomorrow'],
  // Order in an emergency: oxygen, feed, a dechlorinated change of a quarter at most, then a test in 2 to 6 hours.
  emergency: ['aerate', 'stop-feed', 'change-water', 'leave-ph-alone', 'test-in-hours', 'tell-office'],
};

const ABOVE: Partial<Record<ReadingQuantity, Readonly<Partial<Record<ReadingLevel, readonly ReadingAction[]>>>>> = {
  'total-ammonia': TOXIC_NITROGEN,
  'unionised-ammonia': TOXIC_NITROGEN,
  nitrite: TOXIC_NITROGEN,
  nitrate: { watch: ['larger-next-change'], act: ['change-water', 'test-in-two-days'] },
  'water-temperature': {
    watch: ['aerate', 'half-feed'],
    act: ['aerate', 'stop-feed'],
    emergency: ['aerate', 'stop-feed', 'tell-office'],
  },
  ph: { watch: ['test-ammonia', 'leave-ph-alone'], act: ['test-ammonia', 'test-alkalinity', 'leave-ph-alone'] },
  'total-chlorine': {
    act: ['no-filling', 'treat-chlorine', 'no-livestock'],
    emergency: ['no-filling', 'treat-chlorine', 'aerate', 'no-livestock', 'tell-office'],
  },
};

const BELOW: Partial<Record<ReadingQuantity, Readonly<Partial<Record<ReadingLevel, readonly ReadingAction[]>>>>> = {
  'water-temperature': { watch: ['stop-feed', 'leave-deep-water'] },
  ph: { watch: ['test-alkalinity', 'leave-ph-alone'], act: ['test-alkalinity', 'leave-ph-alone', 'tell-office'] },
  alkalinity: { watch: ['raise-alkalinity'], act: ['raise-alkalinity', 'test-in-two-days'] },
  'dissolved-oxygen': {
    watch: ['test-at-dawn'],
    act: ['aerate', 'half-feed', 'test-at-dawn'],
    emergency: ['aerate', 'stop-feed', 'tell-office'],
  },
};

/**
 * What to do about a reading that is out of order.
 * @param verdict.level and verdict.direction as `readingVerdict` gives them.
 * @see Common practice throughout; the dose is a mass balance (derived), with a tenth of reserve.
 */
export function readingAdvice(
  quantity: ReadingQuantity,
  verdict: { readonly level: ReadingLevel; readonly direction: 'above' | 'below' | null },
  pond: AdvisedPond,
): ReadingAdvice {
  const table = verdict.direction === 'below' ? BELOW : ABOVE;
  const actions = table[quantity]?.[verdict.level] ?? [];
  return { actions, change: actions.includes('change-water') ? largestChange(pond) : null };
}

function largestChange(pond: AdvisedPond): ReadingAdvice['change'] {
  const waterL = pond.volumeL * LARGEST_CHANGE_SHARE;
  const doseG = dechlorinatorDoseG({
    waterL,
    totalChlorineMgCl2PerL: pond.tapChlorineMgPerL,
    productMgPerMgChlorine: pond.productMgPerMgChlorine,
    reserveShare: DIRECT_FILL_RESERVE_SHARE,
  });
  return { share: LARGEST_CHANGE_SHARE, waterL, doseG };
}
