import tzLookup from '@photostructure/tz-lookup';
import { InvalidValueError } from '../core/errors.js';
import { civilDay } from '../core/units/civil-day.js';
import { type CompanyId, newId, type PondId } from '../platform/ids.js';
import type { AgreementTermEntity } from './agreement-term.entity.js';
import type { EquipmentEntity } from './equipment.entity.js';
import type { PondEntity } from './pond.entity.js';
import type { AgreementInput, EquipmentInput, PondInput, PondInputTyped, StockInput } from './pond-input.schema.js';
import type { PondContact, PondRecord } from './pond-record.js';
import type { StockGroupEntity } from './stock-group.entity.js';
import { storedVolumeOf, waterInputOf } from './water-input.schema.js';

/** A pond filled this long ago and not said to be running in is past it. [days] */
const RUN_IN_AT_MOST_DAYS = 180;

/** The pond's own columns that follow from what was typed. */
export type PondColumns = Omit<
  PondEntity,
  'id' | 'companyId' | 'state' | 'winterClass' | 'winterKey' | 'createdAt' | 'updatedAt' | 'archivedAt' | 'version'
>;

/**
 * @param today Civil date in the pond's zone.
 * @param standing What stands, when an edit leaves out `careSince` or `stockedOn`.
 */
export function pondColumnsOf(
  input: PondInput,
  today: string,
  standing?: Pick<PondEntity, 'careSince' | 'stockedOn'>,
): PondColumns {
  const careSince = input.careSince ?? standing?.careSince ?? today;
  return {
    name: input.name,
    ref: input.ref,
    street: input.street,
    town: input.town,
    region: input.region,
    postalCode: input.postalCode,
    country: input.country,
    latitude: input.latitude,
    longitude: input.longitude,
    elevationM: input.elevationM,
    timeZone: timeZoneOf(input),
    ...storedVolumeOf(input.water),
    directSunHours: input.directSunHours,
    windShelter: input.windShelter,
    treesNear: input.treesNear,
    waterfall: input.waterfall,
    plants: input.plants,
    tapSource: input.tap.source,
    tapTotalChlorineMgPerL: input.tap.totalChlorineMgPerL,
    commissionedOn: input.commissionedOn,
    stockedOn: stockedOn(input, careSince, standing),
    careSince,
    stationId: input.stationId,
    hardinessZone: input.hardinessZone,
    koeppen: input.koeppen,
    accessNotes: input.accessNotes,
    gateCode: input.gateCode,
    hazards: input.hazards,
  };
}

/** The zone typed, else that of the coordinates. */
export function timeZoneOf(pond: { latitude: number; longitude: number; timeZone?: string }): string {
  if (pond.timeZone) return pond.timeZone;
  try {
    return tzLookup(pond.latitude, pond.longitude);
  } catch (cause) {
    const error = new InvalidValueError(
      'time zone',
      `${pond.latitude}, ${pond.longitude}`,
      'No time zone is known there. Check the coordinates, or write the zone, for example America/Chicago.',
    );
    error.cause = cause;
    throw error;
  }
}

/** A pond taken over, or filled long ago, is past its run-in unless somebody says otherwise. */
function stockedOn(input: PondInput, careSince: string, standing?: Pick<PondEntity, 'stockedOn'>): string | null {
  if (input.stockedOn !== undefined) return input.stockedOn;
  if (standing) return standing.stockedOn;
  if (input.commissionedOn === null) return careSince;
  return civilDay(careSince) - civilDay(input.commissionedOn) > RUN_IN_AT_MOST_DAYS ? careSince : null;
}

interface Owner {
  readonly companyId: CompanyId;
  readonly pondId: PondId;
}

export function equipmentRow(owner: Owner, machine: EquipmentInput): EquipmentEntity {
  const { kind, name, rated, installedOn, warrantyUntil } = machine;
  return { id: newId(), ...owner, kind, name, rated, installedOn, warrantyUntil, removedOn: null };
}

export function stockRow(owner: Owner, group: StockInput): StockGroupEntity {
  return { id: newId(), ...owner, species: group.species, headCount: group.count, lengthCm: group.lengthCm };
}

export function agreementRow(owner: Owner, term: AgreementInput): AgreementTermEntity {
  return {
    id: newId(),
    ...owner,
    ruleId: term.ruleId,
    doneBy: term.doneBy,
    fromOn: term.from,
    untilOn: term.until,
  };
}

/** A record of what was typed, for a preview: nothing is stored, so its contacts are left out. */
export function unsavedRecord(
  companyId: CompanyId,
  input: PondInput,
  given: { pondId: PondId; today: string; instant: string },
): PondRecord {
  const owner = { companyId, pondId: given.pondId };
  return {
    pond: {
      id: given.pondId,
      companyId,
      state: 'active',
      ...pondColumnsOf(input, given.today),
      createdAt: given.instant,
      updatedAt: given.instant,
      archivedAt: null,
      version: 1,
    },
    equipment: input.equipment.map((machine) => equipmentRow(owner, machine)),
    stock: input.stock.map((group) => stockRow(owner, group)),
    agreement: input.agreement.map((term) => agreementRow(owner, term)),
    contacts: [],
  };
}

/** What stands, in the form in which it is typed: for the edit page and the export. */
export function pondInputOf(record: PondRecord): PondInputTyped & { equipment: EquipmentInput[] } {
  const { pond } = record;
  return {
    name: pond.name,
    ref: pond.ref ?? null,
    street: pond.street,
    town: pond.town,
    region: pond.region,
    postalCode: pond.postalCode,
    country: pond.country,
    latitude: pond.latitude,
    longitude: pond.longitude,
    elevationM: pond.elevationM,
    timeZone: pond.timeZone,
    water: waterInputOf(pond),
    directSunHours: pond.directSunHours,
    windShelter: pond.windShelter,
    treesNear: pond.treesNear,
    waterfall: pond.waterfall,
    plants: pond.plants,
    tap: { source: pond.tapSource, totalChlorineMgPerL: pond.tapTotalChlorineMgPerL },
    commissionedOn: pond.commissionedOn,
    stockedOn: pond.stockedOn,
    careSince: pond.careSince,
    stationId: pond.stationId,
    hardinessZone: pond.hardinessZone,
    koeppen: pond.koeppen,
    accessNotes: pond.accessNotes,
    gateCode: pond.gateCode,
    hazards: pond.hazards,
    equipment: record.equipment.map(({ id, kind, name, installedOn, warrantyUntil, rated }) => ({
      id,
      kind,
      name,
      installedOn,
      warrantyUntil,
      rated,
    })),
    stock: record.stock.map(({ species, headCount, lengthCm }) => ({ species, count: headCount, lengthCm })),
    agreement: record.agreement.map(({ ruleId, doneBy, fromOn, untilOn }) => ({
      ruleId,
      doneBy,
      from: fromOn,
      until: untilOn,
    })),
    contacts: record.contacts.filter((contact) => contact.endedOn === null).map(contactInputOf),
  };
}

export function contactInputOf(contact: PondContact) {
  const { id, name, role, email, phone, language, units, getsMail, digestWeekday, digestHour, startedOn } = contact;
  return { id, name, role, email, phone, language, units, getsMail, digestWeekday, digestHour, startedOn };
}
