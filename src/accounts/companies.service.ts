import { Injectable } from '@nestjs/common';
import { Database } from '../database/index.js';
import { Clock } from '../platform/clock.js';
import { type CompanyId, newId } from '../platform/ids.js';
import { mailAddress, oneLine, oneLineOrNone, severalLines, timeZoneName } from './account-fields.js';
import { CompanyNotFoundError } from './accounts.errors.js';
import { CompanyEntity } from './company.entity.js';

/** What a company is made from; the rest has defaults. */
export type NewCompany = Pick<CompanyEntity, 'name' | 'postalAddress' | 'timeZone' | 'units'> &
  Partial<Pick<CompanyEntity, 'replyToEmail' | 'phone' | 'dechlorinatorId' | 'defaultDoneBy' | 'isDemo'>> & {
    /** Default: a new one. */
    id?: CompanyId;
  };
export type CompanyChange = Partial<Omit<CompanyEntity, 'id' | 'isDemo' | 'createdAt'>>;

/** The preset of `config/products/dechlorinators.yaml`; a company names its own product in its settings. */
export const DEFAULT_DECHLORINATOR = 'thiosulfate-crystals';

@Injectable()
export class CompaniesService {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
  ) {}

  /** @throws CompanyNotFoundError */
  async get(companyId: CompanyId): Promise<CompanyEntity> {
    const company = await this.database.shared().findOne(CompanyEntity, { id: companyId });
    if (!company) throw new CompanyNotFoundError(companyId);
    return company;
  }

  /** Every company, the oldest first. */
  all(): Promise<CompanyEntity[]> {
    return this.database.shared().find(CompanyEntity, {}, { createdAt: 'ASC', id: 'ASC' });
  }

  async create(company: NewCompany): Promise<CompanyEntity> {
    const row: CompanyEntity = {
      id: company.id ?? newId(this.clock.now().toMillis()),
      ...checked({
        replyToEmail: '',
        phone: '',
        dechlorinatorId: DEFAULT_DECHLORINATOR,
        defaultDoneBy: 'company',
        name: company.name,
        postalAddress: company.postalAddress,
        timeZone: company.timeZone,
        units: company.units,
        ...withoutUndefined(company),
      }),
      isDemo: company.isDemo ?? false,
      createdAt: this.clock.instant(),
    };
    await this.database.unitOfWork('add a company', () => this.database.shared().insert(CompanyEntity, row));
    return row;
  }

  /** Changes what is named, and answers the company as it now is. @throws CompanyNotFoundError */
  async update(companyId: CompanyId, change: CompanyChange): Promise<CompanyEntity> {
    return this.database.unitOfWork('change a company', async () => {
      const { id, isDemo, createdAt, ...standing } = await this.get(companyId);
      const changed = checked({ ...standing, ...withoutUndefined(change) });
      await this.database.shared().update(CompanyEntity, { id: companyId }, changed);
      return { ...changed, id, isDemo, createdAt };
    });
  }
}

type Fields = Omit<CompanyEntity, 'id' | 'isDemo' | 'createdAt'>;

function checked(fields: Fields): Fields {
  return {
    name: oneLine('name', fields.name),
    postalAddress: severalLines('postalAddress', fields.postalAddress, 400),
    replyToEmail: fields.replyToEmail === '' ? '' : mailAddress(fields.replyToEmail),
    phone: oneLineOrNone('phone', fields.phone, 40),
    units: fields.units,
    timeZone: timeZoneName(fields.timeZone),
    dechlorinatorId: oneLine('dechlorinatorId', fields.dechlorinatorId, 80),
    defaultDoneBy: fields.defaultDoneBy,
  };
}

function withoutUndefined<T extends object>(values: T): Partial<T> {
  return Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined)) as Partial<T>;
}
