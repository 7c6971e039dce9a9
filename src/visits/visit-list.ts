import type { ScopedSelect } from '../database/index.js';
import type { PersonId, PondId } from '../platform/ids.js';
import { PondEntity } from '../ponds/index.js';
import type { VisitEntity, VisitState } from './visit.entity.js';

/** Which visits a list shows. Days are civil dates, both included. */
export interface VisitListQuery {
  readonly from?: string;
  readonly to?: string;
  readonly states?: readonly VisitState[];
  /** `nobody` for those nobody has been given. */
  readonly technicianId?: PersonId | 'nobody';
  readonly pondId?: PondId;
  /** Any of these ponds; none of them is no visit at all. */
  readonly pondIds?: readonly PondId[];
  /** Only those that were told to the homeowner. */
  readonly isPublished?: boolean;
  /** Only those closed with something the office has not looked at yet. */
  readonly isFlagged?: boolean;
  /** Part of the pond's name or town. */
  readonly text?: string;
  /** Counted from 1. */
  readonly page?: number;
  /** 1 to 200, default 50. */
  readonly pageSize?: number;
}

const DEFAULT_PAGE_SIZE = 50;
const LARGEST_PAGE = 200;

export function pageOf(query: Pick<VisitListQuery, 'page' | 'pageSize'>): { skip: number; take: number } {
  const take = Math.min(Math.max(Math.trunc(query.pageSize ?? DEFAULT_PAGE_SIZE), 1), LARGEST_PAGE);
  return { skip: (Math.max(Math.trunc(query.page ?? 1), 1) - 1) * take, take };
}

export function narrowed(select: ScopedSelect<VisitEntity>, query: VisitListQuery): ScopedSelect<VisitEntity> {
  if (query.from) select.and('visit.plannedOn >= :from', { from: query.from });
  if (query.to) select.and('visit.plannedOn <= :to', { to: query.to });
  if (query.states?.length) select.and('visit.state IN (:...states)', { states: [...query.states] });
  if (query.technicianId === 'nobody') select.and('visit.technicianId IS NULL');
  else if (query.technicianId) select.and('visit.technicianId = :technicianId', { technicianId: query.technicianId });
  if (query.pondId) select.and('visit.pondId = :pondId', { pondId: query.pondId });
  if (query.pondIds?.length === 0) select.and('1 = 0');
  else if (query.pondIds) select.and('visit.pondId IN (:...pondIds)', { pondIds: [...query.pondIds] });
  if (query.isPublished) select.and('visit.publishedAt IS NOT NULL');
  // The closings' flags are part of a stored JSON text; an empty list of them ends it.
  if (query.isFlagged) {
    select.and(
      `EXISTS (SELECT 1 FROM visit_closing closing WHERE closing.company_id = visit.company_id
        AND closing.visit_id = visit.id AND closing.reopened_at IS NULL AND closing.settled_at IS NULL
        AND closing.record LIKE '%"flags":["%')`,
    );
  }
  const text = query.text?.trim().toLowerCase();
  if (text) {
    select.join(PondEntity, 'pond', 'pond.id = visit.pondId');
    const like = `%${text.replace(/[\\%_]/g, (sign) => `\\${sign}`)}%`;
    select.and("LOWER(pond.name) LIKE :like ESCAPE '\\' OR LOWER(pond.town) LIKE :like ESCAPE '\\'", { like });
  }
  return select;
}
