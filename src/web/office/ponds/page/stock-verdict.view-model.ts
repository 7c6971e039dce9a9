import { type JudgedPond, stockJudgement } from '../../../../core/care/stocking-stages.js';
import { DomainError } from '../../../../core/errors.js';
import { grownStock } from '../../../../core/stock/growth.js';
import {
  FILTER_JUDGED_AT_C,
  OXYGEN_JUDGED_AT_C,
  type StockJudgement,
  type StockLimit,
  type StockMeasure,
} from '../../../../core/stock/stock-judgement.js';
import { COMFORTABLE_TO_KG_PER_M3, type Stocking } from '../../../../core/stock/stocking.js';
import { G_PER_LB } from '../../../../core/units/mass-units.js';
import { figures, showTemperature, type UnitSystem } from '../../../../core/units/show.js';
import { L_PER_US_GAL } from '../../../../core/units/volume-units.js';
import type { FactLine } from './fact-line.js';
import type { PondPageData } from './pond-page-data.service.js';

export const STOCKING_WORDS: Readonly<Record<Stocking, string>> = {
  comfortable: 'comfortable',
  full: 'a full pond',
  over: 'overstocked',
  'far-over': 'far overstocked',
};
const LIMIT_WORDS: Readonly<Record<StockLimit, string>> = { water: 'Water', filter: 'Filter', oxygen: 'Oxygen' };
const UNKNOWN_WORDS: Readonly<Record<StockLimit, string>> = {
  water: 'the volume is not known',
  filter: 'the media are not on the record',
  oxygen: 'nobody measured how much comes in',
};
/** How far ahead the fish are let grow. [years] */
const YEARS_AHEAD = 3;

/** The verdict on the stock with the number it comes from, what could not be judged, and what growing makes of it. */
export function verdictLines({ record }: Pick<PondPageData, 'record'>, units: UnitSystem): FactLine[] {
  const { pond, stock, equipment } = record;
  const judged: JudgedPond = {
    stock: stock.map(({ species, headCount, lengthCm }) => ({ species, count: headCount, lengthCm })),
    volumeL: pond.volumeL,
    surfaceAreaM2: pond.surfaceAreaM2,
    meanDepthM: pond.meanDepthM,
    elevationM: pond.elevationM,
    waterfall: pond.waterfall,
    equipment: equipment
      .filter(({ removedOn }) => removedOn === null)
      .map(({ id, kind, name, rated }) => ({ id, kind, name, rated, installedOn: null, warrantyUntil: null })),
  };
  try {
    const now = stockJudgement(judged);
    return [
      { name: 'Stock', detail: settledBy(now), value: STOCKING_WORDS[now.verdict] },
      ...now.measures.map((measure) => measureLine(measure, units)),
      ...now.unknown.map((limit) => ({ name: LIMIT_WORDS[limit], detail: UNKNOWN_WORDS[limit], value: 'not judged' })),
      ...grownLine(judged, now, units),
    ];
  } catch (error) {
    if (error instanceof DomainError) return [];
    throw error;
  }
}

function settledBy({ limiting, measures }: StockJudgement): string {
  return measures.length === 1 ? `by its ${limiting.limit}` : `by its ${limiting.limit}, which has the least to spare`;
}

/** What the stock asks for and what is there, with the number behind the verdict. */
function measureLine(measure: StockMeasure, units: UnitSystem): FactLine {
  const { limit, load, capacity } = measure;
  const name = LIMIT_WORDS[limit];
  const part = `${figures(load)} of ${figures(capacity)}`;
  const used = `${Math.round(100 * measure.use)} %`;
  switch (limit) {
    case 'water':
      return {
        name,
        detail: `comfortable up to ${densityWords(COMFORTABLE_TO_KG_PER_M3, units)}`,
        value: densityWords(load, units),
      };
    case 'filter':
      return {
        name,
        detail: `${part} g of nitrogen a day at ${showTemperature(FILTER_JUDGED_AT_C, units)}`,
        value: used,
      };
    case 'oxygen':
      return { name, detail: `${part} g an hour at ${showTemperature(OXYGEN_JUDGED_AT_C, units)}`, value: used };
  }
}

/** Live mass to the water. */
function densityWords(kgPerM3: number, units: UnitSystem): string {
  if (units === 'metric') return `${figures(kgPerM3)} kg per m³`;
  return `${figures(((kgPerM3 * 1000) / G_PER_LB) * L_PER_US_GAL)} lb per 1,000 gal`;
}

function grownLine(judged: JudgedPond, now: StockJudgement, units: UnitSystem): FactLine[] {
  const grown = stockJudgement({ ...judged, stock: grownStock(judged.stock, YEARS_AHEAD) });
  if (grown.totalKg < 1.05 * now.totalKg) return [];
  const { name, value } = measureLine(grown.limiting, units);
  return [
    {
      name: `In ${YEARS_AHEAD} years`,
      detail: `grown as koi and goldfish grow when well kept; ${name.toLowerCase()} ${value}`,
      value: STOCKING_WORDS[grown.verdict],
    },
  ];
}
