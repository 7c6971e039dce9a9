import { Inject, Injectable } from '@nestjs/common';
import { LessThan } from 'typeorm';
import { SETTINGS, type Settings } from '../config/index.js';
import { Database } from '../database/index.js';
import { Clock, instantFrom, instantText } from '../platform/clock.js';
import { type CompanyId, newId, newToken, type PersonId } from '../platform/ids.js';
import { AppLogger } from '../platform/logger.js';
import { SignInRefusedError } from './accounts.errors.js';
import type { Actor, Place, Role } from './actor.js';
import { CompanyEntity } from './company.entity.js';
import { PasswordsService } from './passwords.service.js';
import { PeopleService } from './people.service.js';
import { PersonEntity } from './person.entity.js';
import { PlacesService } from './places.service.js';
import { SessionEntity } from './session.entity.js';
import { SignInLimits } from './sign-in-limits.js';
import { tokenHash } from './token-hash.js';

/** A session that has begun. The token goes into the cookie and is stored nowhere. */
export interface SignedIn {
  readonly token: string;
  /** Instant at which it ends at the latest. */
  readonly expiresAt: string;
  readonly personId: PersonId;
  readonly companyId: CompanyId;
  readonly role: Role;
}

/** The last use is written down at most this often: each writing takes a write turn. */
const USE_NOTED_EVERY_S = 60;

@Injectable()
export class SessionsService {
  private readonly limits = new SignInLimits();

  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
    private readonly logger: AppLogger,
    private readonly people: PeopleService,
    private readonly passwords: PasswordsService,
    private readonly places: PlacesService,
    @Inject(SETTINGS) private readonly settings: Pick<Settings, 'sessions'>,
  ) {}

  /**
   * Signs a person in at their first place, or at the one named.
   * @param from.address network address of the visitor, for the limit of failures
   * @throws SignInRefusedError with the same words and after the same time whatever was wrong
   * @throws TooManyAttemptsError after 5 failures in 15 minutes for an account (from one address), or 20 a minute from an address
   */
  async signIn(
    email: string,
    password: string,
    from: { readonly address?: string; readonly place?: Place } = {},
  ): Promise<SignedIn> {
    const attempt = {
      email: email.trim().toLowerCase().slice(0, 254),
      address: from.address ?? '',
      atMs: this.clock.now().toMillis(),
    };
    this.limits.begin(attempt);
    const person = await this.people.findByEmail(attempt.email);
    const isRight = await this.passwords.verify(person?.passwordHash ?? null, password);
    const places = await this.places.of(person?.id ?? newId());
    const place = from.place
      ? places.find((one) => one.companyId === from.place?.companyId && one.role === from.place.role)
      : places[0];
    if (!person || !isRight || person.disabledAt !== null || !place) throw new SignInRefusedError();

    this.limits.succeeded(attempt);
    await this.refreshHash(person, password);
    return this.start(person.id, place.companyId, place.role);
  }

  /** Begins a session, always with a new token. The caller has made sure that the person holds this place. */
  async start(personId: PersonId, companyId: CompanyId, role: Role): Promise<SignedIn> {
    const token = newToken();
    const now = this.clock.now();
    const { officeHours, technicianDays } = this.settings.sessions;
    const expiresAt = instantText(now.plus(role === 'technician' ? { days: technicianDays } : { hours: officeHours }));
    const row: SessionEntity = {
      id: newId(now.toMillis()),
      tokenHash: tokenHash(token),
      formToken: newToken(),
      personId,
      actingForCompanyId: companyId,
      role,
      createdAt: instantText(now),
      usedAt: instantText(now),
      expiresAt,
    };
    await this.database.unitOfWork('begin a session', async () => {
      await this.database.shared().remove(SessionEntity, { expiresAt: LessThan(instantText(now)) });
      await this.database.shared().insert(SessionEntity, row);
    });
    return { token, expiresAt, personId, companyId, role };
  }

  /** Who is behind a token, or null: unknown, expired, idle too long, disabled, or no longer in that place. */
  async actorOf(token: string): Promise<Actor | null> {
    const shared = this.database.shared();
    const session = await shared.findOne(SessionEntity, { tokenHash: tokenHash(token) });
    if (!session || session.actingForCompanyId === null || this.hasEnded(session)) return null;

    const [person, company] = await Promise.all([
      shared.findOne(PersonEntity, { id: session.personId }),
      shared.findOne(CompanyEntity, { id: session.actingForCompanyId }),
    ]);
    if (!person || !company || person.disabledAt !== null) return null;
    if (!(await this.places.stillHolds(person.id, { companyId: company.id, role: session.role }))) return null;

    this.noteUse(session);
    return {
      personId: person.id,
      name: person.name,
      email: person.email,
      companyId: company.id,
      companyName: company.name,
      role: session.role,
      units: person.units ?? company.units,
      timeZone: company.timeZone,
      isDemo: company.isDemo,
      sessionId: session.id,
      formToken: session.formToken,
    };
  }

  async signOut(token: string): Promise<void> {
    await this.database.unitOfWork('sign out', () =>
      this.database.shared().remove(SessionEntity, { tokenHash: tokenHash(token) }),
    );
  }

  /** Ends every session of a person; answers how many there were. */
  async signOutEverywhere(personId: PersonId): Promise<number> {
    return this.database.unitOfWork('sign out everywhere', () =>
      this.database.shared().remove(SessionEntity, { personId }),
    );
  }

  private hasEnded(session: SessionEntity): boolean {
    const now = this.clock.now();
    if (session.expiresAt <= instantText(now)) return true;
    if (session.role === 'technician') return false; // a phone lies in the van for days
    const idle = now.diff(instantFrom(session.usedAt)).as('minutes');
    return idle >= this.settings.sessions.officeIdleMinutes;
  }

  /** Not awaited by the request: during a long import it would wait for the write turn. */
  private noteUse(session: SessionEntity): void {
    const now = this.clock.now();
    if (now.diff(instantFrom(session.usedAt)).as('seconds') < USE_NOTED_EVERY_S) return;
    this.database
      .unitOfWork('note the use of a session', () =>
        this.database.shared().update(SessionEntity, { id: session.id }, { usedAt: instantText(now) }),
      )
      .catch((error: unknown) => this.logger.warn(error, 'sessions'));
  }

  private async refreshHash(person: PersonEntity, password: string): Promise<void> {
    if (!person.passwordHash || !this.passwords.isOutdated(person.passwordHash)) return;
    const passwordHash = await this.passwords.rehash(password);
    await this.database.unitOfWork('renew a password hash', () =>
      this.database.shared().update(PersonEntity, { id: person.id }, { passwordHash }),
    );
  }
}
