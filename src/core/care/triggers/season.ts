import { type FreezeDates, firstFreezeOn, freezeDatesOf, lastFreezeOn } from '../../climate/freeze-dates.js';
import { leafFallOn } from '../../climate/leaf-fall.js';
import type { SiteClimate } from '../../climate/station.js';
import { addDays, type CivilDay, dayFromParts } from '../../units/civil-day.js';
import type { CareRule, SeasonMark, Trigger } from '../care-rule.js';
import { optionalParameter, type PlanningContext } from '../planning-context.js';
import { calendarYearOf, type Season, searchWindow } from '../seasons.js';
import { input, noFiring, orderedWindow, type TriggerOutcome } from './trigger-outcome.js';

type SeasonTrigger = Extract<Trigger, { kind: 'season' }>;

/** A task of a season is still worth doing this long after its last day. [days] */
const LAPSES_AFTER_DAYS = 30;

/** A date of the climate, at a stated probability: freezes and leaf fall from the normals, ice from the traces. */
export function seasonOutcome(
  trigger: SeasonTrigger,
  rule: CareRule,
  context: PlanningContext,
  season: Season,
): TriggerOutcome {
  const mark = markOn(trigger, context, season);
  if (mark === null) return noFiring(trigger.mark === 'leaf-fall' ? 'no-trees' : 'no-frost-climate', trigger.mark);
  const due = mark - optionalParameter(rule, trigger.leadDays, 0);
  const window = orderedWindow({
    earliest: due - optionalParameter(rule, trigger.earlyDays, 0),
    due,
    latest: due + optionalParameter(rule, trigger.lateDays, 0),
  });
  if (window.latest + LAPSES_AFTER_DAYS < context.today) return noFiring('overtaken', 'the season is over');
  return {
    fires: true,
    window,
    confidence: trigger.mark === 'first-ice' ? trigger.probability : 1,
    reason: {
      trigger: 'season',
      formula: FORMULAS[trigger.mark],
      source: rule.source,
      inputs: [
        input('mark', trigger.mark),
        input('probability', trigger.probability),
        input('mark-on', mark, 'day'),
        input('lead', optionalParameter(rule, trigger.leadDays, 0), 'd'),
      ],
    },
  };
}

const FORMULAS: Readonly<Record<SeasonMark, string>> = {
  'last-freeze': 'last freeze of spring over simulated years',
  'first-freeze': 'first freeze of autumn over simulated years',
  'leaf-fall': 'first freeze less 21 days, or 10-day air below 12 °C, the earlier, at most 21 days before the latter',
  'first-ice': 'first day with ice over the traces of the forecast',
  'ice-out': 'first day without ice over the traces of the forecast',
};

function markOn(trigger: SeasonTrigger, context: PlanningContext, season: Season): CivilDay | null {
  const { climate } = context.input;
  const { latitude } = context.pond;
  const year = calendarYearOf(season, latitude);
  switch (trigger.mark) {
    case 'first-freeze':
      return firstFreezeOn(freezesOf(climate), { year, probability: trigger.probability });
    case 'last-freeze':
      return lastFreezeOn(freezesOf(climate), { year, probability: trigger.probability });
    case 'leaf-fall':
      return leafFallIn(climate, year, trigger.probability);
    case 'first-ice':
      return quantileDay(
        context.outlook.firstIceDays(season),
        trigger.probability,
        searchWindow(season, latitude).from,
      );
    case 'ice-out':
      return quantileDay(context.outlook.iceOutDays(season), trigger.probability, searchWindow(season, latitude).from);
  }
}

/** Day by which the share asked for has come; null where fewer traces than that ever see it, or it lies before the season. */
function quantileDay(days: readonly (CivilDay | null)[], probability: number, from: CivilDay): CivilDay | null {
  const come = days.filter((day) => day !== null).sort((a, b) => a - b);
  const day = come[Math.max(0, Math.ceil(probability * days.length) - 1)];
  return day === undefined || day < from ? null : day;
}

/** Climate dates of a site are the same every year: worked out once for each climate that is planned with. */
const freezesByClimate = new WeakMap<SiteClimate, FreezeDates>();
const leafFallByClimate = new WeakMap<SiteClimate, Map<number, CivilDay | null>>();
/** The autumn it is worked out for; days are moved from it by their distance from 1 March. */
const LEAF_YEAR = 2025;

function freezesOf(climate: SiteClimate): FreezeDates {
  const known = freezesByClimate.get(climate) ?? freezeDatesOf(climate);
  freezesByClimate.set(climate, known);
  return known;
}

/** Day by which the leaves of an autumn have begun to drop, or null where the climate has none. */
function leafFallIn(climate: SiteClimate, year: number, probability: number): CivilDay | null {
  const known = leafFallByClimate.get(climate) ?? new Map<number, CivilDay | null>();
  leafFallByClimate.set(climate, known);
  if (!known.has(probability)) known.set(probability, leafFallOn(climate, { year: LEAF_YEAR, probability }));
  const day = known.get(probability) ?? null;
  return day === null ? null : addDays(day, dayFromParts(year, 3, 1) - dayFromParts(LEAF_YEAR, 3, 1));
}
