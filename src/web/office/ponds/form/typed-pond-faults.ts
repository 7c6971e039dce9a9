import type { z } from 'zod';
import type { UnitSystem } from '../../../../core/units/show.js';
import type { FormFaults } from '../../../forms/form-faults.js';
import { formUnit, type Measure, readNumber, shownInField } from './form-units.js';
import type { TypedPond } from './form-values.js';

interface Rows {
  readonly equipment: readonly number[];
  readonly stock: readonly number[];
  readonly contacts: readonly number[];
  readonly agreement: readonly string[];
  readonly levels: readonly number[];
  readonly contours: readonly number[];
}
interface Form {
  readonly typed: TypedPond;
  readonly units: UnitSystem;
  readonly rows: Rows;
}

/** Form fields of the record's own names, with what they measure. */
const FIELD_OF: Readonly<Record<string, readonly [field: string, measure: Measure]>> = {
  elevationM: ['elevation', 'elevation'],
  'tap.source': ['tapSource', 'plain'],
  'tap.totalChlorineMgPerL': ['tapChlorine', 'plain'],
  water: ['measuredVolume', 'volume'],
  'water.volumeL': ['measuredVolume', 'volume'],
  'water.surfaceAreaM2': ['area', 'area'],
  'water.maxDepthM': ['maxDepth', 'length'],
  'water.sigmaPct': ['measuredSigma', 'plain'],
  'water.shape': ['shapeKind', 'plain'],
  'water.shape.kind': ['shapeKind', 'plain'],
  'water.shape.lengthM': ['length', 'length'],
  'water.shape.widthM': ['width', 'length'],
  'water.shape.otherWidthM': ['otherWidth', 'length'],
  'water.shape.diameterM': ['diameter', 'length'],
  'water.shape.areaM2': ['area', 'area'],
  'water.shape.rockShare': ['rockShare', 'percent'],
  'water.shape.depth': ['depthKind', 'plain'],
  'water.shape.depth.levels': ['level.0.area', 'area'],
  'water.shape.depth.contours': ['contour.0.depth', 'length'],
  'water.shape.depth.meanDepthM': ['meanDepth', 'length'],
  'water.shape.depth.maxDepthM': ['maxDepth', 'length'],
  'water.shape.depth.depthM': ['maxDepth', 'length'],
};
const ROW_FIELD_OF: Readonly<Record<string, readonly [field: string, measure: Measure]>> = {
  'rated.flowLPerH': ['flow', 'flow'],
  'rated.maxHeadM': ['maxHead', 'length'],
  'rated.line.liftM': ['lift', 'length'],
  'rated.line.lengthM': ['pipeLength', 'length'],
  'rated.line.insideDiameterMm': ['pipeInside', 'bore'],
  'rated.line.wall': ['pipeWall', 'plain'],
  'rated.line.elbows': ['elbows', 'plain'],
  'rated.line.checkValves': ['checkValves', 'plain'],
  'rated.line.filterHeadM': ['filterHead', 'length'],
  'rated.powerW': ['power', 'plain'],
  'rated.lampRatedHours': ['lampHours', 'plain'],
  'rated.mediaVolumeL': ['media', 'volume'],
  'rated.mediaAreaM2PerM3': ['mediaSurface', 'plain'],
  'rated.serviceLifeDays': ['life', 'years'],
  lengthCm: ['length', 'fish-length'],
  areaM2: ['area', 'area'],
  heightM: ['height', 'length'],
  depthM: ['depth', 'length'],
  getsMail: ['mail', 'plain'],
};

/** Sentences for the issues of the record's schema, at the form's fields and in the units of whoever typed. */
export function faultsOfIssues(issues: readonly z.core.$ZodIssue[], form: Form): FormFaults {
  const faults: Record<string, string> = {};
  for (const issue of issues) {
    const { field, measure } = formField(issue.path, form.rows);
    faults[field] ??= sentenceOf(issue, field, measure, form);
  }
  return faults;
}

function formField(path: readonly PropertyKey[], rows: Rows): { field: string; measure: Measure } {
  const names = path.map(String);
  const [list = '', index = ''] = names;
  if (list === 'equipment' || list === 'stock' || list === 'contacts') {
    return rowField(list, rows[list][Number(index)] ?? 0, names.slice(2));
  }
  if (list === 'agreement') return rowField(list, rows.agreement[Number(index)] ?? '', names.slice(2));
  if (names.length > 4 && names.slice(0, 3).join('.') === 'water.shape.depth') {
    const [survey, row] = [names[3] === 'contours' ? 'contours' : 'levels', Number(names[4])] as const;
    return rowField(survey === 'levels' ? 'level' : 'contour', rows[survey][row] ?? 0, names.slice(5));
  }
  const known = FIELD_OF[names.join('.')];
  return { field: known?.[0] ?? names.join('.'), measure: known?.[1] ?? 'plain' };
}

function rowField(list: string, row: number | string, rest: readonly string[]): { field: string; measure: Measure } {
  const known = ROW_FIELD_OF[rest.join('.')];
  return { field: `${list}.${row}.${known?.[0] ?? rest.join('.')}`, measure: known?.[1] ?? 'plain' };
}

function sentenceOf(issue: z.core.$ZodIssue, field: string, measure: Measure, { typed, units }: Form): string {
  const text = typed[field]?.trim() ?? '';
  if (issue.code === 'invalid_type' && text === '') return 'This is needed.';
  if ((issue.code === 'too_small' || issue.code === 'too_big') && issue.origin === 'number') {
    return rangeSentence(issue, text, measure, units);
  }
  return plain(issue.message);
}

function rangeSentence(
  issue: z.core.$ZodIssueTooSmall | z.core.$ZodIssueTooBig,
  text: string,
  measure: Measure,
  units: UnitSystem,
): string {
  const unit = formUnit(measure, units);
  const limit = Number(issue.code === 'too_small' ? issue.minimum : issue.maximum);
  const side = issue.code === 'too_small' ? 'at least' : 'at most';
  const words = `${text} cannot be right: ${side} ${shownInField(limit, measure, units)} ${unit.label}`.trim();
  const meant = probablyMeant(readNumber(text) ?? Number.NaN, issue);
  return meant === null ? `${words}.` : `${words}. Did you mean ${meant}?`;
}

/** A slipped decimal point is the usual slip. */
function probablyMeant(number: number, issue: z.core.$ZodIssueTooSmall | z.core.$ZodIssueTooBig): number | null {
  if (!Number.isFinite(number) || number === 0) return null;
  if (issue.code === 'too_big') return number > 0 ? Number((number / 10).toPrecision(6)) : null;
  return number < 0 ? -number : null;
}

/** The schema's sentence without the field's name, which stands above it on the page. */
function plain(message: string): string {
  const sentence = message.replace(/^[^:.]{1,60}: /, '');
  return sentence.charAt(0).toUpperCase() + sentence.slice(1);
}
