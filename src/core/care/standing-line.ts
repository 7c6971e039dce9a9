import { addDays, type CivilDay } from '../units/civil-day.js';
import type { CareRule } from './care-rule.js';
import { seasonCycle } from './cycle.js';
import type { Occurrences } from './draft-task.js';
import type { PlanningContext } from './planning-context.js';
import { nextSeason, type Season, seasonEnd, seasonOf, seasonStart } from './seasons.js';
import { seasonTest } from './triggers/interval.js';
import { input, orderedWindow } from './triggers/trigger-outcome.js';

/** Shorter warm spells do not open a season. [days] */
const SHORTEST_SEASON_DAYS = 7;
/** The line stands this much longer, with nothing to give if need be, in case the season comes back. [days] */
const LINGERS_DAYS = 21;

/**
 * Daily and weekly routine (feed, top up) is one line that stands for a whole season, with the quantities of the
 * current week; it is never late. The season is the run of days in the rule's temperatures, cut at midwinter; a line
 * that holds all year begins anew each midwinter.
 */
export function standingLine(rule: CareRule, context: PlanningContext): Occurrences {
  const trigger = rule.anyOf.find((candidate) => candidate.kind === 'interval');
  if (trigger?.kind !== 'interval') {
    return { drafts: [], notDue: [{ ruleId: rule.id, because: 'switched-off', detail: 'no interval' }] };
  }
  const { pond, today, horizon, history } = context;
  const isInSeason = seasonTest(trigger, rule, context);
  const thisYear = seasonOf('warming', today, pond.latitude);
  for (const season of [thisYear, nextSeason(thisYear)]) {
    const span = firstRun(isInSeason, season, context);
    const cycle = seasonCycle(season);
    if (
      !span ||
      span.from > horizon ||
      addDays(span.until, LINGERS_DAYS) < today ||
      history.finishedCycles(rule.id).has(cycle)
    )
      continue;
    const lastDay = Math.min(span.until + LINGERS_DAYS, seasonEnd(season, pond.latitude));
    const from = Math.max(span.from, pond.commissionedOn ?? span.from);
    const window = orderedWindow({ earliest: from, due: from, latest: lastDay });
    const reason = {
      trigger: 'interval' as const,
      formula: 'stands while the 7-day mean of the water is in season',
      source: rule.source,
      inputs: [input('season-from', window.earliest, 'day'), input('season-until', span.until, 'day')],
    };
    return { drafts: [{ rule, cycle, window, firing: { fires: true, window, confidence: 1, reason } }], notDue: [] };
  }
  return { drafts: [], notDue: [{ ruleId: rule.id, because: 'no-crossing', detail: 'never in season' }] };
}

/** From the first day of the first run of days in season to the last day in season, within the season's year. */
function firstRun(
  isInSeason: (day: CivilDay) => boolean,
  season: Season,
  { pond }: PlanningContext,
): { from: CivilDay; until: CivilDay } | null {
  const end = seasonEnd(season, pond.latitude);
  let from: CivilDay | null = null;
  let until: CivilDay | null = null;
  let run = 0;
  for (let day = seasonStart(season, pond.latitude); day <= end; day = addDays(day, 1)) {
    run = isInSeason(day) ? run + 1 : 0;
    if (run >= SHORTEST_SEASON_DAYS) {
      from ??= addDays(day, 1 - SHORTEST_SEASON_DAYS);
      until = day;
    }
  }
  return from !== null && until !== null ? { from, until } : null;
}
