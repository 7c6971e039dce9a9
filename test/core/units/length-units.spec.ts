import { describe, it } from '@jest/globals';
import fc from 'fast-check';
import {
  cmFromIn,
  ft2FromSquareMetres,
  ftFromM,
  inFromCm,
  metresFromFt,
  squareMetresFromFt2,
} from '../../../src/core/units/length-units.js';
import { expectWithin, expectWithinShare } from '../../support/expect-within.js';

describe('length', () => {
  it('of 3 ft is 0.9144 m, of 1 in 2.54 cm, and 100 ft² are 9.290304 m² (exact by definition)', () => {
    expectWithin(metresFromFt(3), 0.9144, 1e-12);
    expectWithin(cmFromIn(1), 2.54, 1e-12);
    expectWithin(squareMetresFromFt2(100), 9.290304, 1e-12);
    expectWithin(cmFromIn(12), metresFromFt(1) * 100, 1e-12);
  });

  it('comes back from every unit within 1e-9', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.001, max: 1e6, noNaN: true }), (length) => {
        expectWithinShare(metresFromFt(ftFromM(length)), length, 1e-9);
        expectWithinShare(cmFromIn(inFromCm(length)), length, 1e-9);
        expectWithinShare(squareMetresFromFt2(ft2FromSquareMetres(length)), length, 1e-9);
      }),
    );
  });
});
