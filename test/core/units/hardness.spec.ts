import { describe, it } from '@jest/globals';
import fc from 'fast-check';
import { dkhFromMgCaCO3PerL, mgCaCO3PerLFromDkh } from '../../../src/core/units/hardness.js';
import { expectWithin, expectWithinShare } from '../../support/expect-within.js';

const CACO3_G_PER_MOL = 100.087;
const CAO_G_PER_MOL = 56.077;

describe('hardness', () => {
  it('of a German degree is 10 mg/L of lime as calcium carbonate (derived)', () => {
    expectWithin(mgCaCO3PerLFromDkh(1), (10 * CACO3_G_PER_MOL) / CAO_G_PER_MOL, 0.001);
    expectWithin(dkhFromMgCaCO3PerL(100), 5.603, 0.001);
  });

  it('comes back within 1e-9', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.001, max: 1000, noNaN: true }), (dkh) => {
        expectWithinShare(dkhFromMgCaCO3PerL(mgCaCO3PerLFromDkh(dkh)), dkh, 1e-9);
      }),
    );
  });
});
