import { Injectable } from '@nestjs/common';
import { In, IsNull } from 'typeorm';
import { CompaniesService, type CompanyEntity, PeopleService } from '../accounts/index.js';
import { type CivilDay, civilDay } from '../core/units/civil-day.js';
import type { UnitSystem } from '../core/units/show.js';
import { Database } from '../database/index.js';
import type { CompanyId, PersonId, PondId } from '../platform/ids.js';
import { PondContactEntity, PondEntity } from '../ponds/index.js';
import type { DigestWish } from './digest-time.js';
import { OutboxService } from './outbox.service.js';
import { ReminderEntity } from './reminder.entity.js';

/** A person over all their ponds in one company. */
export interface Homeowner {
  readonly company: CompanyEntity;
  readonly personId: PersonId;
  readonly name: string;
  readonly email: string;
  readonly units: UnitSystem;
  /** Of the first pond: day, hour and zone of the weekly mail. */
  readonly wish: DigestWish;
  /** First and last day of weeks without a weekly mail; null where none are wished. */
  readonly quiet: { readonly from: CivilDay; readonly until: CivilDay } | null;
  readonly since: CivilDay;
  /** Those they are mailed about; all of them when mail is stopped for all. */
  readonly ponds: readonly PondEntity[];
  readonly allPonds: readonly PondEntity[];
  /** One for each pond. */
  readonly contacts: readonly PondContactEntity[];
  /** Mail was stopped for every pond. */
  readonly isStopped: boolean;
}

/** Somebody the office calls, because mail does not reach them. */
export interface CallListRow {
  readonly name: string;
  readonly phone: string;
  readonly pond: PondEntity;
  readonly because: 'no-email' | 'mail-stopped' | 'address-refused';
  /** The server's words, for a refused address. */
  readonly detail: string;
}

/** Whose ponds these are. Neighbours and builders are contacts, but get no mail. */
const MAILED_ROLES = ['homeowner', 'caretaker'] as const;

@Injectable()
export class HomeownersService {
  constructor(
    private readonly database: Database,
    private readonly companies: CompaniesService,
    private readonly people: PeopleService,
    private readonly outbox: OutboxService,
  ) {}

  /** Everybody with an email address and an active pond, in the order in which they came. */
  async all(companyId: CompanyId): Promise<Homeowner[]> {
    return this.of(companyId, {});
  }

  /** One person, or null when no active pond of this company is theirs any more. */
  async find(companyId: CompanyId, personId: PersonId): Promise<Homeowner | null> {
    return (await this.of(companyId, { personId }))[0] ?? null;
  }

  /** The people of one pond, whom a visit report is for; also those who stopped mail. */
  async ofPond(companyId: CompanyId, pondId: PondId): Promise<Homeowner[]> {
    const contacts = await this.database
      .company(companyId)
      .find(PondContactEntity, { where: { pondId, endedOn: IsNull(), role: In([...MAILED_ROLES]) } });
    const ids = [...new Set(contacts.flatMap(({ personId }) => (personId === null ? [] : [personId])))];
    return ids.length === 0 ? [] : this.of(companyId, { personId: In(ids) });
  }

  /** Those who may be mailed now: not stopped, and their server did not refuse the address. */
  async mailable(companyId: CompanyId): Promise<Homeowner[]> {
    const refused = await this.outbox.refusedAddresses(companyId);
    return (await this.all(companyId)).filter((one) => !one.isStopped && !refused.has(one.email));
  }

  /** The day of each person's last digest. */
  async lastDigests(companyId: CompanyId): Promise<ReadonlyMap<PersonId, CivilDay>> {
    const rows = await this.database
      .company(companyId)
      .select(ReminderEntity, 'reminder')
      .figures<{ personId: string; last: string }>(
        { personId: 'reminder.personId', last: 'MAX(reminder.digestOn)' },
        'reminder.personId',
      );
    return new Map(rows.map((row) => [row.personId, civilDay(row.last)]));
  }

  /** Homeowners whom no mail reaches: without an address, stopped, or refused by their server. */
  async callList(companyId: CompanyId): Promise<CallListRow[]> {
    const contacts = await this.contacts(companyId, {});
    const people = await this.people.byIds(contacts.flatMap(({ personId }) => (personId === null ? [] : [personId])));
    const ponds = await this.pondsOf(companyId, contacts);
    const refused = await this.outbox.refusedAddresses(companyId);
    const rows = contacts.flatMap((contact): CallListRow[] => {
      const pond = ponds.get(contact.pondId)!;
      const email = contact.personId === null ? null : (people.get(contact.personId)?.email ?? null);
      const row = { name: contact.name, phone: contact.phone, pond, detail: '' };
      if (email === null) return [{ ...row, because: 'no-email' }];
      if (isStopped(contact)) return [{ ...row, because: 'mail-stopped' }];
      const reply = refused.get(email);
      return reply === undefined ? [] : [{ ...row, because: 'address-refused', detail: reply }];
    });
    return rows.sort((a, b) => a.name.localeCompare(b.name, 'en') || a.pond.name.localeCompare(b.pond.name, 'en'));
  }

  private async of(companyId: CompanyId, which: { personId?: unknown }): Promise<Homeowner[]> {
    const company = await this.companies.get(companyId);
    const contacts = (await this.contacts(companyId, which)).filter(({ personId }) => personId !== null);
    const ponds = await this.pondsOf(companyId, contacts);
    const people = await this.people.byIds(contacts.map(({ personId }) => personId!));
    const byPerson = new Map<PersonId, PondContactEntity[]>();
    for (const contact of contacts) {
      const theirs = byPerson.get(contact.personId!);
      if (theirs) theirs.push(contact);
      else byPerson.set(contact.personId!, [contact]);
    }
    return [...byPerson].flatMap(([personId, theirs]): Homeowner[] => {
      const person = people.get(personId);
      const [first] = theirs;
      if (!person || !first) return [];
      const mailed = theirs.filter((contact) => !isStopped(contact));
      const leading = mailed[0] ?? first;
      return [
        {
          company,
          personId,
          name: person.name,
          email: person.email,
          units: leading.units ?? person.units ?? company.units,
          wish: {
            weekday: leading.digestWeekday,
            hour: leading.digestHour,
            timeZone: ponds.get(leading.pondId)!.timeZone,
          },
          quiet: quietOf(leading),
          since: civilDay(theirs.map((contact) => contact.startedOn).sort()[0]!),
          // A pond they share with somebody else may be stopped for them alone.
          ponds: (mailed.length > 0 ? mailed : theirs).map((contact) => ponds.get(contact.pondId)!),
          allPonds: theirs.map((contact) => ponds.get(contact.pondId)!),
          contacts: theirs,
          isStopped: mailed.length === 0,
        },
      ];
    });
  }

  private async contacts(companyId: CompanyId, which: { personId?: unknown }): Promise<PondContactEntity[]> {
    const contacts = await this.database.company(companyId).find(PondContactEntity, {
      where: { endedOn: IsNull(), role: In([...MAILED_ROLES]), ...(which as object) },
      order: { startedOn: 'ASC', id: 'ASC' },
    });
    const active = await this.pondsOf(companyId, contacts);
    return contacts.filter((contact) => active.has(contact.pondId));
  }

  private async pondsOf(
    companyId: CompanyId,
    contacts: readonly PondContactEntity[],
  ): Promise<ReadonlyMap<PondId, PondEntity>> {
    const ids = [...new Set(contacts.map(({ pondId }) => pondId))];
    const ponds = new Map<PondId, PondEntity>();
    for (let from = 0; from < ids.length; from += 500) {
      const some = await this.database
        .company(companyId)
        .find(PondEntity, { where: { id: In(ids.slice(from, from + 500)), state: 'active' } });
      for (const pond of some) ponds.set(pond.id, pond);
    }
    return ponds;
  }
}

/** Whether a day lies in the weeks in which a homeowner wants no weekly mail. */
export function isQuiet({ quiet }: Pick<Homeowner, 'quiet'>, day: CivilDay): boolean {
  return quiet !== null && quiet.from <= day && day <= quiet.until;
}

function quietOf({ quietFrom, quietUntil }: PondContactEntity): Homeowner['quiet'] {
  if (quietFrom === null || quietUntil === null) return null;
  return { from: civilDay(quietFrom), until: civilDay(quietUntil) };
}

function isStopped(contact: PondContactEntity): boolean {
  return !contact.getsMail || contact.mailStoppedAt !== null;
}
