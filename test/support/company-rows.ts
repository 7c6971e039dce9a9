import { CompanyEntity, MembershipEntity, PersonEntity } from '../../src/accounts/index.js';
import type { Database } from '../../src/database/index.js';
import { newId } from '../../src/platform/ids.js';
import { PondEntity } from '../../src/ponds/pond.entity.js';

export const AT = '2026-11-25T12:00:00.000Z';
export const ON = '2026-11-25';

/** A company's row; name what matters to the test. */
export function companyRow(own: Partial<CompanyEntity> = {}): CompanyEntity {
  return {
    id: newId(),
    name: 'Lakeside Pond Care',
    postalAddress: '12 Mill Lane\nMadison, WI 53703',
    replyToEmail: 'office@lakeside.example.com',
    phone: '+1 608 555 0100',
    units: 'us',
    timeZone: 'America/Chicago',
    dechlorinatorId: 'thiosulfate-crystals',
    defaultDoneBy: 'company',
    isDemo: false,
    createdAt: AT,
    ...own,
  };
}

export function personRow(own: Partial<PersonEntity> = {}): PersonEntity {
  const id = own.id ?? newId();
  return {
    id,
    email: `${id}@example.com`,
    name: 'Maria Lind',
    phone: '',
    language: 'en',
    units: null,
    passwordHash: null,
    disabledAt: null,
    createdAt: AT,
    ...own,
  };
}

/** A koi pond of 8,000 L in Madison, Wisconsin. */
export function pondRow(own: Partial<PondEntity> = {}): Omit<PondEntity, 'companyId'> {
  return {
    id: newId(),
    name: 'Back garden',
    state: 'active',
    street: '4 Elm Street',
    town: 'Madison',
    region: 'WI',
    postalCode: '53703',
    country: 'US',
    latitude: 43.07,
    longitude: -89.4,
    elevationM: 270,
    timeZone: 'America/Chicago',
    shape: null,
    volumeL: 8000,
    volumeMethod: 'metered',
    volumeSigmaPct: 3,
    surfaceAreaM2: 9,
    meanDepthM: 0.9,
    maxDepthM: 1.2,
    directSunHours: 6,
    windShelter: 'suburban',
    treesNear: true,
    waterfall: false,
    plants: [],
    tapSource: 'chlorine',
    tapTotalChlorineMgPerL: 1.2,
    commissionedOn: '2020-05-01',
    stockedOn: '2020-06-01',
    careSince: '2024-04-01',
    stationId: null,
    hardinessZone: null,
    koeppen: null,
    accessNotes: '',
    gateCode: '',
    hazards: '',
    createdAt: AT,
    updatedAt: AT,
    archivedAt: null,
    version: 1,
    ...own,
  } as Omit<PondEntity, 'companyId'>;
}

/** Stores a company with one account owner. */
export async function storeCompany(
  database: Database,
  own: Partial<CompanyEntity> = {},
): Promise<{ company: CompanyEntity; owner: PersonEntity }> {
  const company = companyRow(own);
  const owner = personRow();
  await database.unitOfWork('store a company', async () => {
    await database.shared().insert(CompanyEntity, company);
    await database.shared().insert(PersonEntity, owner);
    await database.shared().insert(MembershipEntity, {
      id: newId(),
      memberOfCompanyId: company.id,
      personId: owner.id,
      role: 'owner',
      skills: [],
      createdAt: AT,
      endedAt: null,
    });
  });
  return { company, owner };
}

/** Stores a pond of a company and answers its id. */
export async function storePond(database: Database, companyId: string, own: Partial<PondEntity> = {}): Promise<string> {
  const row = pondRow(own);
  await database.unitOfWork('store a pond', () => database.company(companyId).insert(PondEntity, row));
  return row.id;
}
