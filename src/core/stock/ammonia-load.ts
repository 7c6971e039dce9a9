import type { StockGroup } from '../care/pond-facts.js';
import { requireWithin } from '../errors.js';
import { stockBiomass } from './fish-mass.js';

/**
 * Ammonia nitrogen per protein eaten: 0.16 N in protein, of which 0.80 taken up, 0.80 of that excreted, 0.90 of that as
 * ammonia. In print 0.07 to 0.13. [g N per g protein]
 */
const AMMONIA_N_PER_PROTEIN = 0.092;

/** A slider eats like a kilogram of koi at 22 °C, down to 20 °C; less from there, nothing below 15 °C (our own rule). */
const TURTLE_FEED_G_PER_KG_DAY = 10;
const TURTLE_TAPER_BELOW_C = 20;
const TURTLE_STOP_BELOW_C = 15;

/**
 * Total ammonia a day that comes of the food. [g N per day]
 *   P = 0.092 F PC
 * 200 g of 35 % protein: 6.44 g.
 * @param feed.feedGPerDay Food really given, 0 to 10,000,000. [g/day]
 * @param feed.feedProteinShare Protein of the food, 0 to 0.8. [-]
 * @see Timmons & Ebeling, Recirculating Aquaculture (published source, quoted by a teaching text).
 */
export function ammoniaLoadGNPerDay(feed: { feedGPerDay: number; feedProteinShare: number }): number {
  requireWithin('feed, g/day', feed.feedGPerDay, { min: 0, max: 10_000_000 });
  requireWithin('protein of the feed, share', feed.feedProteinShare, { min: 0, max: 0.8 });
  return AMMONIA_N_PER_PROTEIN * feed.feedGPerDay * feed.feedProteinShare;
}

/**
 * Food of the turtles of a stock, as staple food that loads the pond as much. [g/day]
 * No measured rate for sliders was found: show it as a range of three.
 */
export function turtleFeedGPerDay(pond: { stock: readonly StockGroup[]; waterTemperature7dMeanC: number }): number {
  requireWithin('7-day mean of the water, °C', pond.waterTemperature7dMeanC, { min: -1, max: 45 });
  const appetite = (pond.waterTemperature7dMeanC - TURTLE_STOP_BELOW_C) / (TURTLE_TAPER_BELOW_C - TURTLE_STOP_BELOW_C);
  const { turtleKgEquivalent } = stockBiomass(pond.stock);
  return TURTLE_FEED_G_PER_KG_DAY * turtleKgEquivalent * Math.min(1, Math.max(0, appetite));
}
