import { describe, expect, it } from '@jest/globals';
import { LINER_OVERLAP_UNDER_STONE_M, linerSize } from '../../../src/core/hydraulics/liner-size.js';
import { ftFromM, metresFromFt } from '../../../src/core/units/length-units.js';
import { expectWithin } from '../../support/expect-within.js';

describe('liner', () => {
  it('for 10 x 8 x 2.5 ft with 1.5 ft on each bank is 18 x 16 ft (derived)', () => {
    const liner = linerSize({
      lengthM: metresFromFt(10),
      widthM: metresFromFt(8),
      maxDepthM: metresFromFt(2.5),
      overlapM: metresFromFt(1.5),
    });
    expectWithin(ftFromM(liner.lengthM), 18, 1e-9);
    expectWithin(ftFromM(liner.widthM), 16, 1e-9);
  });

  it('for 4 x 3 x 0.9 m is 6.4 x 5.4 m with the usual overlap (derived)', () => {
    const liner = linerSize({ lengthM: 4, widthM: 3, maxDepthM: 0.9 });
    expectWithin(liner.lengthM, 6.4, 1e-9);
    expectWithin(liner.widthM, 5.4, 1e-9);
    const underStone = linerSize({ lengthM: 4, widthM: 3, maxDepthM: 0.9, overlapM: LINER_OVERLAP_UNDER_STONE_M });
    expectWithin(underStone.lengthM, 6.7, 1e-9);
  });

  it('is refused without a depth', () => {
    expect(() => linerSize({ lengthM: 4, widthM: 3, maxDepthM: 0 })).toThrow('deepest point, m: 0');
    expect(() => linerSize({ lengthM: 4, widthM: 3, maxDepthM: 1, overlapM: Number.NaN })).toThrow('overlap, m: NaN');
  });
});
