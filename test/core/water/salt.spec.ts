import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { lbFromG } from '../../../src/core/units/mass-units.js';
import { litresFromUsGal, usGalFromL } from '../../../src/core/units/volume-units.js';
import {
  dailySaltG,
  proposedSaltG,
  salinityRiseGPerL,
  saltForVolumeTestG,
  saltG,
  saltLostByChangeG,
  saltVolume,
} from '../../../src/core/water/salt.js';
import doseSheets from '../../published/dose-sheets.json' with { type: 'json' };
import { expectWithin } from '../../support/expect-within.js';

describe('salt', () => {
  it.each(doseSheets.rows.filter((row) => row.of === 'salt'))('agrees with dosing sheet $id', (row) => {
    const dose = { volumeL: litresFromUsGal(row.waterUsGal), salinityRiseGPerL: row.risePct! * 10 };
    expectWithin(lbFromG(saltG(dose)), row.doseLb!, row.toleranceLb!);
  });

  it('P-13, P-14: for 12 m³ to 0.3 % is 36.0 kg; a change of a fifth at 0.1 % takes 2.4 kg (derived)', () => {
    expectWithin(saltG({ volumeL: 12_000, salinityRiseGPerL: 3 }), 36_000, 100);
    expectWithin(saltLostByChangeG({ volumeL: 12_000, salinityGPerL: 1, changeShare: 0.2 }), 2400, 10);
  });

  it('P-13: goes in over at least three days (common practice)', () => {
    expectWithin(dailySaltG({ saltG: 36_000 }), 12_000, 1e-9);
    expect(() => dailySaltG({ saltG: 36_000, days: 2 })).toThrow('days of salting: 2, outside 3 to 60.');
  });

  it('is never proposed above 1.0 g/L (common practice)', () => {
    expectWithin(proposedSaltG({ volumeL: 1000, salinityGPerL: 0.4, targetSalinityGPerL: 1 }), 600, 1e-9);
    expect(proposedSaltG({ volumeL: 1000, salinityGPerL: 1.2, targetSalinityGPerL: 1 })).toBe(0);
    expect(() => proposedSaltG({ volumeL: 1000, salinityGPerL: 0, targetSalinityGPerL: 1.01 })).toThrow(
      'target salinity, g/L: 1.01, outside 0 to 1.',
    );
  });
});

describe('volume by salt', () => {
  it('G14: of 10 kg from 1.2 to 2.0 g/L is 12.5 m³, 3302 US gal (derived)', () => {
    const { volumeL } = saltVolume({ saltKg: 10, salinityBeforeGPerL: 1.2, salinityAfterGPerL: 2.0 });
    expectWithin(volumeL, 12_500, 12.5);
    expectWithin(usGalFromL(volumeL), 3302, 3.3);
  });

  it.each([
    [0.3, 23.65, 0.01],
    [0.6, 11.95, 0.01],
    [1.0, 7.35, 0.01],
  ])('with a rise of %d g/L errs by %d %% (derived)', (rise, expectedPct, tolerance) => {
    const { volumeSigmaPct } = saltVolume({ saltKg: 5, salinityBeforeGPerL: 0, salinityAfterGPerL: rise });
    expectWithin(volumeSigmaPct, expectedPct, tolerance);
  });

  it('finds again the volume the salt was weighed for, and errs less the more it rises', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 100, max: 100_000, noNaN: true }),
        fc.double({ min: 0.3, max: 0.9, noNaN: true }),
        (volumeL, rise) => {
          const by = (salinityRiseGPerL: number) =>
            saltVolume({
              saltKg: saltG({ volumeL, salinityRiseGPerL }) / 1000,
              salinityBeforeGPerL: 0.1,
              salinityAfterGPerL: 0.1 + salinityRiseGPerL,
            });
          expectWithin(by(rise).volumeL, volumeL, 1e-9 * volumeL);
          expect(by(rise + 0.05).volumeSigmaPct).toBeLessThan(by(rise).volumeSigmaPct);
        },
      ),
    );
  });

  it('counts 2,000 µS/cm as 1 g/L (from memory)', () => {
    expectWithin(salinityRiseGPerL({ conductivityUSPerCm: 1600 }), 0.8, 1e-12);
    expect(() => salinityRiseGPerL({ conductivityUSPerCm: -1 })).toThrow('rise of conductivity, µS/cm: -1');
  });

  it('needs a rise the meter can see', () => {
    const test = { saltKg: 5, salinityBeforeGPerL: 1, salinityAfterGPerL: 1.04 };
    expect(() => saltVolume(test)).toThrow('It must be more than the meter can err above the 1 g/L before.');
    expect(() => saltVolume({ ...test, salinityAfterGPerL: Number.NaN })).toThrow('salinity after, g/L: NaN');
  });

  it('asks for salt up to 1.0 g/L in all, and for none where less than 0.3 g/L is left (common practice)', () => {
    expectWithin(saltForVolumeTestG({ volumeL: 10_000, salinityGPerL: 0 }), 8000, 1e-9);
    expectWithin(saltForVolumeTestG({ volumeL: 10_000, salinityGPerL: 0.5 }), 5000, 1e-9);
    expectWithin(saltForVolumeTestG({ volumeL: 10_000, salinityGPerL: 0.7 }), 3000, 1e-9);
    expect(() => saltForVolumeTestG({ volumeL: 10_000, salinityGPerL: 0.8 })).toThrow('Meter the next fill instead.');
  });
});
