import { civilDay } from '../../../core/units/civil-day.js';
import { showVolume, type UnitSystem } from '../../../core/units/show.js';
import type { PondListQuery, PondListRow, PondSort } from '../../../ponds/index.js';
import { fullDate } from '../../charts/show-date.js';
import { type Choice, type EmptyList, type ListPages, listPages } from '../../shell/list-pages.js';

export interface PondListModel {
  /** `212 ponds found, 51 to 100 shown`. */
  readonly sentence: string;
  readonly search: string;
  readonly states: readonly Choice[];
  readonly columns: readonly PondColumn[];
  readonly rows: readonly PondLine[];
  readonly pages: ListPages | null;
  /** Null where there are rows. */
  readonly empty: EmptyList | null;
  /** Hidden fields of the search form, so that a search keeps state and order. */
  readonly kept: Readonly<Record<string, string>>;
}

export interface PondColumn {
  readonly words: string;
  readonly href: string | null;
  readonly sorted: 'ascending' | 'descending' | null;
  readonly isNumber: boolean;
}

export interface PondLine {
  readonly href: string;
  readonly name: string;
  readonly ref: string;
  readonly contact: string;
  readonly town: string;
  readonly volume: string;
  readonly winter: string;
  readonly careSince: string;
  readonly isArchived: boolean;
}

const COLUMNS: readonly { words: string; sort: PondSort | null; isNumber?: boolean }[] = [
  { words: 'Pond', sort: 'name' },
  { words: 'Homeowner', sort: null },
  { words: 'Town', sort: 'town' },
  { words: 'Volume', sort: 'volumeL', isNumber: true },
  { words: 'Winter', sort: null },
  { words: 'In care since', sort: 'careSince' },
];
const STATES = [
  ['active', 'in care'],
  ['archived', 'archived'],
  ['all', 'all'],
] as const;
const WINTER_WORDS = { W0: 'frost-free', W1: 'mild', W2: 'cold', W3: 'severe' } as const;

type Query = Required<Pick<PondListQuery, 'search' | 'state' | 'sort' | 'direction' | 'page' | 'pageSize'>>;

export function pondListModel(
  found: { readonly rows: readonly PondListRow[]; readonly total: number },
  query: Query,
  units: UnitSystem,
): PondListModel {
  const first = (query.page - 1) * query.pageSize + 1;
  const last = Math.min(found.total, first + found.rows.length - 1);
  return {
    sentence: sentenceOf(found.total, first, last, query),
    search: query.search,
    states: STATES.map(([state, words]) => ({
      words,
      href: address({ ...query, state, page: 1 }),
      isCurrent: state === query.state,
    })),
    columns: COLUMNS.map(({ words, sort, isNumber = false }) => ({
      words,
      isNumber,
      href: sort === null ? null : address({ ...query, page: 1, sort, direction: turned(query, sort) }),
      sorted: sort !== query.sort ? null : query.direction === 'ASC' ? 'ascending' : 'descending',
    })),
    rows: found.rows.map((row) => lineOf(row, units)),
    pages: listPages({ ...query, total: found.total }, (page) => address({ ...query, page })),
    empty: found.rows.length > 0 ? null : emptyWords(query),
    kept: { state: query.state, sort: query.sort, direction: query.direction },
  };
}

function sentenceOf(total: number, first: number, last: number, { search, state }: Query): string {
  if (total === 0) return search === '' ? 'There is no pond here yet.' : `No pond matches “${search}”.`;
  const ponds = total === 1 ? 'One pond' : `${total.toLocaleString('en-US')} ponds`;
  const which = state === 'active' ? 'in care' : state === 'archived' ? 'archived' : 'in all';
  const shown =
    last - first + 1 < total ? ` Shown: ${first.toLocaleString('en-US')} to ${last.toLocaleString('en-US')}.` : '';
  return `${ponds} ${which}${search === '' ? '' : `, matching “${search}”`}.${shown}`;
}

function lineOf({ pond, winterClass, contactName }: PondListRow, units: UnitSystem): PondLine {
  return {
    href: `/ponds/${pond.id}`,
    name: pond.name,
    ref: pond.ref ?? '',
    contact: contactName ?? '–',
    town: [pond.town, pond.region].filter(Boolean).join(', ') || '–',
    volume: showVolume(pond.volumeL, units),
    winter: winterClass === null ? '–' : WINTER_WORDS[winterClass],
    careSince: fullDate(civilDay(pond.careSince)),
    isArchived: pond.state === 'archived',
  };
}

function turned(query: Query, sort: PondSort): 'ASC' | 'DESC' {
  return query.sort === sort && query.direction === 'ASC' ? 'DESC' : 'ASC';
}

function emptyWords({ search, state }: Query): EmptyList {
  if (search !== '')
    return {
      title: 'Nothing found.',
      sentence: 'Search looks at names, references, addresses and homeowners; every word must be found.',
    };
  if (state === 'archived')
    return {
      title: 'Nothing is archived.',
      sentence: 'A pond that left your care stands here with its whole history.',
    };
  return {
    title: 'No pond yet.',
    sentence: 'Enter the first one, or bring your list as a CSV file. Its year appears before it is saved.',
  };
}

function address(query: Query): string {
  const parts = new URLSearchParams();
  if (query.search !== '') parts.set('search', query.search);
  if (query.state !== 'active') parts.set('state', query.state);
  if (query.sort !== 'name' || query.direction !== 'ASC') {
    parts.set('sort', query.sort);
    parts.set('direction', query.direction);
  }
  if (query.page !== 1) parts.set('page', String(query.page));
  const text = parts.toString();
  return text === '' ? '/ponds' : `/ponds?${text}`;
}
