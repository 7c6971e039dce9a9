import { Injectable } from '@nestjs/common';
import { Database } from '../database/index.js';
import { Clock } from '../platform/clock.js';
import { type CompanyId, newId, type PersonId, type VisitId } from '../platform/ids.js';
import type { VisitEntity } from './visit.entity.js';
import { VisitChangeEntity, type VisitChangeStep } from './visit-change.entity.js';

type Values = Readonly<Record<string, unknown>>;

/** What a trail shows of a visit; the other columns say nothing a person would ask about. */
const SHOWN = [
  'state',
  'plannedOn',
  'fromTime',
  'toTime',
  'technicianId',
  'officeNote',
  'cancelledBecause',
] as const satisfies readonly (keyof VisitEntity)[];

/** Who changed what on a visit, from what to what. Lines are only ever added, inside the unit of work of the change. */
@Injectable()
export class VisitTrail {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
  ) {}

  async note(
    visit: Pick<VisitEntity, 'id' | 'companyId'>,
    step: VisitChangeStep,
    by: PersonId | null,
    said: { readonly before?: Values; readonly after?: Values; readonly because?: string } = {},
  ): Promise<void> {
    await this.database.company(visit.companyId).insert(VisitChangeEntity, {
      id: newId(this.clock.now().toMillis()),
      visitId: visit.id,
      step,
      changedAt: this.clock.instant(),
      changedBy: by,
      before: said.before ?? {},
      after: said.after ?? {},
      because: said.because ?? '',
    });
  }

  /** Notes what differs between a visit before and after a step; nothing where nothing differs. */
  async noteChange(
    before: VisitEntity,
    after: VisitEntity,
    step: VisitChangeStep,
    by: PersonId | null,
    because = '',
  ): Promise<void> {
    const changed = SHOWN.filter((field) => before[field] !== after[field]);
    if (changed.length === 0) return;
    const of = (visit: VisitEntity) => Object.fromEntries(changed.map((field) => [field, visit[field]]));
    await this.note(after, step, by, { before: of(before), after: of(after), because });
  }

  /** Oldest first. */
  of(companyId: CompanyId, visitId: VisitId): Promise<VisitChangeEntity[]> {
    return this.database
      .company(companyId)
      .find(VisitChangeEntity, { where: { visitId }, order: { changedAt: 'ASC', id: 'ASC' } });
  }
}
