import type { z } from 'zod';
import { ContactInputSchema } from '../contact-input.schema.js';
import {
  AgreementInputSchema,
  EquipmentInputSchema,
  type PondInput,
  PondInputSchema,
  StockInputSchema,
} from '../pond-input.schema.js';
import type { PondRecord } from '../pond-record.js';
import { pondInputOf } from '../pond-rows.js';
import type { CsvSection } from './csv-columns.js';
import { originOf, type PondDraft, type SectionCells } from './gather-ponds.js';
import type { ImportFaults } from './import-faults.js';
import { cellsOfWater, WATER_KEYS, waterOfCells } from './water-cells.js';

type Typed = Record<string, unknown>;

/**
 * The pond record a draft stands for, laid over the pond that already has its reference: an empty cell leaves what
 * stands. Machines are the same by kind and name, people by email or name, agreement terms by rule; stock is replaced
 * when the file names any. Null when something cannot be used; `faults` then says what.
 */
export function inputOfDraft(draft: PondDraft, standing: PondRecord | null, faults: ImportFaults): PondInput | null {
  const base = standing ? (pondInputOf(standing) as Typed) : {};
  const list = (key: string) => (base[key] ?? []) as Typed[];
  const reader = new PartReader(faults);
  const parts = {
    equipment: reader.read('equipment', EquipmentInputSchema, draft.equipment, list('equipment'), isSameMachine),
    contacts: reader.read('contact', ContactInputSchema, draft.contacts, list('contacts'), isSamePerson),
    stock: reader.read(
      'stock',
      StockInputSchema,
      draft.stock,
      draft.stock.length > 0 ? [] : list('stock'),
      () => false,
    ),
    agreement: reader.read('agreement', AgreementInputSchema, draft.agreement, list('agreement'), isSameRule),
  };
  const checked = PondInputSchema.safeParse({ ...base, ...pondOf(draft.pond, base), ...parts });
  if (!checked.success) {
    const { issues } = checked.error;
    for (const issue of issues.filter(isNotSaidAlready)) faults.add(pondFault(draft, issue));
    return null;
  }
  return reader.isClean ? checked.data : null;
}

/** What follows for a whole from a field that cannot be used: the field alone is named. */
function isNotSaidAlready(issue: z.core.$ZodIssue, _: number, issues: readonly z.core.$ZodIssue[]): boolean {
  return !issues.some(
    ({ path }) => path.length > issue.path.length && issue.path.every((step, depth) => step === path[depth]),
  );
}

function pondOf({ values }: SectionCells, base: Typed): Typed {
  const typed: Typed = {};
  const water: Typed = {};
  for (const [key, value] of Object.entries(values)) {
    if (WATER_KEYS.has(key)) water[key] = value;
    else if (!TAP_KEYS.has(key)) typed[key] = value;
  }
  const baseTap = (base.tap ?? {}) as Typed;
  if (values.tapSource !== undefined || values.tapTotalChlorineMgPerL !== undefined) {
    typed.tap = {
      source: values.tapSource ?? baseTap.source ?? 'unknown',
      totalChlorineMgPerL: values.tapTotalChlorineMgPerL ?? baseTap.totalChlorineMgPerL ?? null,
    };
  }
  if (Object.keys(water).length > 0 || !base.water) {
    const before = base.water ? cellsOfWater(base.water as PondInput['water']) : {};
    typed.water = waterOfCells({ ...before, ...water });
  }
  return typed;
}

const TAP_KEYS = new Set(['tapSource', 'tapTotalChlorineMgPerL']);
const RATED_KEYS = new Set([
  'flowLPerH',
  'powerW',
  'lampRatedHours',
  'mediaVolumeL',
  'mediaAreaM2PerM3',
  'serviceLifeDays',
  'maxHeadM',
]);
const LINE_KEYS = new Set(['liftM', 'lengthM', 'insideDiameterMm', 'wall', 'elbows', 'checkValves', 'filterHeadM']);

/** Reads the further lines of a pond: machines, people, stock, agreement. */
class PartReader {
  isClean = true;

  constructor(private readonly faults: ImportFaults) {}

  read(
    section: Exclude<CsvSection, 'pond'>,
    schema: z.ZodType,
    lines: readonly SectionCells[],
    standing: readonly Typed[],
    isSame: (standing: Typed, given: Typed) => boolean,
  ): unknown[] {
    const result: Typed[] = [...standing];
    const taken = new Set<number>();
    for (const cells of lines) {
      const given = section === 'equipment' ? machineOf(cells.values) : { ...cells.values };
      const at = standing.findIndex((one, i) => !taken.has(i) && isSame(one, given));
      const before = at < 0 ? {} : (standing[at] as Typed);
      const merged = overlay(before, given);
      if (!this.passes(section, schema, cells, merged)) continue;
      if (at < 0) result.push(merged);
      else {
        taken.add(at);
        result[at] = merged;
      }
    }
    return result;
  }

  private passes(section: CsvSection, schema: z.ZodType, cells: SectionCells, merged: Typed): boolean {
    const checked = schema.safeParse(merged);
    if (checked.success) return true;
    this.isClean = false;
    for (const issue of checked.error.issues) {
      const { column, cell } = originOf(section, cells, String(issue.path.at(-1) ?? ''));
      this.faults.add({ line: cells.line, field: column, value: cell, allowed: issue.message });
    }
    return false;
  }
}

function machineOf(values: Readonly<Typed>): Typed {
  const entries = Object.entries(values);
  const among = (keys: ReadonlySet<string>) => Object.fromEntries(entries.filter(([key]) => keys.has(key)));
  const line = among(LINE_KEYS);
  const rated = { ...among(RATED_KEYS), ...(Object.keys(line).length > 0 && { line }) };
  const isOwn = (key: string) => !RATED_KEYS.has(key) && !LINE_KEYS.has(key);
  return { ...Object.fromEntries(entries.filter(([key]) => isOwn(key))), rated };
}

function overlay(before: Typed, given: Typed): Typed {
  const merged = { ...before, ...given };
  if (given.rated) {
    const [rated, next] = [before.rated as Typed | undefined, given.rated as Typed];
    const line = next.line ? { line: { ...(rated?.line as Typed | undefined), ...(next.line as Typed) } } : {};
    merged.rated = { ...rated, ...next, ...line };
  }
  return merged;
}

const lower = (value: unknown) =>
  String(value ?? '')
    .trim()
    .toLowerCase();
const isSameMachine = (a: Typed, b: Typed) => a.kind === b.kind && lower(a.name) === lower(b.name);
const isSameRule = (a: Typed, b: Typed) => a.ruleId === b.ruleId && lower(a.from) === lower(b.from);
const isSamePerson = (a: Typed, b: Typed) =>
  a.email && b.email ? lower(a.email) === lower(b.email) : lower(a.name) === lower(b.name);

/** Keys of the checked record that are called otherwise in the file. */
const KEY_OF_PATH: Readonly<Record<string, string>> = {
  source: 'tapSource',
  totalChlorineMgPerL: 'tapTotalChlorineMgPerL',
  areaM2: 'surfaceAreaM2',
  depthM: 'maxDepthM',
  heightM: 'levels',
  method: 'volumeMethod',
  water: 'volumeL',
  shape: 'outline',
  depth: 'depthKind',
};

function pondFault(draft: PondDraft, issue: z.core.$ZodIssue) {
  const path = issue.path.map(String);
  const last = path.at(-1) ?? '';
  const key =
    last === 'kind'
      ? path.includes('depth')
        ? 'depthKind'
        : 'outline'
      : path.includes('levels')
        ? 'levels'
        : path.includes('contours')
          ? 'contours'
          : (KEY_OF_PATH[last] ?? last);
  const { column, cell } = originOf('pond', draft.pond, key);
  const allowed = path.length === 1 && last === 'water' ? HOW_TO_GIVE_WATER : issue.message;
  return { line: draft.pond.line, field: column, value: cell, allowed };
}

const HOW_TO_GIVE_WATER =
  'How much water: a measured volume (volume_l, volume_us_gal or volume_imp_gal) with surface_area_m2 and max_depth_m, ' +
  'or outline with its sides, and mean_depth_m with max_depth_m (or depth_kind with max_depth_m, or levels, or contours).';
