import type { PlannedTask } from '../care/care-plan.js';
import type { ReadingQuantity, RunningLoad, SeasonMark } from '../care/care-rule.js';
import { ALL_FORMULAS } from './all-formulas.js';
import type { Formula } from './formula.js';

/** Ids of the formulas behind an amount, by what it is an amount of. */
const OF_AMOUNT: Readonly<Record<string, readonly string[]>> = {
  feed: ['feed-ration'],
  'feed-per-meal': ['feed-ration'],
  'new-water': ['water-change-size', 'temperature-step'],
  dechlorinator: ['dechlorinator-dose'],
  'ammonia-set-free': ['chloramine-ammonia', 'ammonia-carried-by-filter'],
  'sodium-bicarbonate': ['bicarbonate-dose'],
  'first-livestock': ['stocking-in-parts'],
  'next-livestock': ['stocking-in-parts'],
  'lamp-hours': ['uv-lamp-life'],
  'hours-without-a-pump': ['oxygen-clock'],
  'top-up-water': ['top-up', 'evaporation-no-wind'],
};
const OF_LOAD: Readonly<Record<RunningLoad, readonly string[]>> = {
  'lamp-hours': ['uv-lamp-life'],
  'pump-days': [],
  'aerator-days': [],
  'filter-solids-g': ['rinse-interval', 'solids-from-food'],
  'evaporation-l': ['evaporation-no-wind'],
};
const OF_SEASON: Readonly<Record<SeasonMark, readonly string[]>> = {
  'last-freeze': ['freeze-dates'],
  'first-freeze': ['freeze-dates'],
  'leaf-fall': ['leaf-net', 'freeze-dates'],
  'first-ice': ['ice-of-the-simulation', 'water-forecast'],
  'ice-out': ['ice-of-the-simulation', 'water-forecast'],
};
const OF_CROSSING: readonly string[] = ['crossing-window', 'water-forecast'];
const OF_READING: Partial<Readonly<Record<ReadingQuantity, readonly string[]>>> = {
  'unionised-ammonia': ['unionised-ammonia', 'reading-verdict'],
  alkalinity: ['reading-verdict', 'bicarbonate-dose'],
};
const OF_ANY_READING = ['reading-verdict'] as const;

/** Every id this table names, for the spec that looks them up. */
export const NAMED_FORMULA_IDS: readonly string[] = [
  ...[OF_AMOUNT, OF_LOAD, OF_SEASON, OF_READING].flatMap((table) => Object.values(table).flat()),
  ...OF_CROSSING,
  ...OF_ANY_READING,
];

/** The formulas with which a task's date and amounts were worked out, the date's first; none where it is a plain count of days. */
export function formulasBehind(task: Pick<PlannedTask, 'reason' | 'quantities'>): readonly Formula[] {
  const ids = new Set([...idsOfReason(task.reason), ...task.quantities.flatMap(({ of }) => OF_AMOUNT[of] ?? [])]);
  return [...ids].flatMap((id) => ALL_FORMULAS.find((formula) => formula.id === id) ?? []);
}

function idsOfReason(reason: PlannedTask['reason']): readonly string[] {
  const named = (name: string) => String(reason.inputs.find((input) => input.name === name)?.value ?? '');
  switch (reason.trigger) {
    case 'crossing':
      return OF_CROSSING;
    case 'accumulation':
      return OF_LOAD[named('load') as RunningLoad] ?? [];
    case 'season':
      return OF_SEASON[named('mark') as SeasonMark] ?? [];
    case 'reading':
      return OF_READING[named('quantity') as ReadingQuantity] ?? OF_ANY_READING;
    default:
      return [];
  }
}
