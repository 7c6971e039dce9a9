import { Injectable } from '@nestjs/common';
import { Database } from '../database/index.js';
import { Clock } from '../platform/clock.js';
import type { CompanyId, PersonId, VisitId } from '../platform/ids.js';
import type { VisitEntity } from './visit.entity.js';
import { VisitNews } from './visit-news.js';
import { VisitRecords } from './visit-records.js';
import { requireStep } from './visit-states.js';
import { VisitTrail } from './visit-trail.js';

/** The technician's steps before closing: each is one unit of work on one visit. */
@Injectable()
export class VisitAttendance {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
    private readonly records: VisitRecords,
    private readonly trail: VisitTrail,
    private readonly news: VisitNews,
  ) {}

  /** The technician has set out: a time on a confirmed visit. Said twice, the first time stays. */
  markOnTheWay(companyId: CompanyId, visitId: VisitId, by: PersonId | null = null): Promise<VisitEntity> {
    return this.database.unitOfWork('set out for a visit', async () => {
      const visit = await this.records.hold(companyId, visitId);
      requireStep('be set out for', visit);
      if (visit.onTheWayAt !== null) return visit;
      const at = this.clock.instant();
      const changed = await this.records.change(visit, { onTheWayAt: at });
      await this.trail.note(visit, 'on-the-way', by, { after: { onTheWayAt: at } });
      await this.news.tell('visit-on-the-way', { companyId, pondId: visit.pondId, visitId, at });
      return changed;
    });
  }

  /** The technician has arrived. Said twice, the first time stays. */
  start(companyId: CompanyId, visitId: VisitId, by: PersonId | null = null): Promise<VisitEntity> {
    return this.database.unitOfWork('start a visit', async () => {
      const visit = await this.records.hold(companyId, visitId);
      if (visit.state === 'IN-PROCESS') return visit;
      requireStep('be started', visit);
      const changed = await this.records.change(visit, { state: 'IN-PROCESS', arrivedAt: this.clock.instant() });
      await this.trail.noteChange(visit, changed, 'started', by);
      return changed;
    });
  }
}
