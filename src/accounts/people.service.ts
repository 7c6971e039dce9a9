import { Injectable } from '@nestjs/common';
import { In, IsNull } from 'typeorm';
import { Database } from '../database/index.js';
import { Clock } from '../platform/clock.js';
import { type CompanyId, newId, type PersonId } from '../platform/ids.js';
import { mailAddress, oneLine, oneLineOrNone } from './account-fields.js';
import { AlreadyMemberError, LastOwnerError, PersonNotFoundError } from './accounts.errors.js';
import { MembershipEntity } from './membership.entity.js';
import { PasswordsService } from './passwords.service.js';
import { PersonEntity } from './person.entity.js';
import { SessionEntity } from './session.entity.js';

export interface NewPerson {
  readonly email: string;
  readonly name: string;
  readonly phone?: string;
  /** BCP 47, default `en`. */
  readonly language?: string;
  readonly units?: 'us' | 'metric' | null;
}

export interface NewMember extends NewPerson {
  readonly companyId: CompanyId;
  readonly role: MembershipEntity['role'];
  readonly skills?: readonly string[];
  /** Without one the member cannot sign in until a password is set. */
  readonly password?: string;
}

/** Somebody's place in a company, with who they are. */
export interface Member {
  readonly membershipId: string;
  readonly personId: PersonId;
  readonly name: string;
  readonly email: string;
  readonly phone: string;
  readonly role: MembershipEntity['role'];
  readonly skills: readonly string[];
  readonly hasPassword: boolean;
  readonly since: string;
}

@Injectable()
export class PeopleService {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
    private readonly passwords: PasswordsService,
  ) {}

  async findByEmail(email: string): Promise<PersonEntity | null> {
    return this.database.shared().findOne(PersonEntity, { email: email.trim().toLowerCase() });
  }

  /** @throws PersonNotFoundError */
  async get(personId: PersonId): Promise<PersonEntity> {
    const person = await this.database.shared().findOne(PersonEntity, { id: personId });
    if (!person) throw new PersonNotFoundError(personId);
    return person;
  }

  /** Those of the ids who exist, by id. */
  async byIds(personIds: readonly PersonId[]): Promise<ReadonlyMap<PersonId, PersonEntity>> {
    const people = personIds.length ? await this.database.shared().find(PersonEntity, { id: In([...personIds]) }) : [];
    return new Map(people.map((person) => [person.id, person]));
  }

  /** The person of an address, made when there is none. One who exists keeps name and settings: they are their own. */
  async ensurePerson(person: NewPerson): Promise<PersonEntity> {
    const email = mailAddress(person.email);
    return this.database.unitOfWork('add a person', async () => {
      const standing = await this.findByEmail(email);
      if (standing) return standing;
      const row: PersonEntity = {
        id: newId(this.clock.now().toMillis()),
        email,
        name: oneLine('name', person.name),
        phone: oneLineOrNone('phone', person.phone ?? '', 40),
        language: oneLine('language', person.language ?? 'en', 10),
        units: person.units ?? null,
        passwordHash: null,
        disabledAt: null,
        createdAt: this.clock.instant(),
      };
      await this.database.shared().insert(PersonEntity, row);
      return row;
    });
  }

  /**
   * Gives an address a place in a company; one that had ended begins anew. A password is set only for a person who has
   * none: nobody's password is changed by another company.
   * @throws AlreadyMemberError when the place stands
   */
  async addMember(member: NewMember): Promise<Member> {
    const hash = member.password === undefined ? null : await this.passwords.hash(member.password, member.email);
    return this.addHashed(member, hash);
  }

  /** As `addMember`, for a caller inside a unit of work, where a password must not be hashed: it takes too long. */
  async addHashed(member: Omit<NewMember, 'password'>, hash: string | null): Promise<Member> {
    return this.database.unitOfWork('add a member', async () => {
      const person = await this.ensurePerson(member);
      const place = { memberOfCompanyId: member.companyId, personId: person.id };
      const standing = await this.database.shared().findOne(MembershipEntity, place);
      if (standing && standing.endedAt === null) throw new AlreadyMemberError(person.email);

      const fields = { role: member.role, skills: [...(member.skills ?? [])], endedAt: null };
      const now = this.clock.instant();
      const row = { id: standing?.id ?? newId(this.clock.now().toMillis()), ...place, ...fields, createdAt: now };
      if (standing)
        await this.database.shared().update(MembershipEntity, { id: row.id }, { ...fields, createdAt: now });
      else await this.database.shared().insert(MembershipEntity, row);

      const passwordHash = person.passwordHash ?? hash;
      if (passwordHash !== person.passwordHash) await this.storePassword(person.id, passwordHash);
      return memberOf(row, { ...person, passwordHash });
    });
  }

  /** Who belongs to a company now, by name. */
  async membersOf(companyId: CompanyId): Promise<Member[]> {
    const places = await this.database
      .shared()
      .find(MembershipEntity, { memberOfCompanyId: companyId, endedAt: IsNull() });
    const people = await this.byIds(places.map((place) => place.personId));
    return places
      .map((place) => memberOf(place, people.get(place.personId)!))
      .sort((a, b) => a.name.localeCompare(b.name, 'en') || a.personId.localeCompare(b.personId));
  }

  async technicians(companyId: CompanyId): Promise<Member[]> {
    return (await this.membersOf(companyId)).filter((member) => member.role === 'technician');
  }

  /**
   * Ends a place at once: the person's sessions in this company end with it.
   * @throws PersonNotFoundError when there is no such place
   * @throws LastOwnerError
   */
  async endMembership(companyId: CompanyId, personId: PersonId): Promise<void> {
    await this.database.unitOfWork('end a membership', async () => {
      const members = await this.membersOf(companyId);
      const leaving = members.find((member) => member.personId === personId);
      if (!leaving) throw new PersonNotFoundError(personId);
      const owners = members.filter((member) => member.role === 'owner');
      if (leaving.role === 'owner' && owners.length === 1) throw new LastOwnerError();

      const shared = this.database.shared();
      await shared.update(MembershipEntity, { id: leaving.membershipId }, { endedAt: this.clock.instant() });
      await shared.remove(SessionEntity, { personId, actingForCompanyId: companyId });
    });
  }

  /** Sets a password and ends every session of the person. @throws UnusablePasswordError, PersonNotFoundError */
  async setPassword(personId: PersonId, password: string): Promise<void> {
    const { email } = await this.get(personId);
    const hash = await this.passwords.hash(password, email);
    await this.database.unitOfWork('set a password', async () => {
      await this.storePassword(personId, hash);
      await this.database.shared().remove(SessionEntity, { personId });
    });
  }

  private async storePassword(personId: PersonId, passwordHash: string | null): Promise<void> {
    await this.database.shared().update(PersonEntity, { id: personId }, { passwordHash });
  }
}

function memberOf(place: MembershipEntity, person: PersonEntity): Member {
  return {
    membershipId: place.id,
    personId: person.id,
    name: person.name,
    email: person.email,
    phone: person.phone,
    role: place.role,
    skills: place.skills,
    hasPassword: person.passwordHash !== null,
    since: place.createdAt,
  };
}
