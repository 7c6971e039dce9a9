import { describe, expect, it } from '@jest/globals';
import { readPondInput } from '../../../src/ponds/index.js';
import { shownPond } from '../../../src/web/office/ponds/form/shown-pond.js';
import { readTypedPond } from '../../../src/web/office/ponds/form/typed-pond.js';
import { aTypedPond } from '../../support/typed-pond.js';
import { aTypedForm } from './typed-form.js';

/** A kidney with depth lines and a pump of which the line is known. */
const aSurveyedPond = () =>
  aTypedPond({
    water: {
      method: 'shape',
      shape: {
        kind: 'kidney',
        lengthM: 5.13,
        widthM: 3.21,
        otherWidthM: 2.07,
        depth: {
          kind: 'contours',
          contours: [7.7, 5.1, 3.3, 1.9, 0].map((areaM2, i) => ({ depthM: 0.3 + 0.21 * i, areaM2 })),
        },
      },
    },
    equipment: [
      {
        kind: 'pump',
        rated: {
          flowLPerH: 12_000,
          maxHeadM: 4.55,
          line: {
            liftM: 1.37,
            lengthM: 8.2,
            insideDiameterMm: 40.9,
            wall: 'smooth-plastic',
            elbows: 3,
            checkValves: 1,
            filterHeadM: 0.4,
          },
        },
      },
    ],
  });

describe('readTypedPond', () => {
  it('stores what was typed in US units as SI', () => {
    const { input, faults } = readTypedPond(aTypedForm(), 'us');
    expect(faults).toEqual({});
    expect(input?.elevationM).toBeCloseTo(307.85, 2);
    expect(input?.water).toMatchObject({ method: 'shape', shape: { kind: 'ellipse', rockShare: 0.06 } });
    expect(input?.equipment[0]?.rated.flowLPerH).toBeCloseTo(12113.3, 1);
    expect(input?.stock[0]).toMatchObject({ species: 'koi', count: 14, lengthCm: 35.56 });
  });

  it('takes a metered fill over the shape, and a metered fill alone', () => {
    const both = readTypedPond(aTypedForm({ measuredVolume: '2,310' }), 'us').input?.water;
    expect(both).toMatchObject({ method: 'metered', shape: { kind: 'ellipse' } });
    const alone = readTypedPond(
      aTypedForm({ shapeKind: 'none', measuredVolume: '2,310', area: '110', maxDepth: '4.2' }),
      'us',
    ).input?.water;
    expect(alone).toMatchObject({ method: 'metered' });
    expect((alone as { volumeL: number }).volumeL).toBeCloseTo(8744.3, 1);
  });

  it('takes a kidney, depth lines, and the line of a pump', () => {
    const { input, faults } = readTypedPond(
      aTypedForm({
        shapeKind: 'kidney',
        otherWidth: '6',
        depthKind: 'contours',
        'contour.0.depth': '2',
        'contour.0.area': '60',
        'contour.1.depth': '4',
        'contour.1.area': '0',
        'equipment.0.maxHead': '14',
        'equipment.0.lift': '5',
        'equipment.0.pipeLength': '25',
        'equipment.0.pipeInside': '1.61',
        'equipment.0.pipeWall': 'ribbed-hose',
        'equipment.0.elbows': '3',
      }),
      'us',
    );
    expect(faults).toEqual({});
    const { shape } = input!.water as { shape: { kind: string; otherWidthM: number; depth: unknown } };
    expect(shape.kind).toBe('kidney');
    expect(shape.otherWidthM).toBeCloseTo(1.8288, 4);
    expect(shape.depth).toMatchObject({ kind: 'contours', contours: [{}, { areaM2: 0 }] });
    const { line, maxHeadM } = input!.equipment[0]!.rated;
    expect(maxHeadM).toBeCloseTo(4.267, 3);
    expect(line).toMatchObject({ wall: 'ribbed-hose', elbows: 3 });
    expect(line!.insideDiameterMm).toBeCloseTo(40.894, 3);
  });

  it('asks for the rest of a line once something of it is typed, at its fields', () => {
    const { input, faults } = readTypedPond(aTypedForm({ 'equipment.0.lift': '500' }), 'us');
    expect(input).toBeNull();
    expect(faults['equipment.0.lift']).toBe('500 cannot be right: at most 98.43 ft. Did you mean 50?');
    expect(faults['equipment.0.pipeLength']).toBe('This is needed.');
    expect(faults['equipment.0.pipeInside']).toBe('This is needed.');
    const whole = { 'equipment.0.lift': '5', 'equipment.0.pipeLength': '25', 'equipment.0.pipeInside': '1.6' };
    expect(readTypedPond(aTypedForm(whole), 'us').faults['equipment.0.maxHead']).toMatch(/^Needed with the line/);
    expect(readTypedPond(aTypedForm(), 'us').input?.equipment[0]?.rated).not.toHaveProperty('line');
  });

  it('names the depth line that goes uphill', () => {
    const { faults } = readTypedPond(
      aTypedForm({ depthKind: 'contours', 'contour.0.depth': '2', 'contour.0.area': '6,000' }),
      'us',
    );
    expect(faults['contour.0.area']).toBe('Not more than the area above it, and the first not more than the surface.');
    const upwards = { 'contour.0.depth': '2', 'contour.0.area': '60', 'contour.1.depth': '1', 'contour.1.area': '30' };
    const second = readTypedPond(aTypedForm({ depthKind: 'contours', ...upwards }), 'us').faults;
    expect(second['contour.1.depth']).toMatch(/^Each lies at least a centimetre below/);
  });

  it('works the volume out of a salt test, with its error, and takes one as it stands', () => {
    const salt = {
      measuredBy: 'salt-test',
      measuredVolume: '',
      saltMass: '22.0462',
      saltBefore: '1.2',
      saltAfter: '2.0',
    };
    const found = readTypedPond(aTypedForm(salt), 'us').input?.water as { volumeL: number; sigmaPct: number };
    // 10 kg for a rise of 0.8 g/L are 12.5 m³; the meter of 0.05 g/L errs by 9 % of it.
    expect(found.volumeL).toBeCloseTo(12_500, 0);
    expect(found.sigmaPct).toBe(9.1);
    const known = { measuredBy: 'salt-test', measuredVolume: '3,000', measuredSigma: '12' };
    expect(readTypedPond(aTypedForm(known), 'us').input?.water).toMatchObject({ method: 'salt-test', sigmaPct: 12 });
    const unmixed = readTypedPond(aTypedForm({ ...salt, saltAfter: '1.2' }), 'us');
    expect(unmixed.input).toBeNull();
    expect(unmixed.faults.saltAfter).toMatch(/Mix longer and read again/);
  });

  it('keeps the error of a salt test when a form is saved untouched', () => {
    const { water } = readPondInput(aSurveyedPond());
    const record = readPondInput(
      aTypedPond({
        water: { method: 'salt-test', volumeL: 9123.4, sigmaPct: 6.2, shape: water.shape! },
      }),
    );
    const shown = shownPond(record, 'us');
    expect(readTypedPond(shown.typed, 'us', shown).input).toEqual(record);
  });

  it('leaves rows out whose kind is none', () => {
    const { input } = readTypedPond(aTypedForm({ 'equipment.0.kind': '' }), 'us');
    expect(input?.equipment.map(({ kind }) => kind)).toEqual(['uv-lamp']);
  });

  it('puts each fault at its field, in the units that were typed, with a proposal', () => {
    const { input, faults } = readTypedPond(
      aTypedForm({ maxDepth: '420', name: ' ', 'stock.0.count': 'many', tapChlorine: '18' }),
      'us',
    );
    expect(input).toBeNull();
    expect(faults.maxDepth).toBe('420 cannot be right: at most 65.62 ft. Did you mean 42?');
    expect(faults.name).toBe('May not be empty.');
    expect(faults['stock.0.count']).toMatch(/“many” is not a number/);
    expect(faults.tapChlorine).toBe('18 cannot be right: at most 10. Did you mean 1.8?');
  });

  it('names the row of a fault even where a row before it was taken out', () => {
    const { faults } = readTypedPond(aTypedForm({ 'equipment.0.kind': '', 'equipment.1.power': '-40' }), 'us');
    expect(faults['equipment.1.power']).toBe('-40 cannot be right: at least 0.1. Did you mean 40?');
  });

  it('asks for what is missing instead of guessing it', () => {
    const { faults } = readTypedPond(aTypedForm({ latitude: '', length: '' }), 'us');
    expect(faults.latitude).toBe('This is needed.');
    expect(faults.length).toBe('This is needed.');
  });

  it.each(['us', 'metric'] as const)(
    'gives the record back unchanged when a form in %s units is saved untouched',
    (units) => {
      const record = readPondInput(aSurveyedPond());
      const shown = shownPond(record, units);
      const { input, faults } = readTypedPond(shown.typed, units, shown);
      expect(faults).toEqual({});
      expect(input).toEqual(record);
    },
  );

  it('moves only the figure that was changed', () => {
    const record = readPondInput(aTypedPond());
    const shown = shownPond(record, 'us');
    const { input } = readTypedPond({ ...shown.typed, directSunHours: '4' }, 'us', shown);
    expect(input).toEqual({ ...record, directSunHours: 4 });
  });

  it('releases livestock on no day while the pond is running in', () => {
    expect(readTypedPond(aTypedForm({ runningIn: 'yes', stockedOn: '2024-06-01' }), 'us').input?.stockedOn).toBeNull();
  });
});
