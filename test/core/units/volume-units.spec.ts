import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import {
  cubicMetresFromL,
  ft3FromL,
  imperialGalFromL,
  litresFrom,
  litresFromFt3,
  litresFromImperialGal,
  litresFromUsGal,
  usGalFromL,
  type VolumeUnit,
  volumeIn,
} from '../../../src/core/units/volume-units.js';
import { expectWithin, expectWithinShare } from '../../support/expect-within.js';

describe('volume', () => {
  it('of 1000 gallons depends on whose gallons they are (exact by definition)', () => {
    expectWithin(litresFromUsGal(1000), 3785.411784, 1e-9);
    expectWithin(litresFromImperialGal(1000), 4546.09, 1e-9);
  });

  it('of a cubic metre and of a cubic foot keeps its known equivalents (exact by definition)', () => {
    expectWithin(usGalFromL(1000), 264.172052, 1e-6);
    expectWithin(imperialGalFromL(1000), 219.969248, 1e-6);
    expectWithin(usGalFromL(litresFromFt3(1)), 7.480519481, 1e-9);
    expectWithin(usGalFromL(litresFrom({ volume: 1, unit: 'ft3' })) * 231, 1728, 1e-9);
    expect(cubicMetresFromL(2500)).toBe(2.5);
    expect(litresFrom({ volume: 5, unit: 'L' })).toBe(5);
    expect(litresFrom({ volume: 5, unit: 'm3' })).toBe(5000);
  });

  it('comes back from every unit within 1e-9', () => {
    const unit = fc.constantFrom<VolumeUnit>('L', 'm3', 'us-gal', 'imperial-gal', 'ft3');
    fc.assert(
      fc.property(unit, fc.double({ min: 0.001, max: 1e6, noNaN: true }), (of, volume) => {
        expectWithinShare(volumeIn({ volumeL: litresFrom({ volume, unit: of }), unit: of }), volume, 1e-9);
        expectWithinShare(litresFromFt3(ft3FromL(volume)), volume, 1e-9);
        expectWithinShare(litresFromUsGal(usGalFromL(volume)), volume, 1e-9);
        expectWithinShare(litresFromImperialGal(imperialGalFromL(volume)), volume, 1e-9);
      }),
    );
  });
});
