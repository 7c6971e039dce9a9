import type { UnitSystem } from '../../../../core/units/show.js';
import type { PondInputTyped } from '../../../../ponds/index.js';
import { type Measure, shownInField } from './form-units.js';
import type { ShownPond } from './form-values.js';

/** Fills the form from a record: the opposite of `readTypedPond`. */
export function shownPond(input: PondInputTyped, units: UnitSystem): ShownPond {
  const form = new ShownFields(units);
  place(form, input);
  water(form, input.water);
  form.text('directSunHours', String(input.directSunHours ?? ''));
  form.text('windShelter', input.windShelter);
  form.text('treesNear', input.treesNear ? 'yes' : '');
  form.text('waterfall', input.waterfall ? 'yes' : '');
  form.text('plants', (input.plants ?? []).join(','));
  form.text('tapSource', input.tap?.source);
  form.number('tapChlorine', input.tap?.totalChlorineMgPerL, 'plain');
  machines(form, input);
  for (const [row, group] of (input.stock ?? []).entries()) {
    form.text(`stock.${row}.species`, group.species);
    form.number(`stock.${row}.count`, group.count, 'plain');
    form.number(`stock.${row}.length`, group.lengthCm, 'fish-length');
  }
  people(form, input);
  for (const term of input.agreement ?? []) {
    form.text(`agreement.${term.ruleId}.doneBy`, term.doneBy);
    form.text(`agreement.${term.ruleId}.from`, term.from);
    form.text(`agreement.${term.ruleId}.until`, term.until);
  }
  return form;
}

class ShownFields implements ShownPond {
  readonly typed: Record<string, string> = {};
  readonly stored: Record<string, number> = {};

  constructor(private readonly units: UnitSystem) {}

  text(field: string, value: string | null | undefined): void {
    this.typed[field] = value ?? '';
  }

  number(field: string, value: number | null | undefined, measure: Measure): void {
    if (value === null || value === undefined) return;
    this.typed[field] = shownInField(value, measure, this.units);
    this.stored[field] = value;
  }
}

function place(form: ShownFields, input: PondInputTyped): void {
  form.text('name', input.name);
  form.text('ref', input.ref);
  form.text('street', input.street);
  form.text('town', input.town);
  form.text('region', input.region);
  form.text('postalCode', input.postalCode);
  form.text('country', input.country);
  form.number('latitude', input.latitude, 'plain');
  form.number('longitude', input.longitude, 'plain');
  form.number('elevation', input.elevationM, 'elevation');
  form.text('timeZone', input.timeZone);
  form.text('commissionedOn', input.commissionedOn);
  form.text('stockedOn', input.stockedOn);
  form.text('runningIn', input.stockedOn === null && input.commissionedOn ? 'yes' : '');
  form.text('careSince', input.careSince);
  form.text('stationId', input.stationId);
  form.text('hardinessZone', input.hardinessZone);
  form.text('koeppen', input.koeppen);
  form.text('accessNotes', input.accessNotes);
  form.text('gateCode', input.gateCode);
  form.text('hazards', input.hazards);
}

function water(form: ShownFields, typed: PondInputTyped['water']): void {
  if (typed.method !== 'shape') {
    form.number('measuredVolume', typed.volumeL, 'volume');
    form.text('measuredBy', typed.method);
    if (typed.method === 'salt-test') form.number('measuredSigma', typed.sigmaPct, 'plain');
    form.number('area', typed.surfaceAreaM2, 'area');
    form.number('maxDepth', typed.maxDepthM, 'length');
  }
  const { shape } = typed;
  form.text('shapeKind', shape?.kind ?? 'none');
  if (!shape) return;
  if ('lengthM' in shape) {
    form.number('length', shape.lengthM, 'length');
    form.number('width', shape.widthM, 'length');
  }
  if ('otherWidthM' in shape) form.number('otherWidth', shape.otherWidthM, 'length');
  if ('diameterM' in shape) form.number('diameter', shape.diameterM, 'length');
  if ('areaM2' in shape) form.number('area', shape.areaM2, 'area');
  form.number('rockShare', shape.rockShare, 'percent');
  form.text('depthKind', shape.depth.kind);
  if ('meanDepthM' in shape.depth) form.number('meanDepth', shape.depth.meanDepthM, 'length');
  if ('maxDepthM' in shape.depth) form.number('maxDepth', shape.depth.maxDepthM, 'length');
  if ('depthM' in shape.depth) form.number('maxDepth', shape.depth.depthM, 'length');
  if ('contours' in shape.depth) {
    for (const [row, contour] of shape.depth.contours.entries()) {
      form.number(`contour.${row}.depth`, contour.depthM, 'length');
      form.number(`contour.${row}.area`, contour.areaM2, 'area');
    }
  }
  if ('levels' in shape.depth) {
    for (const [row, level] of shape.depth.levels.entries()) {
      form.number(`level.${row}.area`, level.areaM2, 'area');
      form.number(`level.${row}.height`, level.heightM, 'length');
    }
  }
}

function machines(form: ShownFields, input: PondInputTyped): void {
  for (const [row, machine] of (input.equipment ?? []).entries()) {
    const at = (field: string) => `equipment.${row}.${field}`;
    form.text(at('id'), machine.id);
    form.text(at('kind'), machine.kind);
    form.text(at('name'), machine.name);
    form.text(at('installedOn'), machine.installedOn);
    form.text(at('warrantyUntil'), machine.warrantyUntil);
    form.number(at('flow'), machine.rated?.flowLPerH, 'flow');
    form.number(at('maxHead'), machine.rated?.maxHeadM, 'length');
    pumpLine(form, at, machine.rated?.line);
    form.number(at('power'), machine.rated?.powerW, 'plain');
    form.number(at('lampHours'), machine.rated?.lampRatedHours, 'plain');
    form.number(at('media'), machine.rated?.mediaVolumeL, 'volume');
    form.number(at('mediaSurface'), machine.rated?.mediaAreaM2PerM3, 'plain');
    form.number(at('life'), machine.rated?.serviceLifeDays, 'years');
  }
}

type TypedLine = NonNullable<NonNullable<NonNullable<PondInputTyped['equipment']>[number]['rated']>['line']>;

function pumpLine(form: ShownFields, at: (field: string) => string, line: TypedLine | undefined): void {
  if (!line) return;
  form.number(at('lift'), line.liftM, 'length');
  form.number(at('pipeLength'), line.lengthM, 'length');
  form.number(at('pipeInside'), line.insideDiameterMm, 'bore');
  form.text(at('pipeWall'), line.wall);
  form.number(at('elbows'), line.elbows, 'plain');
  form.number(at('checkValves'), line.checkValves, 'plain');
  form.number(at('filterHead'), line.filterHeadM, 'length');
}

function people(form: ShownFields, input: PondInputTyped): void {
  for (const [row, person] of (input.contacts ?? []).entries()) {
    const at = (field: string) => `contacts.${row}.${field}`;
    form.text(at('id'), person.id);
    form.text(at('name'), person.name);
    form.text(at('role'), person.role);
    form.text(at('email'), person.email);
    form.text(at('phone'), person.phone);
    form.text(at('language'), person.language);
    form.text(at('units'), person.units);
    form.text(at('mail'), person.getsMail === false ? 'no' : 'yes');
    form.text(at('digestWeekday'), String(person.digestWeekday ?? ''));
    form.text(at('digestHour'), String(person.digestHour ?? ''));
    form.text(at('startedOn'), person.startedOn);
  }
}
