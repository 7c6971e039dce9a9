import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { saltAgainstNitrite } from '../../../src/core/water/nitrite.js';
import { expectWithin, expectWithinShare } from '../../support/expect-within.js';

const pond = { volumeL: 1000, nitriteMgNPerL: 0.1, chlorideMgPerL: 0, salinityGPerL: 0 };

describe('salt against nitrite', () => {
  it('A-30: for 0.1 mg/L N in 1 m³ is 5.41 g (derived)', () => {
    const dose = saltAgainstNitrite(pond);
    expectWithinShare(dose.saltG, 5.41, 0.005);
    expect(dose.isRatioReached).toBe(true);
  });

  it('counts the chloride already there', () => {
    expect(saltAgainstNitrite({ ...pond, chlorideMgPerL: 4 }).saltG).toBe(0);
    expectWithin(saltAgainstNitrite({ ...pond, chlorideMgPerL: 1 }).saltG, (3.2844 - 1) * 1.6485, 1e-9);
  });

  it('never passes 1.0 g/L of salt, and says when that is too little', () => {
    const dose = saltAgainstNitrite({ ...pond, nitriteMgNPerL: 30, salinityGPerL: 0.9 });
    expectWithin(dose.saltG, 100, 1e-9);
    expect(dose.saltForRatioG).toBeGreaterThan(1000);
    expect(dose.isRatioReached).toBe(false);
  });

  it('rises with nitrite and with the pond, and stays under the cap', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 20, noNaN: true }),
        fc.double({ min: 100, max: 1e5, noNaN: true }),
        fc.double({ min: 0, max: 2, noNaN: true }),
        (nitriteMgNPerL, volumeL, salinityGPerL) => {
          const here = saltAgainstNitrite({ volumeL, nitriteMgNPerL, chlorideMgPerL: 20, salinityGPerL });
          const more = saltAgainstNitrite({
            volumeL,
            nitriteMgNPerL: nitriteMgNPerL + 1,
            chlorideMgPerL: 20,
            salinityGPerL,
          });
          expect(more.saltG).toBeGreaterThanOrEqual(here.saltG);
          expect(here.saltG / volumeL + Math.min(salinityGPerL, 1)).toBeLessThanOrEqual(1 + 1e-9);
        },
      ),
    );
  });

  it.each([
    [{ nitriteMgNPerL: -1 }, 'nitrite, mg/L N: -1, outside 0 to 50.'],
    [{ chlorideMgPerL: Number.NaN }, 'chloride, mg/L: NaN'],
    [{ volumeL: 0 }, 'pond volume, L: 0'],
  ])('refuses %j', (wrong, message) => {
    expect(() => saltAgainstNitrite({ ...pond, ...wrong })).toThrow(message);
  });
});
