import type { WhatIfComparison, YearSide } from '../../../../care-calendar/index.js';
import type { PlannedTask } from '../../../../core/care/care-plan.js';
import type { CareRule } from '../../../../core/care/care-rule.js';
import type { RuleDifference } from '../../../../core/care/compare-plans.js';
import { findingWords, notDueWords, quantityWords } from '../../../../core/care/explain.js';
import type { Stocking } from '../../../../core/stock/stocking.js';
import { type CivilDay } from '../../../../core/units/civil-day.js';
import { figures, showMass, showMinutes, showTemperature, type UnitSystem } from '../../../../core/units/show.js';
import { shortDate } from '../../../charts/show-date.js';
import { STOCKING_WORDS } from '../page/stock-verdict.view-model.js';
import { dawnWords, hoursWords } from './year-words.js';

/** One figure of both years. */
export interface FigureRow {
  readonly name: string;
  readonly before: string;
  readonly after: string;
  readonly isChanged: boolean;
}

export interface TaskRow {
  readonly title: string;
  readonly before: string;
  readonly after: string;
  /** `9 days earlier`, `21 times in the year instead of 14`, `new`, … */
  readonly words: string;
  readonly isAtHome: boolean;
}

export interface WhatIfResult {
  readonly lead: string;
  readonly figures: readonly FigureRow[];
  readonly tasks: readonly TaskRow[];
  /** What would have to be looked at then, and what would be settled. */
  readonly newFindings: readonly string[];
  readonly settled: readonly string[];
  readonly note: string;
}

export function whatIfResult(
  comparison: WhatIfComparison,
  rules: ReadonlyMap<string, CareRule>,
  units: UnitSystem,
): WhatIfResult {
  const { asItStands, changed, differences, isWithoutReadings } = comparison;
  const rows = figureRows(asItStands, changed, units);
  const findings = (side: YearSide) => side.year.plan.findings.map((finding) => findingWords(finding, units));
  const codes = (side: YearSide) => new Set(side.year.plan.findings.map(({ code }) => code));
  const onlyIn = (side: YearSide, other: YearSide) =>
    findings(side).filter((_, index) => !codes(other).has(side.year.plan.findings[index]?.code as never));
  return {
    lead: leadOf(comparison, rows),
    figures: rows,
    tasks: differences.map((difference) => taskRow(difference, rules, comparison.today, units)),
    newFindings: onlyIn(changed, asItStands),
    settled: onlyIn(asItStands, changed),
    note: isWithoutReadings
      ? 'Readings of the water tell of the pond as it stands, so both years are worked out without them; dates may differ a little from the calendar.'
      : 'Both years count what was done and read so far.',
  };
}

function leadOf({ differences, asItStands, changed }: WhatIfComparison, rows: readonly FigureRow[]): string {
  const before = asItStands.figures.stocking;
  const after = changed.figures.stocking;
  const stock =
    after && before?.verdict !== after.verdict
      ? `The stock would be ${STOCKING_WORDS[after.verdict]}${before ? ` instead of ${STOCKING_WORDS[before.verdict]}` : ''}, by its ${after.settledBy}. `
      : '';
  if (differences.length === 0 && rows.every(({ isChanged }) => !isChanged)) return 'Nothing would change.';
  const count = (kinds: readonly RuleDifference['kind'][]) =>
    differences.filter(({ kind }) => kinds.includes(kind)).length;
  const parts = [
    [count(['new']), 'new'],
    [count(['gone']), 'gone'],
    [count(['more-often', 'less-often']), 'more or less often'],
    [count(['moved']), 'on other days'],
    [count(['other-amount']), 'with other amounts'],
    [count(['other-person']), 'by somebody else'],
  ] as const;
  const said = parts.filter(([number]) => number > 0).map(([number, words]) => `${number} ${words}`);
  return `${stock}${said.length === 0 ? 'The calendar stays as it is; figures change.' : `Of the care, ${said.join(', ')}.`}`;
}

function figureRows({ figures: before }: YearSide, { figures: after }: YearSide, units: UnitSystem): FigureRow[] {
  const row = (name: string, words: (side: YearSide['figures']) => string | null): FigureRow[] => {
    const [first, second] = [words(before), words(after)];
    if (first === null && second === null) return [];
    return [{ name, before: first ?? 'none', after: second ?? 'none', isChanged: first !== second }];
  };
  return [
    ...row('Stock', ({ stocking }) =>
      stocking ? `${STOCKING_WORDS[stocking.verdict satisfies Stocking]}, by its ${stocking.settledBy}` : null,
    ),
    ...row('Food in the year', ({ feedG }) => (feedG > 0 ? showMass(feedG, units) : null)),
    ...row('Food on the day with most', ({ mostFeedGPerDay }) =>
      mostFeedGPerDay > 0 ? showMass(mostFeedGPerDay, units) : null,
    ),
    ...row('Ammonia at its worst, for the filter', ({ ammonia }) => ammonia && ammoniaWords(ammonia)),
    ...row('Turnover', ({ turnover }) => turnover && turnoverWords(turnover)),
    ...row('Water in July', ({ julyC }) => showTemperature(julyC, units, 1)),
    ...row('Water in January', ({ januaryC }) => showTemperature(januaryC, units, 1)),
    ...row('Days with ice, more likely than not', ({ iceDays }) => (iceDays > 0 ? String(iceDays) : null)),
    ...row('Oxygen at dawn, on the warmest day', ({ dawn }) => dawn && dawnWords(dawn.oxygen.range)),
    ...row('Without power then', ({ dawn }) => dawn && hoursWords(dawn.oxygen.hoursWithoutPower)),
    ...row('Our time in the year', ({ companyMinutes }) => (companyMinutes > 0 ? showMinutes(companyMinutes) : null)),
  ];
}

function ammoniaWords({ loadGNPerDay, capacityGNPerDay, on }: NonNullable<YearSide['figures']['ammonia']>): string {
  const load = `${figures(loadGNPerDay)} g N a day about ${shortDate(on)}`;
  if (capacityGNPerDay === null) return `${load}; the filter is not on the record`;
  const share = Math.round((100 * loadGNPerDay) / Math.max(capacityGNPerDay, 1e-6));
  const verdict = share > 100 ? 'too much' : share > 50 ? 'little to spare' : 'in order';
  return `${load}, of ${figures(capacityGNPerDay)} it takes (${share} %): ${verdict}`;
}

function turnoverWords({ perHour, neededPerHour }: NonNullable<YearSide['figures']['turnover']>): string {
  const verdict = perHour >= neededPerHour ? 'in order' : 'too little';
  return `${figures(perHour)} an hour, of ${neededPerHour} asked for: ${verdict}`;
}

function taskRow(
  difference: RuleDifference,
  rules: ReadonlyMap<string, CareRule>,
  today: CivilDay,
  units: UnitSystem,
): TaskRow {
  const { ruleId, before, after } = difference;
  const rule = rules.get(ruleId);
  return {
    title: rule?.title ?? ruleId,
    before: before ? sideWords(before, difference.timesBefore, today, units) : 'not due',
    after: after
      ? sideWords(after, difference.timesAfter, today, units)
      : difference.notDue && rule
        ? notDueWords(difference.notDue, rule)
        : 'not due',
    words: kindWords(difference),
    isAtHome: (after ?? before)?.doneBy === 'homeowner',
  };
}

function sideWords(task: PlannedTask, times: number, today: CivilDay, units: UnitSystem): string {
  const due = task.routineLine
    ? `through its season, from ${shortDate(task.window.due)}`
    : task.window.due <= today
      ? 'now'
      : `next ${shortDate(task.window.due)}`;
  const often = task.routineLine || times === 1 ? '' : `, ${times} times in the year`;
  const amounts = task.quantities.map((quantity) => quantityWords({ ...quantity, remarks: [] }, units));
  return [`${due}${often}.`, ...amounts].join(' ');
}

function kindWords({ kind, timesBefore, timesAfter, movedDays, after }: RuleDifference): string {
  switch (kind) {
    case 'new':
      return 'new';
    case 'gone':
      return 'not any more';
    case 'more-often':
    case 'less-often':
      return `${timesAfter} times in the year instead of ${timesBefore}`;
    case 'other-person':
      return after?.doneBy === 'homeowner' ? 'by the homeowner' : 'by us';
    case 'other-amount':
      return 'another amount';
    case 'moved':
      return movedWords(movedDays ?? 0);
  }
}

function movedWords(days: number): string {
  const many = Math.abs(days) === 1 ? '1 day' : `${Math.abs(days)} days`;
  return `${many} ${days < 0 ? 'earlier' : 'later'}`;
}
