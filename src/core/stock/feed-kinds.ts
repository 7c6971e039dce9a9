import { requireWithin } from '../errors.js';
import { FEED_PROTEIN_SHARE, FEED_STOP_BELOW_C, STAPLE_FROM_C } from './feed-ration.js';

/** Light is wheat germ and the like, growth the rich food of warm water. */
export type FeedKind = 'light' | 'staple' | 'growth';

/** Protein of each kind, usual and range (common practice). [-] */
export const FEED_PROTEIN_RANGE: Readonly<Record<FeedKind, { usual: number; min: number; max: number }>> = {
  light: { usual: FEED_PROTEIN_SHARE.light, min: 0.2, max: 0.3 },
  staple: { usual: FEED_PROTEIN_SHARE.staple, min: 0.3, max: 0.35 },
  growth: { usual: 0.4, min: 0.35, max: 0.4 },
};

/** Growth food is for growing fish, in water in which they use it (common practice). [°C, g] */
const GROWTH_FOOD_C = { from: 20, below: 28 } as const;
const GROWING_BELOW_G = 500;
/** The light food of cool water ends here (common practice, the table of kinds). [°C] */
const LIGHT_FOOD_BELOW_C = 16;
const TOO_HOT_ABOVE_C = 32;

/** Maintenance ration of young carp. [°C, % of body mass per day] */
const MAINTENANCE: readonly (readonly [temperatureC: number, pctPerDay: number])[] = [
  [12, 0.4],
  [18, 0.75],
  [24, 1.2],
  [30, 1.9],
];

/**
 * Kinds of food that suit a fish at a temperature, the best first; none where it is not fed.
 * Staple food may be given from 15 °C on, where the change-over message goes out; light food does no harm up to 16.
 * @param fish.fishMassG 0 to 50,000: below 500 g a fish still grows. [g]
 * @param fish.waterTemperatureC -1 to 45. [°C]
 * @see Common practice; protein for growth FAO (30 to 38 %).
 */
export function suitableFeed(fish: { fishMassG: number; waterTemperatureC: number }): readonly FeedKind[] {
  requireWithin('fish mass, g', fish.fishMassG, { min: 0, max: 50_000 });
  requireWithin('water temperature, °C', fish.waterTemperatureC, { min: -1, max: 45 });
  const { waterTemperatureC: waterC } = fish;
  if (waterC < FEED_STOP_BELOW_C || waterC > TOO_HOT_ABOVE_C) return [];
  if (waterC < STAPLE_FROM_C) return ['light'];
  if (waterC < LIGHT_FOOD_BELOW_C) return ['staple', 'light'];
  const grows = fish.fishMassG < GROWING_BELOW_G && waterC >= GROWTH_FOOD_C.from && waterC < GROWTH_FOOD_C.below;
  return grows ? ['growth', 'staple'] : ['staple'];
}

/**
 * Food that only keeps the mass of a young carp, 12 to 30 °C; outside it throws. [share of body mass per day]
 * At 12, 18, 24 and 30 °C 0.0040, 0.0075, 0.0120 and 0.0190, between them on a line. Adults need less.
 * @see Goolish & Adelman (1984), Aquaculture 36, 27-35 (published source).
 */
export function maintenanceRationShare(water: { temperatureC: number }): number {
  const first = MAINTENANCE[0]!;
  const last = MAINTENANCE[MAINTENANCE.length - 1]!;
  requireWithin('water temperature, °C', water.temperatureC, { min: first[0], max: last[0] });
  const upper = Math.max(
    1,
    MAINTENANCE.findIndex(([pointC]) => pointC >= water.temperatureC),
  );
  const [coldC, coldPct] = MAINTENANCE[upper - 1]!;
  const [warmC, warmPct] = MAINTENANCE[upper]!;
  return (coldPct + ((warmPct - coldPct) * (water.temperatureC - coldC)) / (warmC - coldC)) / 100;
}
