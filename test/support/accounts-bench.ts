import {
  CompaniesService,
  type CompanyEntity,
  FirstAccountService,
  LinksService,
  type Member,
  type MembershipEntity,
  PasswordsService,
  PeopleService,
  PlacesService,
  SessionsService,
} from '../../src/accounts/index.js';
import type { Database } from '../../src/database/index.js';
import { FixedClock } from '../../src/platform/clock.js';
import { AppLogger } from '../../src/platform/logger.js';
import { type TemporaryDatabase, temporaryDatabase } from './temporary-database.js';

export const PASSWORD = 'four koi under a lily';

/** The services of accounts on a database and a clock of their own. */
export class AccountsBench {
  readonly companies: CompaniesService;
  readonly passwords = new PasswordsService();
  readonly people: PeopleService;
  readonly places: PlacesService;
  readonly sessions: SessionsService;
  readonly links: LinksService;
  readonly firstAccount: FirstAccountService;

  private constructor(
    private readonly temporary: TemporaryDatabase,
    readonly clock: FixedClock,
  ) {
    const { database } = temporary;
    const sessions = { officeHours: 12, officeIdleMinutes: 120, technicianDays: 30 };
    this.companies = new CompaniesService(database, clock);
    this.people = new PeopleService(database, clock, this.passwords);
    this.places = new PlacesService(database);
    const logger = new AppLogger('silent');
    this.sessions = new SessionsService(database, clock, logger, this.people, this.passwords, this.places, {
      sessions,
    });
    this.links = new LinksService(database, clock);
    this.firstAccount = new FirstAccountService(database, this.companies, this.people, this.passwords);
  }

  static async open(isoInstant: string): Promise<AccountsBench> {
    return new AccountsBench(await temporaryDatabase(), FixedClock.at(isoInstant));
  }

  get database(): Database {
    return this.temporary.database;
  }

  /** A company of its own with one member; the password may be left out. */
  async member(
    role: MembershipEntity['role'],
    email: string,
    password: string | null = PASSWORD,
  ): Promise<{ company: CompanyEntity; member: Member }> {
    const company = await this.companies.create({
      name: 'Lakeside Pond Care',
      postalAddress: '12 Mill Lane, Madison, WI 53703',
      timeZone: 'America/Chicago',
      units: 'us',
    });
    const member = await this.people.addMember({
      companyId: company.id,
      email,
      name: 'Kim Vale',
      role,
      ...(password !== null && { password }),
    });
    return { company, member };
  }

  close(): Promise<void> {
    return this.temporary.close();
  }
}
