import { Injectable } from '@nestjs/common';
import { Database } from '../database/index.js';
import type { CompanyId, PersonId } from '../platform/ids.js';
import { FirstAccountExistsError } from './accounts.errors.js';
import { CompaniesService } from './companies.service.js';
import { CompanyEntity } from './company.entity.js';
import { PasswordsService } from './passwords.service.js';
import { PeopleService } from './people.service.js';

export interface FirstAccount {
  readonly companyName: string;
  readonly postalAddress: string;
  readonly timeZone: string;
  readonly units: 'us' | 'metric';
  readonly name: string;
  readonly email: string;
  readonly password: string;
}

/** An empty installation asks whoever opens it first for the company and its account owner. */
@Injectable()
export class FirstAccountService {
  constructor(
    private readonly database: Database,
    private readonly companies: CompaniesService,
    private readonly people: PeopleService,
    private readonly passwords: PasswordsService,
  ) {}

  async isNeeded(): Promise<boolean> {
    return (await this.database.shared().count(CompanyEntity)) === 0;
  }

  /** @throws FirstAccountExistsError when somebody was faster, UnusablePasswordError, InvalidValueError */
  async create(account: FirstAccount): Promise<{ companyId: CompanyId; personId: PersonId }> {
    if (!(await this.isNeeded())) throw new FirstAccountExistsError();
    const hash = await this.passwords.hash(account.password, account.email);
    const { name, email, companyName, postalAddress, timeZone, units } = account;
    return this.database.unitOfWork('make the first account', async () => {
      if (!(await this.isNeeded())) throw new FirstAccountExistsError();
      const company = await this.companies.create({
        name: companyName,
        postalAddress,
        timeZone,
        units,
        replyToEmail: email,
      });
      const owner = await this.people.addHashed({ companyId: company.id, email, name, role: 'owner' }, hash);
      return { companyId: company.id, personId: owner.personId };
    });
  }
}
