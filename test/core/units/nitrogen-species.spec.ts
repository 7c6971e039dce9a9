import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { mgNPerLFrom, mgPerLFromN, type NitrogenBasis } from '../../../src/core/units/nitrogen-species.js';
import factors from '../../published/nitrogen-species-factors.json' with { type: 'json' };
import { expectWithin, expectWithinShare } from '../../support/expect-within.js';

describe('nitrogen species', () => {
  it.each(factors.rows)('$basis agrees with the posted factor to 0.005 %', ({ basis, factor }) => {
    expectWithinShare(mgPerLFromN({ mgNPerL: 1, basis: basis as NitrogenBasis }), factor, 0.00005);
  });

  it('nitrate of 40 and 80 mg/L is 9.04 and 18.07 mg/L as N (derived)', () => {
    expectWithin(mgNPerLFrom({ mgPerL: 40, basis: 'no3' }), 9.04, 0.005);
    expectWithin(mgNPerLFrom({ mgPerL: 80, basis: 'no3' }), 18.07, 0.005);
  });

  it('already as N stays as it is', () => {
    expect(mgNPerLFrom({ mgPerL: 0.7, basis: 'n' })).toBe(0.7);
    expect(mgPerLFromN({ mgNPerL: 0.7, basis: 'n' })).toBe(0.7);
  });

  it('comes back from every basis within 1e-9', () => {
    const basis = fc.constantFrom<NitrogenBasis>('n', 'nh3', 'nh4', 'no2', 'no3');
    fc.assert(
      fc.property(basis, fc.double({ min: 0, max: 1000, noNaN: true }), (of, mgPerL) => {
        expectWithin(mgPerLFromN({ mgNPerL: mgNPerLFrom({ mgPerL, basis: of }), basis: of }), mgPerL, 1e-9);
      }),
    );
  });
});
