import { describe, it } from '@jest/globals';
import fc from 'fast-check';
import { gramsFromLb, gramsFromOz, lbFromG, ozFromG } from '../../../src/core/units/mass-units.js';
import { expectWithin, expectWithinShare } from '../../support/expect-within.js';

describe('mass', () => {
  it('of a pound is 453.59237 g and sixteen ounces (exact by definition)', () => {
    expectWithin(gramsFromLb(1), 453.59237, 1e-12);
    expectWithin(ozFromG(gramsFromLb(1)), 16, 1e-9);
  });

  it('comes back from both units within 1e-9', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.001, max: 1e6, noNaN: true }), (massG) => {
        expectWithinShare(gramsFromLb(lbFromG(massG)), massG, 1e-9);
        expectWithinShare(gramsFromOz(ozFromG(massG)), massG, 1e-9);
      }),
    );
  });
});
