import { DomainError } from '../../../../core/errors.js';
import type { UnitSystem } from '../../../../core/units/show.js';
import { saltVolume } from '../../../../core/water/salt.js';
import type { PondInput, PondInputTyped } from '../../../../ponds/index.js';
import { PondInputSchema } from '../../../../ponds/index.js';
import type { FormFaults } from '../../../forms/form-faults.js';
import type { ShownPond, TypedPond } from './form-values.js';
import { TypedNumbers } from './typed-numbers.js';
import { faultsOfIssues } from './typed-pond-faults.js';

export interface ReadPond {
  /** Null when something cannot be used. */
  readonly input: PondInput | null;
  readonly faults: FormFaults;
}

/**
 * Reads the form into a pond record in stored units. A number left as it was shown keeps its stored value, so that an
 * edit of one field moves no other by the rounding of its unit.
 */
export function readTypedPond(typed: TypedPond, units: UnitSystem, shown: ShownPond | null = null): ReadPond {
  const numbers = new TypedNumbers(typed, units, shown);
  const rows = rowsOf(typed);
  const assembled = assemble(typed, numbers, rows);
  const checked = PondInputSchema.safeParse(assembled as PondInputTyped, { reportInput: true });
  const faults = {
    ...(checked.success ? {} : faultsOfIssues(checked.error.issues, { typed, units, rows })),
    ...numbers.faults,
  };
  return { input: checked.success && Object.keys(faults).length === 0 ? checked.data : null, faults };
}

/** The parts of a form that may not be complete yet, each to be checked by itself. */
export function typedParts(typed: TypedPond, units: UnitSystem) {
  const { water, equipment, stock, tap } = assemble(typed, new TypedNumbers(typed, units, null), rowsOf(typed));
  return { water, equipment, stock, tap };
}

function rowsOf(typed: TypedPond) {
  return {
    equipment: rowNumbers(typed, 'equipment', 'kind'),
    stock: rowNumbers(typed, 'stock', 'species'),
    contacts: rowNumbers(typed, 'contacts', 'name'),
    agreement: agreedRules(typed),
    levels: rowNumbers(typed, 'level', 'height'),
    contours: rowNumbers(typed, 'contour', 'depth'),
  };
}

function assemble(typed: TypedPond, numbers: TypedNumbers, rows: ReturnType<typeof rowsOf>) {
  return {
    ...place(typed, numbers),
    water: water(typed, numbers, rows),
    directSunHours: numbers.read('directSunHours', 'plain', 'Hours of direct sun') ?? undefined,
    windShelter: given(typed.windShelter),
    treesNear: typed.treesNear === 'yes',
    waterfall: typed.waterfall === 'yes',
    plants: (typed.plants ?? '').split(',').filter(Boolean),
    tap: {
      source: given(typed.tapSource) ?? 'unknown',
      totalChlorineMgPerL: numbers.read('tapChlorine', 'plain', 'Total chlorine'),
    },
    equipment: rows.equipment.map((row) => machine(typed, numbers, row)),
    stock: rows.stock.map((row) => ({
      species: typed[`stock.${row}.species`],
      count: numbers.read(`stock.${row}.count`, 'plain', 'Count') ?? undefined,
      lengthCm: numbers.read(`stock.${row}.length`, 'fish-length', 'Length') ?? undefined,
    })),
    contacts: rows.contacts.map((row) => contact(typed, row)),
    agreement: rows.agreement.map((ruleId) => ({
      ruleId,
      doneBy: typed[`agreement.${ruleId}.doneBy`],
      from: given(typed[`agreement.${ruleId}.from`]) ?? null,
      until: given(typed[`agreement.${ruleId}.until`]) ?? null,
    })),
  };
}

/** Numbers of the rows in use: those whose leading field is filled. Where it is empty, the row was taken out. */
export function rowNumbers(typed: TypedPond, list: string, leading: string): number[] {
  const pattern = new RegExp(`^${list}\\.(\\d{1,3})\\.${leading}$`);
  return Object.entries(typed)
    .map(([name, value]) => ({ row: pattern.exec(name)?.[1], value }))
    .filter(({ row, value }) => row !== undefined && value.trim() !== '')
    .map(({ row }) => Number(row))
    .sort((a, b) => a - b);
}

function agreedRules(typed: TypedPond): string[] {
  return Object.entries(typed)
    .map(([name, value]) => ({ ruleId: /^agreement\.([a-z0-9-]+)\.doneBy$/.exec(name)?.[1], value }))
    .filter(({ ruleId, value }) => ruleId !== undefined && value !== '')
    .map(({ ruleId }) => ruleId as string);
}

function place(typed: TypedPond, numbers: TypedNumbers) {
  return {
    name: typed.name ?? '',
    ref: given(typed.ref) ?? null,
    street: typed.street ?? '',
    town: typed.town ?? '',
    region: typed.region ?? '',
    postalCode: typed.postalCode ?? '',
    country: given(typed.country),
    latitude: numbers.read('latitude', 'plain', 'Latitude') ?? undefined,
    longitude: numbers.read('longitude', 'plain', 'Longitude') ?? undefined,
    elevationM: numbers.read('elevation', 'elevation', 'Elevation') ?? undefined,
    timeZone: given(typed.timeZone),
    commissionedOn: given(typed.commissionedOn) ?? null,
    ...stockedOn(typed),
    careSince: given(typed.careSince),
    stationId: given(typed.stationId) ?? null,
    hardinessZone: given(typed.hardinessZone) ?? null,
    koeppen: given(typed.koeppen) ?? null,
    accessNotes: typed.accessNotes ?? '',
    gateCode: typed.gateCode ?? '',
    hazards: typed.hazards ?? '',
  };
}

/** Left out, the product judges by age whether the pond still runs in; with "still running in" it is told. */
function stockedOn(typed: TypedPond): { stockedOn?: string | null } {
  if (typed.runningIn === 'yes') return { stockedOn: null };
  const on = given(typed.stockedOn);
  return on === undefined ? {} : { stockedOn: on };
}

type DepthRows = Pick<ReturnType<typeof rowsOf>, 'levels' | 'contours'>;

function water(typed: TypedPond, numbers: TypedNumbers, rows: DepthRows) {
  const measured = measuredVolume(typed, numbers);
  const kind = typed.shapeKind ?? '';
  if (kind === '' || kind === 'none') {
    return {
      ...measured,
      volumeL: measured.volumeL ?? undefined,
      surfaceAreaM2: numbers.read('area', 'area', 'Surface area') ?? undefined,
      maxDepthM: numbers.read('maxDepth', 'length', 'Deepest point') ?? undefined,
    };
  }
  const shape = { kind, ...outline(kind, numbers), depth: depth(typed, numbers, rows), ...rock(numbers) };
  return measured.volumeL === null ? { method: 'shape', shape } : { ...measured, shape };
}

/** By meter as typed; by salt as typed, or worked out from what was weighed in and read, which wins. */
function measuredVolume(typed: TypedPond, numbers: TypedNumbers) {
  const volumeL = numbers.read('measuredVolume', 'volume', 'Measured volume');
  if (typed.measuredBy !== 'salt-test') return { method: 'metered', volumeL };
  const found = bySalt(numbers);
  if (found) return { method: 'salt-test', ...found };
  const sigmaPct = numbers.read('measuredSigma', 'plain', 'Its error');
  return { method: 'salt-test', volumeL, ...(sigmaPct !== null && { sigmaPct }) };
}

function bySalt(numbers: TypedNumbers): { volumeL: number; sigmaPct: number } | null {
  const saltKg = numbers.read('saltMass', 'mass', 'Salt');
  const before = numbers.read('saltBefore', 'plain', 'Salinity before');
  const after = numbers.read('saltAfter', 'plain', 'Salinity after');
  if (saltKg === null || before === null || after === null) return null;
  try {
    const { volumeL, volumeSigmaPct } = saltVolume({
      saltKg,
      salinityBeforeGPerL: before,
      salinityAfterGPerL: after,
    });
    return { volumeL, sigmaPct: Number(volumeSigmaPct.toPrecision(2)) };
  } catch (error) {
    if (!(error instanceof DomainError)) throw error;
    numbers.faults.saltAfter = error.message.replace(/^[^:]{1,40}: /, '');
    return null;
  }
}

function outline(kind: string, numbers: TypedNumbers) {
  if (kind === 'circle') return { diameterM: numbers.read('diameter', 'length', 'Diameter') ?? undefined };
  if (kind === 'measured-area') return { areaM2: numbers.read('area', 'area', 'Surface area') ?? undefined };
  return {
    lengthM: numbers.read('length', 'length', 'Length') ?? undefined,
    widthM: numbers.read('width', 'length', 'Width') ?? undefined,
    ...(kind === 'kidney' && {
      otherWidthM: numbers.read('otherWidth', 'length', 'Width of the other lobe') ?? undefined,
    }),
  };
}

function depth(typed: TypedPond, numbers: TypedNumbers, { levels, contours }: DepthRows) {
  const kind = given(typed.depthKind) ?? 'average';
  if (kind === 'levels') {
    return {
      kind,
      levels: levels.map((row) => ({
        areaM2: numbers.read(`level.${row}.area`, 'area', 'Area of the level') ?? undefined,
        heightM: numbers.read(`level.${row}.height`, 'length', 'Height of the level') ?? undefined,
      })),
    };
  }
  if (kind === 'contours') {
    return {
      kind,
      contours: contours.map((row) => ({
        depthM: numbers.read(`contour.${row}.depth`, 'length', 'Depth of the contour') ?? undefined,
        areaM2: numbers.read(`contour.${row}.area`, 'area', 'Area inside the contour') ?? undefined,
      })),
    };
  }
  const maxDepthM = numbers.read('maxDepth', 'length', 'Deepest point') ?? undefined;
  if (kind === 'vertical') return { kind, depthM: maxDepthM };
  if (kind === 'bowl') return { kind, maxDepthM };
  return { kind, maxDepthM, meanDepthM: numbers.read('meanDepth', 'length', 'Mean depth') ?? undefined };
}

function rock(numbers: TypedNumbers) {
  const rockShare = numbers.read('rockShare', 'percent', 'Rocks and pots');
  return rockShare === null ? {} : { rockShare };
}

function machine(typed: TypedPond, numbers: TypedNumbers, row: number) {
  const at = (field: string) => typed[`equipment.${row}.${field}`];
  const isPump = at('kind') === 'pump';
  const rated = {
    flowLPerH: numbers.read(`equipment.${row}.flow`, 'flow', 'Rated flow'),
    maxHeadM: isPump ? numbers.read(`equipment.${row}.maxHead`, 'length', 'Greatest height') : null,
    line: isPump ? pumpLine(typed, numbers, row) : null,
    powerW: numbers.read(`equipment.${row}.power`, 'plain', 'Power'),
    lampRatedHours: numbers.read(`equipment.${row}.lampHours`, 'plain', 'Rated lamp life'),
    mediaVolumeL: numbers.read(`equipment.${row}.media`, 'volume', 'Media volume'),
    mediaAreaM2PerM3: numbers.read(`equipment.${row}.mediaSurface`, 'plain', 'Media surface'),
    serviceLifeDays: numbers.read(`equipment.${row}.life`, 'years', 'Service life'),
  };
  return {
    ...(given(at('id')) && { id: at('id') }),
    kind: at('kind'),
    name: at('name') ?? '',
    installedOn: given(at('installedOn')) ?? null,
    warrantyUntil: given(at('warrantyUntil')) ?? null,
    rated: Object.fromEntries(Object.entries(rated).filter(([, value]) => value !== null)),
  };
}

const LINE_FIELDS = ['lift', 'pipeLength', 'pipeInside', 'elbows', 'checkValves', 'filterHead'] as const;

/** Null unless something of the line is typed: then the rest of it is asked for. */
function pumpLine(typed: TypedPond, numbers: TypedNumbers, row: number) {
  const at = (field: string) => `equipment.${row}.${field}`;
  if (LINE_FIELDS.every((field) => given(typed[at(field)]) === undefined)) return null;
  const line = {
    liftM: numbers.read(at('lift'), 'length', 'Lift'),
    lengthM: numbers.read(at('pipeLength'), 'length', 'Length of the pipe'),
    insideDiameterMm: numbers.read(at('pipeInside'), 'bore', 'Inside diameter'),
    wall: given(typed[at('pipeWall')]) ?? null,
    elbows: numbers.read(at('elbows'), 'plain', 'Bends'),
    checkValves: numbers.read(at('checkValves'), 'plain', 'Check valves'),
    filterHeadM: numbers.read(at('filterHead'), 'length', 'Head taken by the filter'),
  };
  return Object.fromEntries(Object.entries(line).filter(([, value]) => value !== null));
}

function contact(typed: TypedPond, row: number) {
  const at = (field: string) => given(typed[`contacts.${row}.${field}`]);
  const weekday = at('digestWeekday');
  const hour = at('digestHour');
  return {
    ...(at('id') && { id: at('id') }),
    name: at('name') ?? '',
    role: at('role') ?? 'homeowner',
    email: at('email') ?? null,
    phone: at('phone') ?? '',
    language: at('language') ?? 'en',
    units: at('units') ?? null,
    getsMail: at('mail') !== 'no',
    ...(weekday && { digestWeekday: Number(weekday) }),
    ...(hour && { digestHour: Number(hour) }),
    ...(at('startedOn') && { startedOn: at('startedOn') }),
  };
}

function given(typed: string | undefined): string | undefined {
  const text = typed?.trim();
  return text === '' ? undefined : text;
}
