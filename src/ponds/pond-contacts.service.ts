import { Injectable } from '@nestjs/common';
import { In, IsNull } from 'typeorm';
import { LinksService, PeopleService } from '../accounts/index.js';
import { civilDay, isoDateOf } from '../core/units/civil-day.js';
import { Database } from '../database/index.js';
import { Clock } from '../platform/clock.js';
import { type CompanyId, newId, type PersonId, type PondId } from '../platform/ids.js';
import type { ContactInput } from './contact-input.schema.js';
import { PondEntity } from './pond.entity.js';
import { PondContactEntity } from './pond-contact.entity.js';
import { PondNews } from './pond-news.js';
import type { PondContact } from './pond-record.js';
import { PondStateError, PondThingNotFoundError } from './ponds.errors.js';

/** The people of a pond. One with an email becomes a person who can be mailed; one without is called by the office. */
@Injectable()
export class PondContactsService {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
    private readonly people: PeopleService,
    private readonly links: LinksService,
    private readonly news: PondNews,
  ) {}

  /** Answers the id of the new contact. */
  async add(companyId: CompanyId, pondId: PondId, input: ContactInput): Promise<string> {
    return this.database.unitOfWork('add contact', async () => {
      const pond = await this.pondOf(companyId, pondId);
      const contact = this.contactRow(pond, input, await this.personIdOf(input));
      await this.database.company(companyId).insert(PondContactEntity, contact);
      return contact.id;
    });
  }

  /** Changes a current contact. A new email address makes it another person's contact; the old one's links die. */
  async edit(companyId: CompanyId, contactId: string, input: ContactInput): Promise<void> {
    await this.database.unitOfWork('edit contact', async () => {
      const store = this.database.company(companyId);
      const contact = await this.contactOf(companyId, contactId);
      if (contact.endedOn !== null)
        throw new PondStateError(`${contact.name} has not been a contact since ${contact.endedOn}. Add them anew.`);

      const personId = await this.personIdOf(input);
      if (contact.personId !== null && contact.personId !== personId) await this.revokeLinks(companyId, contact);
      const { id: _, email: __, startedOn, ...change } = input;
      await store.update(
        PondContactEntity,
        { id: contactId },
        {
          ...change,
          personId,
          startedOn: startedOn ?? contact.startedOn,
          // Mail to a new address starts afresh; for the same address a stop stands.
          mailStoppedAt: contact.personId === personId ? contact.mailStoppedAt : null,
        },
      );
    });
  }

  /** Ends a contact on a civil date; their links die, the row stays. Ending twice changes nothing. */
  async end(companyId: CompanyId, contactId: string, on?: string): Promise<void> {
    await this.database.unitOfWork('end contact', async () => {
      const contact = await this.contactOf(companyId, contactId);
      const pond = await this.pondOf(companyId, contact.pondId);
      await this.endRow(companyId, contact, on ?? isoDateOf(this.clock.today(pond.timeZone)));
    });
  }

  /** Ends all current contacts of a pond, as when the house is sold. Joins the caller's unit of work. */
  async endAll(companyId: CompanyId, pondId: PondId, on: string): Promise<void> {
    await this.database.unitOfWork('end contacts', async () => {
      const current = await this.database
        .company(companyId)
        .find(PondContactEntity, { where: { pondId, endedOn: IsNull() } });
      for (const contact of current) await this.endRow(companyId, contact, on);
    });
  }

  /** Stops mail to a contact (their own wish, or a dead address); they move to the call list. */
  async stopMail(companyId: CompanyId, contactId: string): Promise<void> {
    await this.database.unitOfWork('stop mail', async () => {
      const contact = await this.contactOf(companyId, contactId);
      if (contact.mailStoppedAt !== null) return;
      const change = { mailStoppedAt: this.clock.instant(), getsMail: false };
      await this.database.company(companyId).update(PondContactEntity, { id: contactId }, change);
    });
  }

  /** When and in which units a person wants their mail, and when none, for all their ponds here. */
  async setMail(
    companyId: CompanyId,
    personId: PersonId,
    wish: Pick<PondContactEntity, 'digestWeekday' | 'digestHour' | 'units' | 'quietFrom' | 'quietUntil'>,
  ): Promise<void> {
    await this.changeCurrent(companyId, personId, wish);
  }

  /** Stops mail to a person about all their ponds here; answers whether any was still on. */
  async stopMailTo(companyId: CompanyId, personId: PersonId): Promise<boolean> {
    return this.database.unitOfWork('stop mail', async () => {
      const stopped = await this.database
        .company(companyId)
        .update(
          PondContactEntity,
          { personId, endedOn: IsNull(), mailStoppedAt: IsNull() },
          { mailStoppedAt: this.clock.instant(), getsMail: false },
        );
      return stopped > 0;
    });
  }

  /** Takes a stop back, whoever made it. */
  async resumeMailTo(companyId: CompanyId, personId: PersonId): Promise<void> {
    await this.changeCurrent(companyId, personId, { mailStoppedAt: null, getsMail: true });
  }

  /** Contacts of ponds, current ones first. */
  async of(companyId: CompanyId, pondIds: readonly PondId[]): Promise<PondContact[]> {
    const rows = await this.database.company(companyId).find(PondContactEntity, {
      where: { pondId: In([...pondIds]) },
      order: { startedOn: 'ASC', name: 'ASC', id: 'ASC' },
    });
    const withEmail = await this.withEmails(rows);
    return withEmail.sort((a, b) => Number(a.endedOn !== null) - Number(b.endedOn !== null));
  }

  /** The current contacts of a person: whose ponds they may see. */
  async ofPerson(companyId: CompanyId, personId: PersonId): Promise<PondContactEntity[]> {
    return this.database
      .company(companyId)
      .find(PondContactEntity, { where: { personId, endedOn: IsNull() }, order: { startedOn: 'ASC' } });
  }

  /** A row for a contact, not yet stored. */
  contactRow(
    pond: Pick<PondEntity, 'id' | 'companyId' | 'timeZone'>,
    input: ContactInput,
    personId: PersonId | null,
  ): PondContactEntity {
    const { email: _, startedOn, id, ...columns } = input;
    return {
      ...columns,
      id: id ?? newId(),
      companyId: pond.companyId,
      pondId: pond.id,
      personId,
      mailStoppedAt: null,
      quietFrom: null,
      quietUntil: null,
      startedOn: startedOn ?? isoDateOf(this.clock.today(pond.timeZone)),
      endedOn: null,
    };
  }

  /** The person behind an email address, made where there is none yet; null without an address. */
  async personIdOf(input: ContactInput): Promise<PersonId | null> {
    if (input.email === null) return null;
    const { email, name, phone, language } = input;
    const person = await this.people.ensurePerson({ email, name, phone, language });
    return person.id;
  }

  private async changeCurrent(
    companyId: CompanyId,
    personId: PersonId,
    change: Partial<PondContactEntity>,
  ): Promise<void> {
    await this.database.unitOfWork('change mail wishes', () =>
      this.database.company(companyId).update(PondContactEntity, { personId, endedOn: IsNull() }, change),
    );
  }

  private async endRow(companyId: CompanyId, contact: PondContactEntity, on: string): Promise<void> {
    civilDay(on);
    if (contact.endedOn !== null) return;
    const endedOn = on < contact.startedOn ? contact.startedOn : on;
    await this.database.company(companyId).update(PondContactEntity, { id: contact.id }, { endedOn });
    await this.revokeLinks(companyId, contact);
    await this.news.tell('contact-ended', {
      companyId,
      pondId: contact.pondId,
      contactId: contact.id,
      personId: contact.personId,
      on: endedOn,
    });
  }

  /** A person with a second pond here loses those links too: the next mail brings new ones, and none lives too long. */
  private async revokeLinks(companyId: CompanyId, contact: PondContactEntity): Promise<void> {
    await this.links.revokeFor(contact.id);
    if (contact.personId !== null) await this.links.revokeForPerson(companyId, contact.personId);
  }

  private async pondOf(companyId: CompanyId, pondId: PondId): Promise<PondEntity> {
    const pond = await this.database.company(companyId).findOne(PondEntity, { id: pondId });
    if (!pond) throw new PondThingNotFoundError('pond', pondId);
    return pond;
  }

  private async contactOf(companyId: CompanyId, contactId: string): Promise<PondContactEntity> {
    const contact = await this.database.company(companyId).findOne(PondContactEntity, { id: contactId });
    if (!contact) throw new PondThingNotFoundError('contact', contactId);
    return contact;
  }

  private async withEmails(contacts: readonly PondContactEntity[]): Promise<PondContact[]> {
    const personIds = [...new Set(contacts.flatMap(({ personId }) => (personId === null ? [] : [personId])))];
    const people = await this.people.byIds(personIds);
    return contacts.map((contact) => ({
      ...contact,
      email: contact.personId === null ? null : (people.get(contact.personId)?.email ?? null),
    }));
  }
}
