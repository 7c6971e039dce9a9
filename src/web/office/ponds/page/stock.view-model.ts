import { DomainError } from '../../../../core/errors.js';
import { ammoniaLoadGNPerDay, turtleFeedGPerDay } from '../../../../core/stock/ammonia-load.js';
import { FEED_PROTEIN_SHARE, feedFor } from '../../../../core/stock/feed-ration.js';
import { stockBiomass } from '../../../../core/stock/fish-mass.js';
import { civilDay } from '../../../../core/units/civil-day.js';
import { figures, showLength, showMass, showTemperature, type UnitSystem } from '../../../../core/units/show.js';
import { PLANT_WORDS, SPECIES_WORDS } from '../form/pond-form-words.js';
import type { FactLine } from './fact-line.js';
import type { PondPageData } from './pond-page-data.service.js';
import { verdictLines } from './stock-verdict.view-model.js';

const FEED_WORDS = { none: 'no food', light: 'light food', staple: 'staple food' } as const;
const FEED_REASON_WORDS: Readonly<Record<string, string>> = {
  'locked-cold': 'too cold to digest',
  'too-cold': 'too cold to digest',
  'too-hot': 'too hot',
  'no-fish': 'no fish',
};

/** Fish, turtles and plants, with today's food and the ammonia that comes of it. */
export function stockLines(data: PondPageData, units: UnitSystem): FactLine[] {
  const { pond, stock } = data.record;
  const groups = stock.map(({ species, headCount, lengthCm }) => ({ species, count: headCount, lengthCm }));
  const lines: FactLine[] = groups.map(({ species, count, lengthCm }) => {
    const { totalKg } = stockBiomass([{ species, count, lengthCm }]);
    const mass =
      species === 'slider-turtle'
        ? `counts as ${showMass(totalKg * 1000, units)} of koi`
        : `about ${showMass(totalKg * 1000, units)}`;
    return {
      name: SPECIES_WORDS[species],
      detail: `about ${showLength(lengthCm / 100, units)} long; ${mass}`,
      value: String(count),
    };
  });
  if (groups.length === 0) {
    lines.push({
      name: 'Livestock',
      detail: pond.stockedOn === null ? 'the pond is running in' : 'none on the record',
      value: 'none',
    });
  } else {
    lines.push(...verdictLines(data, units));
    lines.push(...feedLines(data, livingGroups(data, groups), units));
  }
  if (pond.plants.length > 0)
    lines.push({ name: 'Plants', detail: pond.plants.map((plant) => PLANT_WORDS[plant]).join(', '), value: '' });
  return lines;
}

/** While a new pond is stocked in parts, the calendar's last plan says how much of the stock is in. */
function livingGroups<T extends { readonly count: number }>(
  { outcome }: PondPageData,
  groups: readonly T[],
): readonly T[] {
  const stages = outcome?.findings.find(({ code }) => code === 'stocking-in-stages');
  const share = stages?.inputs.find(({ name }) => name === 'stocked-share')?.value;
  return typeof share === 'number' && share > 0
    ? groups.map((group) => ({ ...group, count: group.count * share }))
    : groups;
}

/** What the forecast's water lets them eat today; a fresh reading of ammonia or oxygen may lower it in the task itself. */
function feedLines(
  { outcome, today, record }: PondPageData,
  groups: Parameters<typeof feedFor>[0]['stock'],
  units: UnitSystem,
): FactLine[] {
  if (!outcome || record.pond.stockedOn === null) return [];
  const index = today - civilDay(outcome.outlook.firstDay);
  const mean7C = outcome.outlook.median7dMeanC[index];
  const days = outcome.outlook.p50C.slice(Math.max(0, index - 2), index + 1);
  if (mean7C === undefined || days.length === 0) return [];
  const water = {
    waterTemperature7dMeanC: mean7C,
    waterTemperature3dMeanC: days.reduce((sum, day) => sum + day, 0) / days.length,
  };
  try {
    const feed = feedFor({ stock: groups, ...water });
    const turtlesG = turtleFeedGPerDay({ stock: groups, waterTemperature7dMeanC: mean7C });
    const at = showTemperature(feed.rationTemperatureC, units);
    const protein = feed.kind === 'none' ? 0 : FEED_PROTEIN_SHARE[feed.kind];
    const ammoniaG =
      ammoniaLoadGNPerDay({ feedGPerDay: feed.feedGPerDay, feedProteinShare: protein }) +
      ammoniaLoadGNPerDay({ feedGPerDay: turtlesG, feedProteinShare: FEED_PROTEIN_SHARE.staple });
    if (feed.feedGPerDay === 0 && turtlesG === 0) {
      return [
        {
          name: 'Food today',
          detail: `${FEED_REASON_WORDS[feed.reason] ?? 'none by the ration'}, at ${at}`,
          value: 'none',
        },
      ];
    }
    return [
      {
        name: 'Food today',
        detail: `${FEED_WORDS[feed.kind]}, for the fish, at ${at}`,
        value: `${showMass(feed.feedGPerDay, units)} a day`,
      },
      { name: 'Waste', detail: 'ammonia of that food, as nitrogen', value: `${figures(ammoniaG)} g N a day` },
    ];
  } catch (error) {
    if (error instanceof DomainError) return [];
    throw error;
  }
}
