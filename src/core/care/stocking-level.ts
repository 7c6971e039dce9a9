import { stockBiomass } from '../stock/fish-mass.js';
import type { Stocking } from './care-rule.js';
import type { PondFacts } from './pond-facts.js';

/** More fish than this is heavy stock whatever the species (common practice). [kg/m³] */
const HEAVY_KG_PER_M3 = 1;

/** Koi, or more than 1 kg of fish and turtles per m³, are heavy stock: a tenth of the water a week instead of a fifth a month. */
export function stockingLevel(pond: Pick<PondFacts, 'stock' | 'volumeL'>): Stocking {
  const hasKoi = pond.stock.some((group) => group.species === 'koi' && group.count > 0);
  const kgPerM3 = stockBiomass(pond.stock).totalKg / (pond.volumeL / 1000);
  return hasKoi || kgPerM3 > HEAVY_KG_PER_M3 ? 'heavy' : 'light';
}
