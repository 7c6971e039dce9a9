import { describe, expect, it } from '@jest/globals';
import type { Quantity } from '../../src/core/care/care-plan.js';
import { ACTUAL_RANGES, plannedActuals } from '../../src/visits/index.js';

const amount = (of: string, value: number, recipe: Quantity['recipe']) => ({ of, amount: value, recipe }) as Quantity;

describe('what a task teaches that is closed as planned', () => {
  it.each([
    ['first-livestock', 'staged-stocking'],
    ['next-livestock', 'following-stock'],
  ] as const)('is the mass of the %s', (of, recipe) => {
    expect(plannedActuals({ quantities: [amount(of, 1.7, recipe)] })).toEqual({ stockedKg: 1.7 });
  });

  it('keeps to what may be typed', () => {
    const planned = plannedActuals({
      quantities: [
        amount('media', 0.33, 'rinse-media-share'),
        amount('new-water', 900, 'water-change'),
        amount('lamp-hours', 8000, 'lamp-hours'),
        amount('next-livestock', 2, 'following-stock'),
      ],
    });
    expect(planned).toEqual({ mediaShareRinsed: 0.33, changedL: 900, lampHours: 0, stockedKg: 2 });
    for (const [name, value] of Object.entries(planned)) {
      const { min, max } = ACTUAL_RANGES[name as keyof typeof ACTUAL_RANGES];
      expect(value >= min && value <= max).toBe(true);
    }
  });
});
