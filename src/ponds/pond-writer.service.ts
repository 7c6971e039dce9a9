import { Injectable } from '@nestjs/common';
import { In, IsNull } from 'typeorm';
import { ClimateService } from '../climate/index.js';
import { isoDateOf } from '../core/units/civil-day.js';
import { Database } from '../database/index.js';
import { Clock } from '../platform/clock.js';
import type { CompanyId, PersonId, PondId } from '../platform/ids.js';
import { AgreementTermEntity } from './agreement-term.entity.js';
import type { ContactInput } from './contact-input.schema.js';
import { EquipmentEntity } from './equipment.entity.js';
import { PondEntity } from './pond.entity.js';
import { PondContactEntity } from './pond-contact.entity.js';
import { PondContactsService } from './pond-contacts.service.js';
import type { PondInput } from './pond-input.schema.js';
import { agreementRow, equipmentRow, pondColumnsOf, stockRow, timeZoneOf } from './pond-rows.js';
import { StockGroupEntity } from './stock-group.entity.js';

export interface NewPond {
  readonly id: PondId;
  readonly input: PondInput;
}

/** Writes pond records. Tells no news and opens no unit of work: whoever calls does both. */
@Injectable()
export class PondWriterService {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
    private readonly climate: ClimateService,
    private readonly contacts: PondContactsService,
  ) {}

  /** New ponds with all that belongs to them, one insert a table. `personIds` by email, for contacts that have one. */
  async insert(
    companyId: CompanyId,
    ponds: readonly NewPond[],
    personIds: ReadonlyMap<string, PersonId>,
  ): Promise<{ contacts: number }> {
    const rows = ponds.map(({ id, input }) => this.pondRow(companyId, id, input));
    const contacts = ponds.flatMap(({ input }, i) =>
      input.contacts.map((contact) =>
        this.contacts.contactRow(rows[i] as PondEntity, contact, personIdOf(contact, personIds)),
      ),
    );
    const store = this.database.company(companyId);
    await store.insert(PondEntity, rows);
    await this.insertParts(companyId, ponds);
    await store.insert(PondContactEntity, contacts);
    return { contacts: contacts.length };
  }

  /** An edit over what stands; answers the new version. */
  async saveEdit(companyId: CompanyId, standing: PondEntity, input: PondInput): Promise<number> {
    this.climate.requireStation(input.stationId);
    const today = isoDateOf(this.clock.today(timeZoneOf(input)));
    const version = standing.version + 1;
    const columns = { ...pondColumnsOf(input, today, standing), version, updatedAt: this.clock.instant() };
    await this.database.company(companyId).update(PondEntity, { id: standing.id }, columns as never);
    await this.replaceParts(companyId, standing.id, input, today);
    return version;
  }

  /** Changes the contacts that are named by their id and adds the others; answers how many were added. */
  async saveContacts(companyId: CompanyId, pondId: PondId, contacts: readonly ContactInput[]): Promise<number> {
    const store = this.database.company(companyId);
    const current = await store.find(PondContactEntity, { where: { pondId, endedOn: IsNull() } });
    const currentIds = new Set(current.map(({ id }) => id));
    let added = 0;
    for (const contact of contacts) {
      if (contact.id !== undefined && currentIds.has(contact.id)) {
        await this.contacts.edit(companyId, contact.id, contact);
      } else {
        await this.contacts.add(companyId, pondId, { ...contact, id: undefined });
        added += 1;
      }
    }
    return added;
  }

  private pondRow(companyId: CompanyId, id: PondId, input: PondInput): PondEntity {
    this.climate.requireStation(input.stationId);
    const instant = this.clock.instant();
    return {
      id,
      companyId,
      state: 'active',
      ...pondColumnsOf(input, isoDateOf(this.clock.today(timeZoneOf(input)))),
      createdAt: instant,
      updatedAt: instant,
      archivedAt: null,
      version: 1,
    };
  }

  private async insertParts(companyId: CompanyId, ponds: readonly NewPond[]): Promise<void> {
    const store = this.database.company(companyId);
    const rowsOf = <T>(make: (owner: { companyId: CompanyId; pondId: PondId }, input: PondInput) => T[]) =>
      ponds.flatMap(({ id, input }) => make({ companyId, pondId: id }, input));
    await store.insert(
      EquipmentEntity,
      rowsOf((owner, { equipment }) => equipment.map((one) => equipmentRow(owner, one))),
    );
    await store.insert(
      StockGroupEntity,
      rowsOf((owner, { stock }) => stock.map((one) => stockRow(owner, one))),
    );
    await store.insert(
      AgreementTermEntity,
      rowsOf((owner, { agreement }) => agreement.map((one) => agreementRow(owner, one))),
    );
  }

  /** Machines missing from the input leave the register but keep their row; stock and agreement are replaced. */
  private async replaceParts(companyId: CompanyId, pondId: PondId, input: PondInput, today: string): Promise<void> {
    const store = this.database.company(companyId);
    const known = await store.find(EquipmentEntity, { where: { pondId, removedOn: IsNull() } });
    const knownIds = new Set(known.map(({ id }) => id));
    const kept = input.equipment.filter(({ id }) => id !== undefined && knownIds.has(id));
    const keptIds = new Set(kept.map(({ id }) => id));
    for (const { id, ...change } of kept) await store.update(EquipmentEntity, { id: id as string }, change as never);
    const gone = known.filter(({ id }) => !keptIds.has(id)).map(({ id }) => id);
    if (gone.length > 0) await store.update(EquipmentEntity, { id: In(gone) }, { removedOn: today });

    await store.remove(StockGroupEntity, { pondId });
    await store.remove(AgreementTermEntity, { pondId });
    const fresh = input.equipment.filter((machine) => !keptIds.has(machine.id));
    await this.insertParts(companyId, [{ id: pondId, input: { ...input, equipment: fresh } }]);
  }
}

function personIdOf(contact: ContactInput, personIds: ReadonlyMap<string, PersonId>): PersonId | null {
  if (contact.email === null) return null;
  const personId = personIds.get(contact.email);
  if (!personId) throw new Error(`No person was made for the contact ${contact.name}.`);
  return personId;
}
