import { describe, expect, it } from '@jest/globals';
import { newId } from '../../../src/platform/ids.js';
import { unsavedRecord } from '../../../src/ponds/index.js';
import { verdictLines } from '../../../src/web/office/ponds/page/stock-verdict.view-model.js';
import { aPond } from '../../support/typed-pond.js';

function linesOf(own: Parameters<typeof aPond>[0], units: 'us' | 'metric' = 'metric') {
  const record = unsavedRecord(newId(), aPond(own), {
    pondId: newId(),
    today: '2026-06-05',
    instant: '2026-06-05T15:00:00Z',
  });
  const lines = verdictLines({ record }, units);
  return new Map(lines.map(({ name, detail, value }) => [name, `${value}; ${detail}`]));
}

describe('the verdict on the page of a pond', () => {
  it('names the number it comes from, and what was not judged', () => {
    // 8 koi of 35 cm are 5.4 kg in 10.07 m³.
    const lines = linesOf({});
    expect(lines.get('Stock')).toBe('comfortable; by its water, which has the least to spare');
    expect(lines.get('Water')).toBe('0.539 kg per m³; comfortable up to 1 kg per m³');
    expect(lines.get('Filter')).toMatch(/^1[67] %; 2\.\d+ of 12\.6 g of nitrogen a day at 25 °C$/);
    expect(lines.get('Oxygen')).toBe('not judged; nobody measured how much comes in');
    expect(linesOf({}, 'us').get('Water')).toMatch(/^4\.5 lb per 1,000 gal; comfortable up to 8\.35 lb/);
  });

  it('is set by the filter where that runs out first, and by the oxygen that an aerator brings in', () => {
    const small = linesOf({
      equipment: [
        { kind: 'biological-filter', name: 'Bed', rated: { mediaVolumeL: 10, mediaAreaM2PerM3: 400 } },
        { kind: 'aerator', name: 'Air', rated: { flowLPerH: 3600 } },
      ],
    });
    expect(small.get('Stock')).toBe('overstocked; by its filter, which has the least to spare');
    expect(small.get('Oxygen')).toMatch(/^\d+ %; [\d.]+ of [\d.]+ g an hour at 30 °C$/);
  });

  it('looks three years ahead where the fish still grow, and is silent of it where they do not', () => {
    expect(linesOf({}).get('In 3 years')).toMatch(/^overstocked; grown as .*; water 2\.\d+ kg per m³$/);
    expect(linesOf({ stock: [{ species: 'slider-turtle', count: 2, lengthCm: 20 }] }).has('In 3 years')).toBe(false);
  });

  it('leaves out machines that were taken away, and counts turtles', () => {
    const turtles = linesOf({ stock: [{ species: 'slider-turtle', count: 30, lengthCm: 20 }], equipment: [] });
    expect(turtles.get('Stock')).toMatch(/^overstocked; by its water/);
    expect(turtles.get('Filter')).toBe('not judged; the media are not on the record');
  });
});
