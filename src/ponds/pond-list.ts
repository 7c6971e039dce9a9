import type { WinterClass } from '../core/care/pond-facts.js';
import { InvalidValueError } from '../core/errors.js';
import type { ScopedSelect } from '../database/index.js';
import type { PondEntity } from './pond.entity.js';

export const POND_SORTS = ['name', 'town', 'careSince', 'volumeL', 'updatedAt'] as const;
export type PondSort = (typeof POND_SORTS)[number];

export interface PondListQuery {
  /** Words looked for in name, reference, street, town, postal code and contact names; all must be found. */
  readonly search?: string;
  readonly state?: 'active' | 'archived' | 'all';
  readonly winterClass?: WinterClass;
  readonly sort?: PondSort;
  readonly direction?: 'ASC' | 'DESC';
  /** From 1. */
  readonly page?: number;
  /** At most 200. */
  readonly pageSize?: number;
}

export interface PondListRow {
  readonly pond: PondEntity;
  /** Null until the pond has been planned. */
  readonly winterClass: WinterClass | null;
  /** The homeowner, or whoever comes next. */
  readonly contactName: string | null;
}

export const LARGEST_PAGE = 200;
const MOST_WORDS = 8;

export interface PondListPage {
  readonly skip: number;
  readonly take: number;
  readonly sort: PondSort;
  readonly direction: 'ASC' | 'DESC';
}

/** Page and order of a list. @throws InvalidValueError on a page, a size or an order that is not on offer. */
export function pageOf(query: PondListQuery): PondListPage {
  const { page = 1, pageSize = 50, sort = 'name', direction = 'ASC' } = query;
  if (!Number.isInteger(page) || page < 1 || page > 1_000_000) {
    throw new InvalidValueError('page', page, 'Pages are counted from 1.');
  }
  if (!Number.isInteger(pageSize) || pageSize < 1 || pageSize > LARGEST_PAGE) {
    throw new InvalidValueError('page size', pageSize, `Choose 1 to ${LARGEST_PAGE} rows a page.`);
  }
  if (!POND_SORTS.includes(sort))
    throw new InvalidValueError('sort', sort, `Sort by one of: ${POND_SORTS.join(', ')}.`);
  return { skip: (page - 1) * pageSize, take: pageSize, sort, direction };
}

/** Narrows a select with the alias `pond`. */
export function narrowed(select: ScopedSelect<PondEntity>, query: PondListQuery): ScopedSelect<PondEntity> {
  const { state = 'active' } = query;
  if (state !== 'all') select.and('pond.state = :state', { state });
  if (query.winterClass) select.and('pond.winterClass = :winterClass', { winterClass: query.winterClass });
  for (const [number, word] of wordsOf(query.search).entries()) {
    const name = `word${number}`;
    const columns = ['pond.name', 'pond.ref', 'pond.street', 'pond.town', 'pond.postalCode'];
    const inPond = columns.map((column) => `LOWER(${column}) LIKE :${name} ESCAPE '!'`).join(' OR ');
    const inContacts =
      'EXISTS (SELECT 1 FROM pond_contact c WHERE c.company_id = pond.companyId AND c.pond_id = pond.id' +
      ` AND c.ended_on IS NULL AND LOWER(c.name) LIKE :${name} ESCAPE '!')`;
    select.and(`${inPond} OR ${inContacts}`, { [name]: `%${word}%` });
  }
  return select;
}

function wordsOf(search: string | undefined): string[] {
  const words = (search ?? '').toLowerCase().split(/\s+/).filter(Boolean);
  return words.slice(0, MOST_WORDS).map((word) => word.replace(/[!%_]/g, '!$&'));
}
