import { Injectable } from '@nestjs/common';
import { In } from 'typeorm';
import type { WinterClass } from '../core/care/pond-facts.js';
import { addDays, civilDay } from '../core/units/civil-day.js';
import { Database } from '../database/index.js';
import { Clock } from '../platform/clock.js';
import { type CompanyId, newId, type PersonId, type PondId } from '../platform/ids.js';
import type { ContactInput } from './contact-input.schema.js';
import { PondEntity } from './pond.entity.js';
import { PondContactsService } from './pond-contacts.service.js';
import { PondEventEntity } from './pond-event.entity.js';
import type { PondInput } from './pond-input.schema.js';
import { narrowed, type PondListQuery, type PondListRow, pageOf } from './pond-list.js';
import { PondNews } from './pond-news.js';
import type { PondContact, PondRecord } from './pond-record.js';
import { PondRecordsService } from './pond-records.service.js';
import { PondWriterService } from './pond-writer.service.js';
import {
  PondChangedMeanwhileError,
  PondInputRefusedError,
  PondStateError,
  PondThingNotFoundError,
} from './ponds.errors.js';

/** Degrees, north and east positive. */
export type PondSite = Pick<PondEntity, 'latitude' | 'longitude'>;

/** Pond records of a company. */
@Injectable()
export class PondsService {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
    private readonly records: PondRecordsService,
    private readonly writer: PondWriterService,
    private readonly contacts: PondContactsService,
    private readonly news: PondNews,
  ) {}

  /** One page of ponds and how many match in all. */
  async list(companyId: CompanyId, query: PondListQuery = {}): Promise<{ rows: PondListRow[]; total: number }> {
    const { skip, take, sort, direction } = pageOf(query);
    const matching = () => narrowed(this.database.company(companyId).select(PondEntity, 'pond'), query);
    const total = await matching().count();
    const ponds = await matching().orderBy(sort, direction).orderBy('id').page(skip, take).rows();
    const contacts = await this.contacts.of(
      companyId,
      ponds.map(({ id }) => id),
    );
    const rows = ponds.map((pond) => ({
      pond,
      winterClass: pond.winterClass ?? null,
      contactName: nearestContact(contacts, pond.id)?.name ?? null,
    }));
    return { rows, total };
  }

  /** @throws PondThingNotFoundError also for a pond of another company. */
  async get(companyId: CompanyId, pondId: PondId): Promise<PondRecord> {
    const pond = await this.pond(companyId, pondId);
    return (await this.records.of(companyId, [pond]))[0] as PondRecord;
  }

  /** Records of several ponds in the order of the ids; unknown ones are left out. At most some hundred at a time. */
  async several(companyId: CompanyId, pondIds: readonly PondId[]): Promise<PondRecord[]> {
    const ponds = await this.database.company(companyId).find(PondEntity, { where: { id: In([...pondIds]) } });
    const byId = new Map(ponds.map((pond) => [pond.id, pond]));
    return this.records.of(
      companyId,
      pondIds.flatMap((id) => byId.get(id) ?? []),
    );
  }

  /** The pond alone, without what belongs to it. */
  async pond(companyId: CompanyId, pondId: PondId): Promise<PondEntity> {
    const pond = await this.database.company(companyId).findOne(PondEntity, { id: pondId });
    if (!pond) throw new PondThingNotFoundError('pond', pondId);
    return pond;
  }

  /** Ids of all active ponds, in the order in which they were made. */
  async activeIds(companyId: CompanyId): Promise<PondId[]> {
    const rows = await this.database
      .company(companyId)
      .find(PondEntity, { where: { state: 'active' }, select: { id: true }, order: { id: 'ASC' } });
    return rows.map(({ id }) => id);
  }

  /** Where the active ponds lie. */
  activeSites(companyId: CompanyId): Promise<PondSite[]> {
    return this.database
      .company(companyId)
      .find(PondEntity, { where: { state: 'active' }, select: { id: true, latitude: true, longitude: true } });
  }

  /**
   * Creates a pond and answers its id. With `given.id` (made by the page) a form that is sent twice makes one pond, and
   * the saved calendar is the one that was previewed.
   */
  async create(companyId: CompanyId, input: PondInput, given: { id?: PondId } = {}): Promise<PondId> {
    const id = given.id ?? newId();
    return this.database.unitOfWork('create pond', async () => {
      if (await this.database.company(companyId).findOne(PondEntity, { id })) return id;
      await this.requireFreeRef(companyId, input, id);
      await this.writer.insert(companyId, [{ id, input }], await this.personIdsOf(input.contacts));
      await this.news.tell('pond-changed', { companyId, pondId: id });
      return id;
    });
  }

  /**
   * Saves an edit and answers the new version. Machines missing from the input leave the register (their rows stay, with
   * the day); stock and agreement are replaced; contacts in the input are changed or added, never ended.
   * @throws PondChangedMeanwhileError with what was typed, when somebody saved after `expectedVersion`.
   */
  async update(companyId: CompanyId, pondId: PondId, input: PondInput, expectedVersion: number): Promise<number> {
    return this.database.unitOfWork('update pond', async () => {
      const standing = await this.pond(companyId, pondId);
      if (standing.version !== expectedVersion) {
        throw new PondChangedMeanwhileError(pondId, expectedVersion, standing.version, input);
      }
      await this.requireFreeRef(companyId, input, pondId);
      const version = await this.writer.saveEdit(companyId, standing, input);
      await this.writer.saveContacts(companyId, pondId, input.contacts);
      await this.news.tell('pond-changed', { companyId, pondId });
      return version;
    });
  }

  /** Takes a pond out of care. Everything stays; nothing is planned or mailed any more. */
  async archive(companyId: CompanyId, pondId: PondId): Promise<void> {
    await this.setState(companyId, pondId, 'archived');
  }

  async restore(companyId: CompanyId, pondId: PondId): Promise<void> {
    await this.setState(companyId, pondId, 'active');
  }

  /** The house was sold on a civil date: contacts end, their links die, the history stays. */
  async sell(companyId: CompanyId, pondId: PondId, on: string): Promise<void> {
    const soldOn = civilDay(on);
    await this.database.unitOfWork('sell pond', async () => {
      const pond = await this.pond(companyId, pondId);
      if (soldOn > addDays(this.clock.today(pond.timeZone), 1)) {
        throw new PondStateError(`A sale is entered once it has happened; ${on} lies in the future.`);
      }
      await this.contacts.endAll(companyId, pondId, on);
      await this.database.company(companyId).insert(PondEventEntity, {
        id: newId(),
        pondId,
        kind: 'house-sold',
        happenedOn: on,
        note: '',
        createdAt: this.clock.instant(),
      });
      await this.change(companyId, pond, {});
    });
  }

  /** Livestock was released into a pond that was running in; null takes that back. Told twice, the first day stands. */
  async markStocked(companyId: CompanyId, pondId: PondId, on: string | null): Promise<void> {
    if (on !== null) civilDay(on);
    await this.database.unitOfWork('release livestock', async () => {
      const pond = await this.pond(companyId, pondId);
      if (on === null ? pond.stockedOn !== null : pond.stockedOn === null) {
        await this.change(companyId, pond, { stockedOn: on });
      }
    });
  }

  /** Keeps what a simulation of the winter found; no change of the record, so no new version and no news. */
  async noteWinter(
    companyId: CompanyId,
    pondId: PondId,
    winter: { winterClass: WinterClass; winterKey: string },
  ): Promise<void> {
    await this.database.unitOfWork('note winter class', async () => {
      await this.database.company(companyId).update(PondEntity, { id: pondId }, winter);
    });
  }

  private async setState(companyId: CompanyId, pondId: PondId, state: PondEntity['state']): Promise<void> {
    await this.database.unitOfWork(state === 'archived' ? 'archive pond' : 'restore pond', async () => {
      const pond = await this.pond(companyId, pondId);
      const archivedAt = state === 'archived' ? this.clock.instant() : null;
      if (pond.state !== state) await this.change(companyId, pond, { state, archivedAt });
    });
  }

  private async change(
    companyId: CompanyId,
    pond: PondEntity,
    change: Partial<Pick<PondEntity, 'state' | 'archivedAt' | 'stockedOn'>>,
  ): Promise<void> {
    const next = { ...change, version: pond.version + 1, updatedAt: this.clock.instant() };
    await this.database.company(companyId).update(PondEntity, { id: pond.id }, next);
    await this.news.tell('pond-changed', { companyId, pondId: pond.id });
  }

  private async personIdsOf(contacts: readonly ContactInput[]): Promise<Map<string, PersonId>> {
    const personIds = new Map<string, PersonId>();
    for (const contact of contacts) {
      const personId = await this.contacts.personIdOf(contact);
      if (contact.email !== null && personId !== null) personIds.set(contact.email, personId);
    }
    return personIds;
  }

  private async requireFreeRef(companyId: CompanyId, input: PondInput, pondId: PondId): Promise<void> {
    if (input.ref === null) return;
    const other = await this.database.company(companyId).findOne(PondEntity, { ref: input.ref });
    if (!other || other.id === pondId) return;
    const allowed = `pond reference: ${input.ref} belongs to ${other.name} already. Choose another.`;
    throw new PondInputRefusedError([{ field: 'ref', value: input.ref, allowed }]);
  }
}

const ROLES_NEAREST_FIRST = ['homeowner', 'caretaker', 'neighbour', 'builder'];

function nearestContact(contacts: readonly PondContact[], pondId: PondId): PondContact | undefined {
  return contacts
    .filter((contact) => contact.pondId === pondId && contact.endedOn === null)
    .toSorted((a, b) => ROLES_NEAREST_FIRST.indexOf(a.role) - ROLES_NEAREST_FIRST.indexOf(b.role))[0];
}
