import type { Member } from '../../../accounts/index.js';
import { addDays, type CivilDay, civilDay, isoDateOf } from '../../../core/units/civil-day.js';
import { showMinutes } from '../../../core/units/show.js';
import type { VisitListRow, VisitState } from '../../../visits/index.js';
import { longWeekdayDate } from '../../charts/show-date.js';
import { type Choice, type EmptyList, type ListPages, listPages } from '../../shell/list-pages.js';
import { toldWords } from '../../technician/clock-words.js';
import { stateWord } from '../../technician/stop.view-model.js';
import { mondayOf, weekWords } from './visit-week.js';

export interface VisitListAddress {
  readonly week: CivilDay;
  readonly state: VisitState | 'all' | 'flagged';
  /** Days that take the place of the week. */
  readonly from?: string | undefined;
  readonly to?: string | undefined;
  readonly who: string;
  readonly search: string;
  readonly page: number;
}

export interface VisitListModel {
  readonly week: string;
  readonly before: string;
  readonly after: string;
  /** Null while this week is shown. */
  readonly thisWeek: string | null;
  /** Addresses of the whole list with its filters. */
  readonly exports: { readonly csv: string; readonly json: string };
  readonly from: string;
  readonly to: string;
  readonly sentence: string;
  readonly states: readonly Choice[];
  readonly people: readonly Choice[];
  readonly search: string;
  /** Hidden fields of the search form. */
  readonly kept: Readonly<Record<string, string>>;
  readonly days: readonly { readonly title: string; readonly isToday: boolean; readonly rows: readonly VisitLine[] }[];
  readonly pages: ListPages | null;
  readonly empty: EmptyList | null;
}

export interface VisitLine {
  readonly href: string;
  readonly told: string;
  readonly pondName: string;
  readonly town: string;
  readonly tasks: string;
  readonly minutes: string;
  readonly who: string;
  readonly isUnassigned: boolean;
  readonly stateWord: string;
  readonly isFlagged: boolean;
  readonly isOutsideWindow: boolean;
}

export const VISITS_PER_PAGE = 100;
const STATES = [
  ['all', 'all'],
  ['TENTATIVE', 'planned'],
  ['CONFIRMED', 'confirmed'],
  ['IN-PROCESS', 'under way'],
  ['COMPLETED', 'done'],
  ['CANCELLED', 'cancelled'],
  ['flagged', 'to look at, of all weeks'],
] as const;

export function visitListModel(list: {
  readonly found: { readonly rows: readonly VisitListRow[]; readonly total: number };
  readonly address: VisitListAddress;
  readonly people: readonly Member[];
  readonly today: CivilDay;
}): VisitListModel {
  const { found, address, today } = list;
  const to = (change: Partial<VisitListAddress>) => hrefOf({ ...address, page: 1, ...change });
  const here = mondayOf(today);
  return {
    week: hasDays(address) ? 'The days below' : weekWords(address.week),
    before: to({ week: addDays(address.week, -7), from: undefined, to: undefined }),
    after: to({ week: addDays(address.week, 7), from: undefined, to: undefined }),
    thisWeek: address.week === here && !hasDays(address) ? null : to({ week: here, from: undefined, to: undefined }),
    exports: { csv: exportOf(address, 'csv'), json: exportOf(address, 'json') },
    from: address.from ?? '',
    to: address.to ?? '',
    sentence: sentenceOf(found, address),
    states: STATES.map(([state, words]) => ({ words, href: to({ state }), isCurrent: state === address.state })),
    people: peopleChoices(list.people, address, to),
    search: address.search,
    kept: keptFields(address),
    days: daysOf(found.rows, today),
    pages: listPages({ total: found.total, page: address.page, pageSize: VISITS_PER_PAGE }, (page) => to({ page })),
    empty: found.rows.length > 0 ? null : emptyWords(address),
  };
}

function peopleChoices(
  people: readonly Member[],
  address: VisitListAddress,
  to: (change: Partial<VisitListAddress>) => string,
): Choice[] {
  const technicians = people.filter((person) => person.role === 'technician' || person.personId === address.who);
  return [
    { words: 'everybody', href: to({ who: '' }), isCurrent: address.who === '' },
    ...technicians.map(({ personId, name }) => ({
      words: name,
      href: to({ who: personId }),
      isCurrent: address.who === personId,
    })),
    { words: 'nobody yet', href: to({ who: 'nobody' }), isCurrent: address.who === 'nobody' },
  ];
}

function sentenceOf(found: { rows: readonly VisitListRow[]; total: number }, address: VisitListAddress): string {
  if (found.total === 0) return 'No visit is in this list.';
  const visits = found.total === 1 ? 'One visit' : `${found.total} visits`;
  const shown = found.total > found.rows.length ? `, ${found.rows.length} shown` : '';
  const open = found.rows.filter(({ visit }) => visit.state === 'TENTATIVE').length;
  const untaken = found.rows.filter(({ visit }) => visit.technicianId === null && visit.state === 'TENTATIVE').length;
  const minutes = found.rows
    .filter(({ visit }) => visit.state !== 'CANCELLED')
    .reduce((sum, { visit }) => sum + visit.minutes, 0);
  const parts = [`${visits}${shown}, ${showMinutes(minutes)} at the ponds.`];
  if (open > 0 && address.state === 'all') parts.push(`${open} not published yet.`);
  if (untaken > 0) parts.push(`${untaken} with nobody to go.`);
  return parts.join(' ');
}

function daysOf(rows: readonly VisitListRow[], today: CivilDay): VisitListModel['days'] {
  const days = [...new Set(rows.map(({ visit }) => visit.plannedOn))];
  return days.map((day) => ({
    title: longWeekdayDate(civilDay(day)),
    isToday: day === isoDateOf(today),
    rows: rows.filter(({ visit }) => visit.plannedOn === day).map(lineOf),
  }));
}

function lineOf({ visit, pond, technicianName, taskTitles, isFlagged }: VisitListRow): VisitLine {
  const isOpen = visit.state === 'TENTATIVE' || visit.state === 'CONFIRMED';
  return {
    href: `/visits/${visit.id}`,
    told: toldWords(visit) || 'no time told',
    pondName: pond.name,
    town: pond.town,
    tasks: taskTitles.join('; ') || 'Look and test',
    minutes: showMinutes(visit.minutes),
    who: technicianName ?? 'Nobody yet',
    isUnassigned: technicianName === null && isOpen,
    stateWord: stateWord(visit),
    isFlagged,
    isOutsideWindow: isOpen && (visit.plannedOn < visit.dueEarliestOn || visit.plannedOn > visit.dueLatestOn),
  };
}

function emptyWords({ search, state, who }: VisitListAddress): EmptyList {
  if (search !== '' || state !== 'all' || who !== '') {
    return {
      title: 'Nothing found.',
      sentence: 'No visit of this week is in this list. Ask for all, or for another week.',
    };
  }
  return {
    title: 'No visit this week.',
    sentence: 'Plan visits from the tasks that are due; each then stands here with its day and who goes.',
  };
}

function hasDays({ from, to }: VisitListAddress): boolean {
  return from !== undefined || to !== undefined;
}

function keptFields(address: VisitListAddress): Record<string, string> {
  const { state, who } = address;
  return {
    week: isoDateOf(address.week),
    ...(state !== 'all' && { state }),
    ...(who !== '' && { who }),
  };
}

function exportOf(address: VisitListAddress, form: 'csv' | 'json'): string {
  return hrefOf({ ...address, page: 1 }).replace('/visits?', `/visits/export.${form}?`);
}

function hrefOf({ week, state, who, search, page, from, to }: VisitListAddress): string {
  const parts = new URLSearchParams({ week: isoDateOf(week) });
  if (state !== 'all') parts.set('state', state);
  if (who !== '') parts.set('who', who);
  if (search !== '') parts.set('search', search);
  if (from !== undefined) parts.set('from', from);
  if (to !== undefined) parts.set('to', to);
  if (page !== 1) parts.set('page', String(page));
  return `/visits?${parts}`;
}
