import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { REFUGE_DEPTH_M, refugeDepth } from '../../../src/core/hydraulics/winter-refuge.js';
import { metresFromFt } from '../../../src/core/units/length-units.js';
import { expectWithin } from '../../support/expect-within.js';

describe('winter refuge (common practice)', () => {
  it.each([
    ['W1', 5],
    ['W2', 30],
    ['W3', 24],
  ] as const)('of nearly three feet counts in %s under %d cm of ice', (winterClass, iceThicknessCm) => {
    const refuge = refugeDepth({ maxDepthM: metresFromFt(2.85), iceThicknessCm, winterClass });
    expect(refuge).toMatchObject({ isEnough: true, isRefugeDeep: true, warning: null });
  });

  it('begins at 2 ft 9 in, which is nearly three feet', () => {
    const shallow = { iceThicknessCm: 0, winterClass: 'W1' } as const;
    expectWithin(REFUGE_DEPTH_M, metresFromFt(2.75), 0.005);
    expect(refugeDepth({ ...shallow, maxDepthM: REFUGE_DEPTH_M }).isEnough).toBe(true);
    expect(refugeDepth({ ...shallow, maxDepthM: 0.83 }).warning).toBe('not-three-feet');
  });

  it('of two feet is warned of in a frost climate, even where ice leaves enough water', () => {
    const refuge = refugeDepth({ maxDepthM: metresFromFt(2), iceThicknessCm: 3, winterClass: 'W1' });
    expect(refuge).toMatchObject({ isEnough: false, isRefugeDeep: false, warning: 'not-three-feet' });
    expect(refuge.freeDepthM).toBeGreaterThan(refuge.neededFreeDepthM);
  });

  it.each([
    ['W1', 45, true],
    ['W2', 45, true],
    ['W2', 45.1, false],
    ['W3', 30, true],
    ['W3', 30.1, false],
  ] as const)('of 0.90 m in %s under %d cm of ice is enough: %s', (winterClass, iceThicknessCm, isEnough) => {
    const refuge = refugeDepth({ maxDepthM: 0.9, iceThicknessCm, winterClass });
    expect(refuge.isEnough).toBe(isEnough);
    if (!isEnough) expect(refuge.warning).toBe('too-little-below-ice');
  });

  it('is no question where there is no frost', () => {
    const refuge = refugeDepth({ maxDepthM: 0.4, iceThicknessCm: 0, winterClass: 'W0' });
    expect(refuge).toEqual({
      freeDepthM: 0.4,
      neededFreeDepthM: 0,
      isRefugeDeep: false,
      isEnough: true,
      warning: null,
    });
  });

  it('never gets better with thicker ice, and never has less than no water', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.3, max: 3, noNaN: true }),
        fc.double({ min: 0, max: 250, noNaN: true }),
        (maxDepthM, iceThicknessCm) => {
          const now = refugeDepth({ maxDepthM, iceThicknessCm, winterClass: 'W2' });
          const later = refugeDepth({ maxDepthM, iceThicknessCm: iceThicknessCm + 10, winterClass: 'W2' });
          expect(now.freeDepthM).toBeGreaterThanOrEqual(later.freeDepthM);
          expect(later.freeDepthM).toBeGreaterThanOrEqual(0);
          if (!now.isEnough) expect(later.isEnough).toBe(false);
        },
      ),
    );
  });

  it('is refused without a depth or with an ice age', () => {
    const right = { maxDepthM: 1, iceThicknessCm: 20, winterClass: 'W2' } as const;
    expect(() => refugeDepth({ ...right, maxDepthM: Number.NaN })).toThrow('deepest point, m: NaN');
    expect(() => refugeDepth({ ...right, iceThicknessCm: 400 })).toThrow('ice thickness, cm: 400');
    expectWithin(refugeDepth(right).freeDepthM, 0.8, 1e-12);
  });
});
