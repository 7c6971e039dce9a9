import { Injectable } from '@nestjs/common';
import { In } from 'typeorm';
import type { ReadingQuantity } from '../core/care/care-rule.js';
import { InvalidValueError } from '../core/errors.js';
import { Database } from '../database/index.js';
import { Clock, instantFrom, instantText } from '../platform/clock.js';
import { type CompanyId, newId, type PersonId, type PondId } from '../platform/ids.js';
import { byPond } from './by-pond.js';
import { PondEntity } from './pond.entity.js';
import { PondNews } from './pond-news.js';
import { PondThingNotFoundError } from './ponds.errors.js';
import { ReadingEntity } from './reading.entity.js';
import { requirePlausible } from './reading-plausibility.js';

/** A reading as it was typed or sent, in the stored unit of its quantity. */
export interface NewReading {
  /** Made on the phone; without one it gets one here. */
  readonly id?: string;
  readonly quantity: ReadingQuantity;
  readonly value: number;
  /** ISO 8601 with offset. */
  readonly takenAt: string;
  readonly takenBy?: PersonId | null;
  readonly visitId?: string | null;
  /** The reading this one corrects. */
  readonly replacesId?: string | null;
}

export interface ReadingsQuery {
  readonly quantity?: ReadingQuantity;
  /** Instants, ISO 8601, inclusive. */
  readonly from?: string;
  readonly to?: string;
  /** Also those that were corrected since. */
  readonly withReplaced?: boolean;
}

/** A phone's clock may run ahead by this much. [minutes] */
const CLOCK_SLACK_MINUTES = 15;
const EARLIEST_READING = '1990-01-01T00:00:00.000Z';

@Injectable()
export class ReadingsService {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
    private readonly news: PondNews,
  ) {}

  /**
   * Keeps readings of one pond; one that is already there by its id is left as it stands, so an upload may be repeated.
   * A correction names the reading it replaces.
   * @returns Ids of the readings that were new.
   * @throws ImplausibleReadingError, InvalidValueError, PondThingNotFoundError. With any fault none is kept.
   */
  async add(companyId: CompanyId, pondId: PondId, readings: readonly NewReading[]): Promise<string[]> {
    const rows = readings.map((reading) => this.rowOf(companyId, pondId, reading));
    return this.database.unitOfWork('add readings', async () => {
      const store = this.database.company(companyId);
      if (!(await store.findOne(PondEntity, { id: pondId }))) throw new PondThingNotFoundError('pond', pondId);

      const fresh = await this.notYetKept(companyId, rows);
      await this.requireReplacedKnown(companyId, pondId, fresh);
      if (fresh.length === 0) return [];
      await store.insert(ReadingEntity, fresh);
      const readingIds = fresh.map((row) => row.id);
      await this.news.tell('reading-taken', { companyId, pondId, readingIds });
      return readingIds;
    });
  }

  /** Readings of a pond, oldest first; a corrected one gives way to its correction. */
  async list(companyId: CompanyId, pondId: PondId, query: ReadingsQuery = {}): Promise<ReadingEntity[]> {
    return (await this.listOf(companyId, [pondId], query)).get(pondId) ?? [];
  }

  /** The same for several ponds at once, at most some hundred: databases limit a list of keys. */
  async listOf(
    companyId: CompanyId,
    pondIds: readonly PondId[],
    query: ReadingsQuery = {},
  ): Promise<ReadonlyMap<PondId, ReadingEntity[]>> {
    if (pondIds.length === 0) return new Map();
    const select = this.database.company(companyId).select(ReadingEntity, 'reading');
    select.and('reading.pondId IN (:...pondIds)', { pondIds: [...pondIds] });
    if (query.quantity) select.and('reading.quantity = :quantity', { quantity: query.quantity });
    if (query.from) select.and('reading.takenAt >= :from', { from: instantText(instantFrom(query.from)) });
    if (query.to) select.and('reading.takenAt <= :to', { to: instantText(instantFrom(query.to)) });
    if (!query.withReplaced) {
      select.and(
        'NOT EXISTS (SELECT 1 FROM reading r2 WHERE r2.company_id = reading.companyId AND r2.pond_id = reading.pondId AND r2.replaces_id = reading.id)',
      );
    }
    return byPond(await select.orderBy('takenAt').orderBy('id').rows());
  }

  /** The last reading of each quantity. */
  async latest(companyId: CompanyId, pondId: PondId): Promise<Map<ReadingQuantity, ReadingEntity>> {
    const all = await this.list(companyId, pondId);
    return new Map(all.map((reading) => [reading.quantity, reading]));
  }

  private rowOf(companyId: CompanyId, pondId: PondId, reading: NewReading): ReadingEntity {
    requirePlausible(reading.quantity, reading.value);
    const takenAt = this.instantOf(reading.takenAt);
    return {
      id: reading.id ?? newId(),
      companyId,
      pondId,
      quantity: reading.quantity,
      value: reading.value,
      takenAt,
      takenBy: reading.takenBy ?? null,
      visitId: reading.visitId ?? null,
      replacesId: reading.replacesId ?? null,
      createdAt: this.clock.instant(),
    };
  }

  private instantOf(typed: string): string {
    const takenAt = instantText(instantFrom(typed));
    const latest = instantText(this.clock.now().plus({ minutes: CLOCK_SLACK_MINUTES }));
    if (takenAt > latest) {
      throw new InvalidValueError('taken at', typed, 'A reading cannot be taken in the future. Check date and time.');
    }
    if (takenAt < EARLIEST_READING) {
      throw new InvalidValueError('taken at', typed, 'Readings are kept from 1990 on. Check the year.');
    }
    return takenAt;
  }

  private async notYetKept(companyId: CompanyId, rows: readonly ReadingEntity[]): Promise<ReadingEntity[]> {
    const once = [...new Map(rows.map((row) => [row.id, row])).values()];
    const known = await this.database
      .company(companyId)
      .find(ReadingEntity, { where: { id: In(once.map((row) => row.id)) }, select: { id: true } });
    const knownIds = new Set(known.map((row) => row.id));
    return once.filter((row) => !knownIds.has(row.id));
  }

  private async requireReplacedKnown(
    companyId: CompanyId,
    pondId: PondId,
    fresh: readonly ReadingEntity[],
  ): Promise<void> {
    const inThisUpload = new Set(fresh.map((row) => row.id));
    for (const { id, replacesId } of fresh) {
      if (replacesId === null) continue;
      if (replacesId === id) throw new InvalidValueError('replaces', replacesId, 'A reading cannot replace itself.');
      const known =
        inThisUpload.has(replacesId) ||
        (await this.database.company(companyId).findOne(ReadingEntity, { id: replacesId, pondId }));
      if (!known) throw new PondThingNotFoundError('reading', replacesId);
    }
  }
}
