import { describe, expect, it } from '@jest/globals';
import { readPondInput } from '../../../src/ponds/index.js';
import { shownPond } from '../../../src/web/office/ponds/form/shown-pond.js';
import { readTypedPond } from '../../../src/web/office/ponds/form/typed-pond.js';
import { aTypedPond } from '../../support/typed-pond.js';
import { aTypedForm } from './typed-form.js';

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
      const record = readPondInput(aTypedPond());
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
