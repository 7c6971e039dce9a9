import type { CareRule } from '../../../../core/care/care-rule.js';
import type { Equipment, StockGroup } from '../../../../core/care/pond-facts.js';
import { filterAreaM2 } from '../../../../core/care/quantities/filter-capacity.js';
import { DomainError } from '../../../../core/errors.js';
import { pumpFlows } from '../../../../core/hydraulics/pump-line.js';
import type { UnitSystem } from '../../../../core/units/show.js';
import {
  type PondInput,
  PondInputSchema,
  type PondInputTyped,
  storedVolumeOf,
  WaterInputSchema,
} from '../../../../ponds/index.js';
import { fieldId, type Option } from '../../../forms/fields.js';
import type { FormFaults } from '../../../forms/form-faults.js';
import type { FirstYear, FirstYearMissing } from './first-year.view.js';
import type { ShownPond, TypedPond } from './form-values.js';
import { type SaidLine, saidOfStock, saidOfTap, saidOfTurnover, saidOfWater } from './said-lines.js';
import { shownPond } from './shown-pond.js';
import { type ReadPond, rowNumbers, typedParts } from './typed-pond.js';

export interface SaidLines {
  readonly where: SaidLine | null;
  readonly shape: SaidLine | null;
  readonly machinery: SaidLine | null;
  readonly fish: SaidLine | null;
  readonly tap: SaidLine | null;
}

export interface PondFormModel {
  readonly title: string;
  readonly action: string;
  readonly saveWords: string;
  readonly leaveTo: string;
  readonly units: UnitSystem;
  readonly typed: TypedPond;
  readonly faults: FormFaults;
  readonly faultCount: number;
  /** Id of the first field that cannot be used. */
  readonly firstFault: string | null;
  readonly rows: {
    readonly equipment: readonly number[];
    readonly stock: readonly number[];
    readonly contacts: readonly number[];
    readonly levels: readonly number[];
    readonly contours: readonly number[];
  };
  readonly stations: readonly Option[];
  readonly rules: readonly { readonly id: string; readonly title: string }[];
  readonly agreementIntro: string;
  readonly said: SaidLines;
  readonly year: FirstYear | FirstYearMissing;
  readonly conflict: { readonly sentence: string; readonly differences: readonly Difference[] } | null;
}

export interface Difference {
  readonly field: string;
  readonly yours: string;
  readonly theirs: string;
}

const MachineSchema = PondInputSchema.shape.equipment.unwrap().element;
const GroupSchema = PondInputSchema.shape.stock.unwrap().element;

/** Rows that stand ready on an empty form. */
const READY_ROWS = { equipment: 4, stock: 2, contacts: 1 } as const;
const SURVEY_ROWS = 4;
const LARGEST_SURVEY = 20;
type RowList = keyof typeof READY_ROWS;

/** What is concluded from the form, as far as it can be used yet. */
export function saidLines(typed: TypedPond, units: UnitSystem, where: SaidLine | null): SaidLines {
  const parts = typedParts(typed, units);
  const water = WaterInputSchema.safeParse(parts.water);
  const volumeL = water.success ? storedVolumeOf(water.data).volumeL : null;
  const machines = parts.equipment.flatMap((machine) => MachineSchema.safeParse(machine).data ?? []);
  const stock = parts.stock.flatMap((group) => GroupSchema.safeParse(group).data ?? []) as StockGroup[];
  return {
    where,
    shape: water.success ? orNone(() => saidOfWater(water.data, units)) : null,
    machinery: volumeL === null ? null : orNone(() => saidOfTurnover(pumpFlows(machines), volumeL, units)),
    fish:
      volumeL === null ? null : orNone(() => saidOfStock(stock, { volumeL, mediaAreaM2: mediaOf(machines) }, units)),
    tap: saidOfTap(parts.tap.source, parts.tap.totalChlorineMgPerL),
  };
}

function mediaOf(machines: readonly { kind: Equipment['kind']; rated: Equipment['rated'] }[]): number | null {
  return filterAreaM2({ equipment: machines as readonly Equipment[] });
}

/** A figure the science refuses is told at its field; here it only silences the line. */
function orNone<T>(conclude: () => T | null): T | null {
  try {
    return conclude();
  } catch (error) {
    if (error instanceof DomainError) return null;
    throw error;
  }
}

/** Row numbers to show: those in use, and empty ones to type into. `more` names the list that was asked to grow. */
export function formRows(typed: TypedPond): PondFormModel['rows'] {
  const shown = (list: RowList, leading: string) => {
    const used = rowNumbers(typed, list, leading);
    const listed = rowsInForm(typed, list);
    const next = Math.max(-1, ...used, ...listed) + 1;
    const wanted = listed.length > 0 ? (typed.more === list ? 1 : 0) : Math.max(1, READY_ROWS[list] - used.length);
    const kept = listed.length > 0 ? listed : used;
    return [...kept, ...Array.from({ length: wanted }, (_, index) => next + index)];
  };
  return {
    equipment: shown('equipment', 'kind'),
    stock: shown('stock', 'species'),
    contacts: shown('contacts', 'name'),
    levels: surveyRows(rowNumbers(typed, 'level', 'height')),
    contours: surveyRows(rowNumbers(typed, 'contour', 'depth')),
  };
}

/** Four rows stand ready; a survey with more has one row to spare. */
function surveyRows(used: readonly number[]): number[] {
  const rows = Math.max(SURVEY_ROWS, Math.max(-1, ...used) + 2);
  return Array.from({ length: Math.min(rows, LARGEST_SURVEY) }, (_, row) => row);
}

/** Rows that came back with the form, empty ones too. A record shown for the first time has only used ones. */
function rowsInForm(typed: TypedPond, list: RowList): number[] {
  if (typed.version === undefined && typed.id === undefined) return [];
  const rows = new Set<number>();
  for (const name of Object.keys(typed)) {
    const row = new RegExp(`^${list}\\.(\\d{1,3})\\.`).exec(name)?.[1];
    if (row !== undefined) rows.add(Number(row));
  }
  return [...rows].sort((a, b) => a - b);
}

export function formFaults(
  read: Pick<ReadPond, 'faults'>,
): Pick<PondFormModel, 'faults' | 'faultCount' | 'firstFault'> {
  const fields = Object.keys(read.faults).filter((field) => field !== '');
  return {
    faults: read.faults,
    faultCount: Math.max(fields.length, read.faults[''] ? 1 : 0),
    firstFault: fields[0] ? fieldId(fields[0]) : null,
  };
}

/** Rules that either may do, by title: those an agreement can give to one of the two. */
export function agreementRules(rules: readonly CareRule[]): { id: string; title: string }[] {
  return rules
    .filter(({ audience, neverHomeowner }) => audience === 'either' && !neverHomeowner)
    .map(({ id, title }) => ({ id, title }))
    .sort((a, b) => a.title.localeCompare(b.title, 'en'));
}

const LABELS: Readonly<Record<string, string>> = {
  ref: 'Your reference',
  postalCode: 'Postal code',
  commissionedOn: 'Filled on',
  stockedOn: 'Livestock released on',
  careSince: 'In your care since',
  directSunHours: 'Direct sun',
  windShelter: 'Wind',
  treesNear: 'Trees near',
  maxDepth: 'Deepest',
  meanDepth: 'Mean depth',
  otherWidth: 'Width of the other lobe',
  shapeKind: 'Outline',
  depthKind: 'Depth is known as',
  rockShare: 'Rocks and pots',
  measuredVolume: 'Measured volume',
  measuredBy: 'Measured by',
  measuredSigma: 'Error of the salt test',
  tapSource: 'Tap water',
  tapChlorine: 'Total chlorine',
  accessNotes: 'How to get in',
  gateCode: 'Gate code',
  runningIn: 'Still running in',
  stationId: 'Climate station',
  timeZone: 'Time zone',
};
const HIDDEN = /^(id|version|more|preview)$|\.(id|language|digestWeekday|digestHour|startedOn)$/;

/** Field by field where two versions differ, as the form shows them. */
export function differences(yours: PondInput, theirs: PondInputTyped, units: UnitSystem): Difference[] {
  const a = shownPond(yours, units).typed;
  const b = shownPond(theirs, units).typed;
  const fields = [...new Set([...Object.keys(a), ...Object.keys(b)])];
  return fields
    .filter((field) => !HIDDEN.test(field) && (a[field] ?? '') !== (b[field] ?? ''))
    .map((field) => ({ field: labelOf(field), yours: a[field] || '(empty)', theirs: b[field] || '(empty)' }));
}

function labelOf(field: string): string {
  const [list, row, rest] = field.split('.');
  if (rest === undefined) return LABELS[field] ?? capital(field);
  return /^\d+$/.test(row ?? '') ? `${capital(list ?? '')} ${Number(row) + 1}, ${rest}` : `Agreement, ${row}, ${rest}`;
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1).replace(/([A-Z])/g, (letter) => ` ${letter.toLowerCase()}`);
}

/** The typed form of a record, with what an edit must send back. */
export function editTyped(shown: ShownPond, pond: { readonly id: string; readonly version: number }): TypedPond {
  return { ...shown.typed, id: pond.id, version: String(pond.version) };
}
