import type { CareRule } from '../../../../core/care/care-rule.js';
import { taskTitle } from '../../../../core/care/explain.js';
import type { ProjectedOccurrence } from '../../../../core/care/project-occurrences.js';
import type { CivilDay } from '../../../../core/units/civil-day.js';
import type { LaterMark } from '../../../charts/chart-figures.js';
import { dateRange, shortDate } from '../../../charts/show-date.js';

/** What comes after the tasks of the calendar, one line for each rule and machine. */
export interface LaterModel {
  readonly count: number;
  readonly lines: readonly LaterLine[];
}

export interface LaterLine {
  readonly title: string;
  readonly who: 'technician' | 'homeowner';
  /** `12 more times, until 30 Jun`, `once more`, `again next season`. */
  readonly times: string;
  /** `about 3 Nov, likely 28 Oct – 12 Nov`; a standing line begins with its season. */
  readonly next: string;
  /** Where it can come at the widest; empty for a standing line. */
  readonly possible: string;
}

export function laterModel(
  later: readonly ProjectedOccurrence[],
  rules: ReadonlyMap<string, CareRule>,
  today: CivilDay,
): LaterModel {
  const groups = new Map<string, ProjectedOccurrence[]>();
  for (const one of later) {
    const key = `${one.ruleId}\n${one.machine?.id ?? ''}`;
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  const lines = [...groups.values()].flatMap((group) => lineOf(group, rules, today));
  return { count: later.length, lines };
}

function lineOf(
  group: readonly ProjectedOccurrence[],
  rules: ReadonlyMap<string, CareRule>,
  today: CivilDay,
): LaterLine[] {
  const [next] = group;
  const last = group.at(-1);
  const rule = next && rules.get(next.ruleId);
  if (!next || !last || !rule) return [];
  return [
    {
      title: taskTitle(next, rule),
      who: next.doneBy,
      times: timesWords(next, last, group.length),
      next: next.routineLine
        ? `from about ${shortDate(next.due)}`
        : `about ${shortDate(next.due)}, likely ${dateRange(next.likely.from, next.likely.until, today)}`,
      possible: next.routineLine ? '' : dateRange(next.possible.from, next.possible.until, today),
    },
  ];
}

function timesWords({ routineLine }: ProjectedOccurrence, last: ProjectedOccurrence, times: number): string {
  if (routineLine) return times === 1 ? 'again next season' : `in ${times} more seasons`;
  return times === 1 ? 'once more' : `${times} more times, the last about ${shortDate(last.due)}`;
}

/** The same as dots on the year wheel; standing lines are seasons, and drawn elsewhere. */
export function laterMarks(later: readonly ProjectedOccurrence[]): LaterMark[] {
  return later.filter(({ routineLine }) => !routineLine).map(({ due, doneBy }) => ({ due, doneBy }));
}
