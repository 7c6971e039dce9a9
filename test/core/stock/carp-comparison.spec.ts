import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import {
  carpMassByForkLengthG,
  carpStandardMassG,
  relativeMassShare,
} from '../../../src/core/stock/carp-comparison.js';
import { fishMassG } from '../../../src/core/stock/fish-mass.js';
import { cmFromIn } from '../../../src/core/units/length-units.js';
import { G_PER_LB } from '../../../src/core/units/mass-units.js';
import bister from '../../published/bister-2000-carp-standard-mass.json' with { type: 'json' };
import observed from '../../published/carp-observed-length-weight.json' with { type: 'json' };
import { expectWithinShare } from '../../support/expect-within.js';

describe('standard mass of a carp', () => {
  it.each([
    [20, 120],
    [30, 393],
    [40, 910],
    [50, 1746],
    [60, 2973],
    [70, 4663],
  ])('of %d cm is %d g (L-2, derived from the published equation)', (lengthCm, massG) => {
    expectWithinShare(carpStandardMassG({ lengthCm }), massG, 0.005);
  });

  it('agrees with the printed form in inches and pounds: 12 in are 0.906 lb, 411 g (L-3)', () => {
    const english = bister.rows.find((row) => row.unit === 'in, lb')!;
    const printedLb = 10 ** (english.intercept + english.slope * Math.log10(12));
    expectWithinShare(printedLb, 0.906, 0.005);
    expectWithinShare(carpStandardMassG({ lengthCm: cmFromIn(12) }), 411, 0.005);
    expectWithinShare(carpStandardMassG({ lengthCm: cmFromIn(12) }), printedLb * G_PER_LB, 0.005);
  });

  it('lies under the koi formula of grown fish, by a fifth at the most', () => {
    for (const lengthCm of [30, 40, 50, 60]) {
      const share = relativeMassShare({ lengthCm, massG: fishMassG({ species: 'koi', lengthCm }) });
      expect(share).toBeGreaterThan(1);
      expect(share).toBeLessThan(1.25);
    }
  });

  it('rises with length, and is one for the standard itself', () => {
    fc.assert(
      fc.property(fc.double({ min: 20, max: 119, noNaN: true }), (lengthCm) => {
        const massG = carpStandardMassG({ lengthCm });
        expect(carpStandardMassG({ lengthCm: lengthCm + 0.5 })).toBeGreaterThan(massG);
        expectWithinShare(relativeMassShare({ lengthCm, massG }), 1, 1e-12);
      }),
    );
  });

  it.each([
    [{ lengthCm: 19.9 }, 'length of carp, cm: 19.9, outside 20 to 120.'],
    [{ lengthCm: Number.NaN }, 'length of carp, cm: NaN'],
  ])('refuses %j', (fish, message) => {
    expect(() => carpStandardMassG(fish)).toThrow(message);
  });
});

describe('mass of a carp by fork length', () => {
  it.each(observed.rows)('meets the carp of $forkLengthCm cm weighed at $massG g within 11 %% (L-5)', (row) => {
    expectWithinShare(carpMassByForkLengthG(row), row.massG, 0.11);
  });

  it('refuses a length that was not weighed', () => {
    expect(() => carpMassByForkLengthG({ forkLengthCm: 80 })).toThrow('fork length of carp, cm: 80, outside 10 to 69.');
  });
});
