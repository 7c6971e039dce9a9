import type { StockGroup } from '../care/pond-facts.js';
import { requireWithin } from '../errors.js';
import { nitrificationCapacityGNPerDay } from '../filter/nitrification.js';
import { ammoniaLoadGNPerDay, turtleFeedGPerDay } from './ammonia-load.js';
import { FEED_PROTEIN_SHARE, feedFor } from './feed-ration.js';
import { stockBiomass } from './fish-mass.js';
import { oxygenDemand } from './oxygen-demand.js';
import { FULL_TO_KG_PER_M3, type Stocking } from './stocking.js';

/** The filter is judged in warm water, when fish eat most; oxygen in hot water, which holds least (common practice). [°C] */
export const FILTER_JUDGED_AT_C = 25;
export const OXYGEN_JUDGED_AT_C = 30;

/** What may run out first. */
export type StockLimit = 'water' | 'filter' | 'oxygen';

export interface StockMeasure {
  readonly limit: StockLimit;
  /** What the stock asks for, in the unit. */
  readonly load: number;
  /** What is there, in the unit: the load of a pond that is just full. */
  readonly capacity: number;
  readonly unit: 'kg/m3' | 'g N/day' | 'g O2/h';
  /** load / capacity: up to 0.5 comfortable, up to 1 full, up to 2 over. [-] */
  readonly use: number;
  readonly verdict: Stocking;
}

export interface StockJudgement {
  /** The gravest of the measures. */
  readonly verdict: Stocking;
  /** The measure with the least to spare. */
  readonly limiting: StockMeasure;
  /** In the order water, filter, oxygen, as far as they are known; oxygen only where there are fish. */
  readonly measures: readonly StockMeasure[];
  readonly unknown: readonly StockLimit[];
  /** Fish, and turtles as the koi that load a pond as much. */
  readonly totalKg: number;
  /** Of this stock, how much the pond would carry comfortably by what is known; null without stock. [kg] */
  readonly comfortableKg: number | null;
}

/** Ends of the first three verdicts on every measure, as the rule of 1, 2 and 4 kg/m³ has them (common practice). [-] */
const COMFORTABLE_USE = 0.5;
const FULL_USE = 1;
const OVER_USE = 2;

/**
 * How full a pond is, by whichever of three runs out first: live mass for its water (full at 2 kg/m³), ammonia of its
 * food for the filter at 25 °C, oxygen for its aeration at 30 °C. Turtles count as the koi that load a pond as much;
 * they take no oxygen from the water, though the bacteria on their food do: a pond of turtles alone is not judged by it.
 * Ten koi of 50 cm in 15 m³: 1.38 kg/m³, full.
 * @param pond.volumeL 1 to 10,000,000. [L]
 * @param pond.mediaAreaM2 Surface of all ripe media, 0 to 1,000,000; null where nobody knows. [m²]
 * @param pond.oxygenSupplyGPerH What the aeration gives at 30 °C while the water keeps 5 mg/L, 0 to 100,000; null where
 *   nobody knows. [g/h]
 * @see Common practice: the density rule, and "filter at 25 °C, oxygen at 30 °C" beside it. Rules in print differ tenfold.
 */
export function judgeStock(pond: {
  stock: readonly StockGroup[];
  volumeL: number;
  mediaAreaM2: number | null;
  oxygenSupplyGPerH: number | null;
}): StockJudgement {
  requireWithin('pond volume, L', pond.volumeL, { min: 1, max: 10_000_000 });
  const { totalKg, fishKg } = stockBiomass(pond.stock);
  const water = measureOf('water', totalKg / (pond.volumeL / 1000), FULL_TO_KG_PER_M3, 'kg/m3');
  const measures = [water];
  const unknown: StockLimit[] = [];
  const feedGPerDay = warmFeedGPerDay(pond.stock);

  if (pond.mediaAreaM2 === null) unknown.push('filter');
  else {
    const capacity = nitrificationCapacityGNPerDay({
      mediaAreaM2: pond.mediaAreaM2,
      temperatureC: FILTER_JUDGED_AT_C,
      maturityShare: 1,
    });
    const load = ammoniaLoadGNPerDay({ feedGPerDay, feedProteinShare: FEED_PROTEIN_SHARE.staple });
    measures.push(measureOf('filter', load, capacity, 'g N/day'));
  }

  if (!fishKg) return judgementOf(measures, unknown, totalKg);
  if (pond.oxygenSupplyGPerH === null) unknown.push('oxygen');
  else {
    requireWithin('oxygen from aeration, g/h', pond.oxygenSupplyGPerH, { min: 0, max: 100_000 });
    const { demandGPerH } = oxygenDemand({ stock: pond.stock, waterTemperatureC: OXYGEN_JUDGED_AT_C, feedGPerDay });
    measures.push(measureOf('oxygen', demandGPerH, pond.oxygenSupplyGPerH, 'g O2/h'));
  }
  return judgementOf(measures, unknown, totalKg);
}

function judgementOf(
  measures: readonly StockMeasure[],
  unknown: readonly StockLimit[],
  totalKg: number,
): StockJudgement {
  const limiting = measures.reduce((worst, measure) => (measure.use > worst.use ? measure : worst));
  const comfortableKg = totalKg === 0 ? null : (totalKg * COMFORTABLE_USE) / limiting.use;
  return { verdict: limiting.verdict, limiting, measures, unknown, totalKg, comfortableKg };
}

/** Staple food of fish and turtles in water in which they eat most. [g/day] */
function warmFeedGPerDay(stock: readonly StockGroup[]): number {
  const water = { waterTemperature7dMeanC: FILTER_JUDGED_AT_C, waterTemperature3dMeanC: FILTER_JUDGED_AT_C };
  return feedFor({ stock, ...water }).feedGPerDay + turtleFeedGPerDay({ stock, ...water });
}

function measureOf(limit: StockLimit, load: number, capacity: number, unit: StockMeasure['unit']): StockMeasure {
  const use = load === 0 ? 0 : load / capacity;
  return { limit, load, capacity, unit, use, verdict: verdictOf(use) };
}

function verdictOf(use: number): Stocking {
  if (use <= COMFORTABLE_USE) return 'comfortable';
  if (use <= FULL_USE) return 'full';
  return use <= OVER_USE ? 'over' : 'far-over';
}
