import { requireWithin } from '../errors.js';

/** Solids per food (0.2 to 0.5 in print), caught share, dust and leaf crumbs on the water. Common practice. */
const SOLIDS_PER_FEED_SHARE = 0.3;
const CAPTURE_SHARE = 0.7;
const AMBIENT_SOLIDS_G_PER_M2_DAY = 0.5;
/** Dry solids a litre of media holds, 2 to 10, and how much of that is used before a rinse. Common practice. */
export const HELD_G_PER_L = 5;
const HELD_RANGE_G_PER_L = { min: 2, max: 10 } as const;
const USE_SHARE = 0.8;
/** Bounds of the interval in the feeding season, and the tighter upper one for koi in warm water. [d] */
const SHORTEST_DAYS = 3;
const LONGEST_DAYS = 42;
const LONGEST_WARM_KOI_DAYS = 21;

const FEED_RANGE_G_PER_DAY = { min: 0, max: 10_000_000 } as const;
const AREA_RANGE_M2 = { min: 0, max: 100_000 } as const;

export interface SolidsSources {
  readonly feedGPerDay: number;
  readonly surfaceAreaM2: number;
  /** 0.2 to 0.5; 0.30 when left out. [-] */
  readonly solidsPerFeedShare?: number;
  /** 0.4 to 0.9; 0.7 when left out. [-] */
  readonly captureShare?: number;
  /** 0 to 3; 0.5 when left out, three times as much in leaf fall or pollen. [g/m²/day] */
  readonly ambientSolidsGPerM2Day?: number;
}

export interface MechanicalMedia {
  /** 0.1 to 100,000. [L] */
  readonly mediaVolumeL: number;
  /** 2 to 10; 5 when left out. [g/L] */
  readonly heldGPerL?: number;
  /** Part of the capacity to use, 0.1 to 1; 0.8 when left out. [-] */
  readonly useShare?: number;
}

/**
 * Dry solids a mechanical filter catches in a day. [g/day]
 *   load = y F eta + B A
 * 100 g of food and 12 m²: 27 g.
 * @see Mass balance (derived) with shares of common practice.
 */
export function solidsLoadGPerDay(sources: SolidsSources): number {
  const {
    solidsPerFeedShare = SOLIDS_PER_FEED_SHARE,
    captureShare = CAPTURE_SHARE,
    ambientSolidsGPerM2Day = AMBIENT_SOLIDS_G_PER_M2_DAY,
  } = sources;
  requireWithin('feed, g/day', sources.feedGPerDay, FEED_RANGE_G_PER_DAY);
  requireWithin('surface area, m²', sources.surfaceAreaM2, AREA_RANGE_M2);
  requireWithin('solids per feed, share', solidsPerFeedShare, { min: 0.2, max: 0.5 });
  requireWithin('capture, share', captureShare, { min: 0.4, max: 0.9 });
  requireWithin('ambient solids, g/m²/day', ambientSolidsGPerM2Day, { min: 0, max: 3 });

  return solidsPerFeedShare * sources.feedGPerDay * captureShare + ambientSolidsGPerM2Day * sources.surfaceAreaM2;
}

/** Solids a filter takes before it should be rinsed. 40 L: 160 g. [g] */
export function rinseCapacityG(media: MechanicalMedia): number {
  const { mediaVolumeL, heldGPerL = HELD_G_PER_L, useShare = USE_SHARE } = media;
  requireWithin('media volume, L', mediaVolumeL, { min: 0.1, max: 100_000 });
  requireWithin('solids held, g/L', heldGPerL, HELD_RANGE_G_PER_L);
  requireWithin('use of the capacity, share', useShare, { min: 0.1, max: 1 });
  return heldGPerL * mediaVolumeL * useShare;
}

/**
 * Days from one rinse to the next at an even load; infinite where nothing arrives. [d]
 *   T = C V u / (y F eta + B A)
 * 40 L, 100 g of food, 12 m²: 5.9 days.
 */
export function rinseIntervalDays(filter: MechanicalMedia & SolidsSources): number {
  return rinseCapacityG(filter) / solidsLoadGPerDay(filter);
}

/**
 * The interval kept to what people do in the feeding season: 3 to 42 days, for koi above 13 °C at most 21. [d]
 * @see Common practice.
 */
export function seasonRinseIntervalDays(
  filter: MechanicalMedia & SolidsSources & { hasKoi: boolean; waterTemperature7dMeanC: number },
): number {
  const longest = filter.hasKoi && filter.waterTemperature7dMeanC > 13 ? LONGEST_WARM_KOI_DAYS : LONGEST_DAYS;
  return Math.min(longest, Math.max(SHORTEST_DAYS, rinseIntervalDays(filter)));
}

/**
 * What the filter taught: capacity after a rinse that a drop of flow, not a date, called for. [g/L]
 *   C = 0.7 C + 0.3 (load since the last rinse / V), kept to 2 to 10
 * @see Common practice.
 */
export function learnedHeldGPerL(rinse: { heldGPerL: number; loadSinceRinseG: number; mediaVolumeL: number }): number {
  requireWithin('solids held, g/L', rinse.heldGPerL, HELD_RANGE_G_PER_L);
  requireWithin('solids since the last rinse, g', rinse.loadSinceRinseG, { min: 0, max: 1_000_000 });
  requireWithin('media volume, L', rinse.mediaVolumeL, { min: 0.1, max: 100_000 });
  const learned = 0.7 * rinse.heldGPerL + 0.3 * (rinse.loadSinceRinseG / rinse.mediaVolumeL);
  return Math.min(HELD_RANGE_G_PER_L.max, Math.max(HELD_RANGE_G_PER_L.min, learned));
}
