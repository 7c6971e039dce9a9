import { describe, expect, it } from '@jest/globals';
import { implausibility } from '../../src/ponds/index.js';

describe('implausibility', () => {
  it.each([
    ['ph', 71, 'pH 71: allowed 4 to 11; did you mean 7.1?'],
    ['water-temperature', 68, 'water temperature 68 °C: allowed -1 to 40 °C; did you mean 20 °C (68 °F)?'],
    ['total-ammonia', 25, 'total ammonia 25 mg/L as N: allowed 0 to 20 mg/L as N; did you mean 2.5?'],
    ['nitrite', -0.3, 'nitrite -0.3 mg/L as N: allowed 0 to 10 mg/L as N; did you mean 0.3?'],
    ['dissolved-oxygen', Number.NaN, 'dissolved oxygen NaN mg/L: allowed 0 to 20 mg/L.'],
    ['ph', Number.POSITIVE_INFINITY, 'pH Infinity: allowed 4 to 11.'],
  ] as const)('of %s %d is a sentence', (quantity, value, sentence) => {
    expect(implausibility(quantity, value)).toBe(sentence);
  });

  it.each([
    ['ph', 4],
    ['ph', 11],
    ['water-temperature', -1],
    ['water-temperature', 40],
    ['nitrate', 100],
  ] as const)('lets %s %d pass at the edge', (quantity, value) => {
    expect(implausibility(quantity, value)).toBeNull();
  });

  it('refuses a quantity that is not kept', () => {
    expect(implausibility('colour' as never, 1)).toMatch(/not a quantity that is kept.*water-temperature/);
  });
});
