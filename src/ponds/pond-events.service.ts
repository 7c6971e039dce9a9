import { Injectable } from '@nestjs/common';
import { In } from 'typeorm';
import type { CareEvent } from '../core/care/care-rule.js';
import { InvalidValueError } from '../core/errors.js';
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

/** How long after it happened a fact may still be written down. [days] */
const LATEST_WRITTEN_DAYS = 366;
const LONGEST_NOTE = 1000;
/** Facts that came of a person's word alone; the sale of a house ended contacts, and a leak test has its own page. */
const TAKEN_BACK: readonly CareEvent[] = [
  'fish-added',
  'large-water-change',
  'full-clean-out',
  'power-failure',
  'algaecide-asked',
  'algaecide-applied',
];

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

  /**
   * What a person writes down: it lies in the past, at most a year back.
   * @throws InvalidValueError, PondThingNotFoundError
   */
  async recordByHand(companyId: CompanyId, pondId: PondId, event: NewPondEvent): Promise<string> {
    const pond = await this.database.company(companyId).findOne(PondEntity, { id: pondId });
    if (!pond) throw new PondThingNotFoundError('pond', pondId);
    const today = this.clock.today(pond.timeZone);
    const on = civilDay(event.on);
    if (on > today) throw new InvalidValueError('day', event.on, 'It has not come yet. Write the day it happened.');
    if (on < today - LATEST_WRITTEN_DAYS) {
      throw new InvalidValueError('day', event.on, 'It is more than a year ago. Check the year.');
    }
    if ((event.note ?? '').length > LONGEST_NOTE) {
      throw new InvalidValueError('note', `${event.note?.slice(0, 20)}…`, `Write at most ${LONGEST_NOTE} letters.`);
    }
    return this.record(companyId, pondId, event);
  }

  /** As if it had not been written down. A fact that is not there any more may be taken back again. */
  async takeBack(companyId: CompanyId, pondId: PondId, id: string): Promise<void> {
    await this.database.unitOfWork('take back pond event', async () => {
      const store = this.database.company(companyId);
      if (!(await store.findOne(PondEntity, { id: pondId }))) throw new PondThingNotFoundError('pond', pondId);
      const removed = await store.remove(PondEventEntity, { id, pondId, kind: In([...TAKEN_BACK]) });
      if (removed > 0) await this.news.tell('pond-changed', { companyId, pondId });
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
