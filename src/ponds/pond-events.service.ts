import { Injectable } from '@nestjs/common';
import { In } from 'typeorm';
import type { CareEvent } from '../core/care/care-rule.js';
import { civilDay } from '../core/units/civil-day.js';
import { Database } from '../database/index.js';
import { Clock } from '../platform/clock.js';
import { type CompanyId, newId, type PondId } from '../platform/ids.js';
import { byPond } from './by-pond.js';
import { PondEntity } from './pond.entity.js';
import { PondEventEntity } from './pond-event.entity.js';
import { PondNews } from './pond-news.js';
import { PondThingNotFoundError } from './ponds.errors.js';

export interface NewPondEvent {
  /** Given where the sender may repeat itself. */
  readonly id?: string;
  readonly kind: CareEvent;
  /** Civil date in the pond's zone. */
  readonly on: string;
  readonly note?: string;
}

/** Facts of a pond that care rules may count from. */
@Injectable()
export class PondEventsService {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
    private readonly news: PondNews,
  ) {}

  /** Keeps a fact once; with an id that is already there nothing changes. Answers the id. */
  async record(companyId: CompanyId, pondId: PondId, event: NewPondEvent): Promise<string> {
    civilDay(event.on);
    const id = event.id ?? newId();
    return this.database.unitOfWork('record pond event', async () => {
      const store = this.database.company(companyId);
      if (!(await store.findOne(PondEntity, { id: pondId }))) throw new PondThingNotFoundError('pond', pondId);
      if (await store.findOne(PondEventEntity, { id })) return id;
      await store.insert(PondEventEntity, {
        id,
        pondId,
        kind: event.kind,
        happenedOn: event.on,
        note: event.note ?? '',
        createdAt: this.clock.instant(),
      });
      await this.news.tell('pond-changed', { companyId, pondId });
      return id;
    });
  }

  /** Oldest first. */
  list(companyId: CompanyId, pondId: PondId): Promise<PondEventEntity[]> {
    return this.database
      .company(companyId)
      .find(PondEventEntity, { where: { pondId }, order: { happenedOn: 'ASC', id: 'ASC' } });
  }

  /** The same for several ponds at once. */
  async listOf(companyId: CompanyId, pondIds: readonly PondId[]): Promise<ReadonlyMap<PondId, PondEventEntity[]>> {
    const rows = await this.database
      .company(companyId)
      .find(PondEventEntity, { where: { pondId: In([...pondIds]) }, order: { happenedOn: 'ASC', id: 'ASC' } });
    return byPond(rows);
  }
}
