import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { quantileOfSorted, sortByLastOrder } from '../../../src/core/thermal/quantiles.js';

describe('quantiles', () => {
  it('lie on the line between order statistics', () => {
    expect(quantileOfSorted([1, 2, 3, 4], 0.5)).toBe(2.5);
    expect(quantileOfSorted([1, 2, 3, 4, 5], 0.25)).toBe(2);
    expect(quantileOfSorted([7], 0.9)).toBe(7);
  });

  it('sort any values from any earlier order', () => {
    const values = fc.array(fc.double({ noNaN: true }), { minLength: 1, maxLength: 60 });
    fc.assert(
      fc.property(values, fc.array(fc.nat(), { minLength: 60, maxLength: 60 }), (list, keys) => {
        const order = Int32Array.from(list.map((_, i) => i).sort((a, b) => keys[a]! - keys[b]!));
        const sorted = new Float64Array(list.length);
        sortByLastOrder(Float64Array.from(list), order, sorted);
        expect(Array.from(sorted)).toEqual([...list].sort((a, b) => a - b));
        expect(Array.from(order, (i) => list[i])).toEqual(Array.from(sorted));
      }),
    );
  });
});
