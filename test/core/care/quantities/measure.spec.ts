import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { asSolution, roundedToMeasure, roundedToTwoDigits } from '../../../../src/core/care/quantities/measure.js';
import { weighedDose } from '../../../../src/core/care/quantities/quantity-context.js';

const SIDES = ['up', 'down'] as const;
const anAmount = fc.double({ min: 0.001, max: 1_000_000, noNaN: true });

function dose(computed: number, side: 'up' | 'down') {
  return weighedDose({
    recipe: 'dechlorinator-for-change',
    of: 'dechlorinator',
    per: 'once',
    side,
    computed,
    basis: { of: 'new-water', amount: 1000, unit: 'L' },
    formula: 'f',
    source: 's',
    remarks: [],
  });
}

describe('a measure a person can make', () => {
  it('is never more than a tenth off, and always on the safe side', () => {
    fc.assert(
      fc.property(anAmount, fc.constantFrom(...SIDES), fc.constantFrom(0.01, 0.1, 1, 5), (amount, side, smallest) => {
        const rounded = roundedToMeasure(amount, side, smallest);
        if (rounded === null) return;
        expect(Math.abs(rounded - amount)).toBeLessThanOrEqual(0.1 * amount + 1e-6);
        if (side === 'up') expect(rounded).toBeGreaterThanOrEqual(amount - 1e-6);
        else expect(rounded).toBeLessThanOrEqual(amount + 1e-6);
      }),
    );
  });

  it('is refused where the smallest step is too coarse, rather than a tenth off', () => {
    expect(roundedToMeasure(0.2, 'up', 1)).toBeNull();
    expect(roundedToMeasure(9.4, 'up', 1)).toBeNull();
  });

  it.each([
    { amount: 61.6, side: 'up', rounded: 65 },
    { amount: 61.6, side: 'down', rounded: 60 },
    { amount: 22.3, side: 'up', rounded: 23 },
    { amount: 1230, side: 'down', rounded: 1200 },
    { amount: 5, side: 'up', rounded: 5 },
    { amount: 0, side: 'up', rounded: 0 },
  ] as const)('of $amount rounded $side is $rounded', ({ amount, side, rounded }) => {
    expect(roundedToMeasure(amount, side, 1)).toBe(rounded);
  });

  it('to two digits is never more than a tenth off either', () => {
    fc.assert(
      fc.property(anAmount, fc.constantFrom(...SIDES), (amount, side) => {
        expect(Math.abs(roundedToTwoDigits(amount, side) - amount)).toBeLessThanOrEqual(0.1 * amount + 1e-6);
      }),
    );
  });
});

describe('a dose', () => {
  it('too small for a scale is millilitres of a made-up solution: 0.2 g are 20 mL of 10 g in a litre', () => {
    // Design, section 4: a tub that needs 0.2 g gets a made-up solution and millilitres, not 5 g.
    expect(asSolution(0.2, 'up')).toEqual({ strengthGPerL: 10, amountMl: 20 });
    expect(dose(0.2, 'up')).toMatchObject({ amount: 20, unit: 'mL', remarks: ['made-up-solution-10-g-per-l'] });
  });

  it('contains what was computed, within a tenth and on the safe side, as grams or as solution', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 100_000, noNaN: true }), fc.constantFrom(...SIDES), (computed, side) => {
        const { amount, unit, remarks } = dose(computed, side);
        const strength = Number(/made-up-solution-(\d+)/.exec(remarks[0] ?? '')?.[1] ?? 0);
        const givenG = unit === 'g' ? amount : (amount * strength) / 1000;
        expect(Math.abs(givenG - computed)).toBeLessThanOrEqual(0.1 * computed + 1e-6);
        expect(side === 'up' ? givenG >= computed - 1e-6 : givenG <= computed + 1e-6).toBe(true);
      }),
    );
  });
});
