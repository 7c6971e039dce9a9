import { describe, expect, it } from '@jest/globals';
import type { ReadingQuantity } from '../../../src/core/care/care-rule.js';
import { type ReadingField, readingFields } from '../../../src/web/technician/reading-fields.js';
import { lineOf, sayReading } from '../../../src/web/technician/reading-words.js';
import { numberOf, typedReading } from '../../../src/web/technician/typed-reading.js';

function field(quantity: ReadingQuantity, units: 'us' | 'metric' = 'us'): ReadingField {
  return readingFields(units).find((one) => one.quantity === quantity) as ReadingField;
}

const ABOUT = {
  units: 'us',
  volumeL: 8000,
  tapChlorineMgPerL: 4,
  productMgPerMgChlorine: 7,
  productName: 'thiosulfate crystals',
  elevationM: 300,
} as const;

describe('typedReading', () => {
  it.each([
    ['7.1', 7.1],
    ['7,1', 7.1],
    [' 7.1 ', 7.1],
    ['.5', 0.5],
    ['2,910', 2910],
    ['2 910', 2910],
    ['-0.5', -0.5],
  ])('reads %s as a number', (typed, value) => {
    expect(numberOf(typed)).toBe(value);
  });

  it.each(['seven', '7.1.2', '1e3', '--2', '½', '7;1'])('does not read %s as a number', (typed) => {
    expect(numberOf(typed)).toBeNaN();
  });

  it.each([
    ['ph', '71', 'pH 71 cannot be: 4 to 11. Did you mean 7.1?'],
    ['ph', '0.72', 'pH 0.72 cannot be: 4 to 11. Did you mean 7.2?'],
    ['ph', '820', 'pH 820 cannot be: 4 to 11. Did you mean 8.2?'],
    ['total-ammonia', '45', 'total ammonia 45 cannot be: 0 to 20 mg/L. Did you mean 4.5?'],
    ['nitrite', '-0.2', 'nitrite -0.2 cannot be: 0 to 10 mg/L. Did you mean 0.2?'],
    ['water-temperature', '576', 'water 576 cannot be: 30.2 to 104 °F. Did you mean 57.6?'],
    ['water-temperature', '14', 'water 14 cannot be: 30.2 to 104 °F. Did you mean 57.2 °F (14 °C)?'],
  ] as const)('offers what was meant by %s of %s', (quantity, typed, sentence) => {
    expect(typedReading(field(quantity), typed)).toMatchObject({ kind: 'wrong', sentence });
  });

  it('offers Celsius for a figure in Fahrenheit', () => {
    expect(typedReading(field('water-temperature', 'metric'), '57')).toMatchObject({
      kind: 'wrong',
      sentence: 'water 57 cannot be: -1 to 40 °C. Did you mean 13.9 °C (57 °F)?',
    });
  });

  it('offers nothing where nothing is likely', () => {
    expect(typedReading(field('ph'), '5000')).toMatchObject({
      kind: 'wrong',
      sentence: 'pH 5000 cannot be: 4 to 11.',
      meant: null,
    });
  });

  it('says what a number looks like', () => {
    expect(typedReading(field('ph'), 'fine')).toMatchObject({
      kind: 'wrong',
      sentence: 'pH is a number, for example 7.75.',
    });
  });

  it('takes an empty field as no reading', () => {
    expect(typedReading(field('ph'), '  ')).toEqual({ kind: 'none' });
  });

  it.each([
    ['water-temperature', '57.6', 14.222],
    ['nitrate', '40', 9.036],
    ['pump-flow', '1000', 3785.412],
    ['total-ammonia', '0.8', 0.8],
  ] as const)('keeps %s %s in the stored unit', (quantity, typed, stored) => {
    expect(typedReading(field(quantity), typed)).toEqual({ kind: 'value', value: expect.closeTo(stored, 3) });
  });

  it('accepts what it shows again', () => {
    for (const units of ['us', 'metric'] as const) {
      for (const one of readingFields(units)) {
        const typed = typedReading(one, String(one.fromStored(0.4)));
        expect(typed).toEqual(
          one.quantity === 'ph'
            ? expect.objectContaining({ kind: 'wrong' })
            : { kind: 'value', value: expect.closeTo(0.4, 9) },
        );
      }
    }
  });
});

describe('sayReading', () => {
  it('says the un-ionised part of ammonia and its limit at this temperature and pH', () => {
    // 57.6 °F and pH 8.2: share 0.0387 after Emerson et al. (1975), so 0.8 mg/L holds 0.031.
    const said = sayReading(field('total-ammonia'), 0.8, { temperatureC: 14.22, ph: 8.2 }, ABOUT);
    expect(said).toMatchObject({
      level: 'watch',
      form: 'block',
      levelWord: 'Watch',
      headline: 'Un-ionised ammonia 0.031 mg/L',
      limit: 'Above 0.02 mg/L, which at this temperature and pH is 0.51 of total ammonia.',
      actions: ['Half the feed.', 'Test again in 2 days.'],
    });
  });

  it('says total ammonia where its own limit decides', () => {
    const said = sayReading(field('total-ammonia'), 1.2, { temperatureC: 5, ph: 7 }, ABOUT);
    expect(said).toMatchObject({ level: 'watch', headline: 'Total ammonia 1.2 mg/L', limit: 'Above 1 mg/L.' });
  });

  it('sizes water and dose for this pond', () => {
    const { actions } = sayReading(field('nitrite'), 0.4, {}, ABOUT);
    expect(actions).toContain('Change at most 25 %, 528 gal of 2,110 gal, with 62 g (2.2 oz) of thiosulfate crystals.');
  });

  it('names no product where the tap has no chlorine', () => {
    const { actions } = sayReading(field('nitrite'), 0.4, {}, { ...ABOUT, tapChlorineMgPerL: 0, units: 'metric' });
    expect(actions).toContain('Change at most 25 %, 2,000 L of 8,000 L.');
  });

  it.each([
    ['nitrite', 0.05, 'In order, below 0.1 mg/L'],
    ['ph', 7.6, 'In order, 7 to 8.5'],
    ['alkalinity', 110, 'In order, above 80 mg/L CaCO₃'],
    ['nitrate', 4, 'In order, below 40 mg/L'],
    ['salinity', 1, 'Noted, without a limit'],
  ] as const)('puts %s of %d in one line with its limit', (quantity, value, line) => {
    expect(lineOf(sayReading(field(quantity), value, {}, ABOUT))).toBe(line);
  });

  it('never says a word without its limit', () => {
    for (const [quantity, value] of [
      ['water-temperature', 31],
      ['ph', 9.1],
      ['nitrite', 0.1],
      ['dissolved-oxygen', 3],
      ['total-chlorine', 0.2],
    ] as const) {
      const said = sayReading(field(quantity), value, {}, ABOUT);
      expect(said.limit).toMatch(/^(At|Above|Below) [\d.]+/);
      expect(said.actions.length).toBeGreaterThan(0);
    }
  });
});
