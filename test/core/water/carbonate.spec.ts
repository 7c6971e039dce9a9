import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { InvalidValueError } from '../../../src/core/errors.js';
import {
  carbonicPK1,
  carbonicPK2,
  inorganicCarbonMmolPerL,
  phOf,
  waterPKw,
} from '../../../src/core/water/carbonate.js';
import { largestChangeShareByPh, mixedWater } from '../../../src/core/water/mixed-water.js';
import harned from '../../published/harned-scholes-carbonic-pk2.json' with { type: 'json' };
import { expectWithin } from '../../support/expect-within.js';

const temperature = fc.double({ min: 0, max: 40, noNaN: true });
const ph = fc.double({ min: 6, max: 9.5, noNaN: true });
const alkalinity = fc.double({ min: 20, max: 300, noNaN: true });
const water = fc.record({ temperatureC: temperature, ph, alkalinityMgCaCO3PerL: alkalinity });

describe('constants of carbonic acid', () => {
  it.each(harned.rows)('agree with Harned & Scholes at $temperatureC °C', (row) => {
    expectWithin(carbonicPK2(row), row.pK2, 0.005);
  });

  it('are 6.352 and 10.329 at 25 °C, water 14.00 (derived)', () => {
    expectWithin(carbonicPK1({ temperatureC: 25 }), 6.352, 0.0005);
    expectWithin(carbonicPK2({ temperatureC: 25 }), 10.329, 0.0005);
    expectWithin(waterPKw({ temperatureC: 25 }), 14, 0.005);
  });
});

describe('inorganic carbon', () => {
  it('of 100 mg/L alkalinity at pH 8.3 and 25 °C is almost all bicarbonate: 2.0 mmol/L (derived)', () => {
    const carbon = inorganicCarbonMmolPerL({ alkalinityMgCaCO3PerL: 100.087, ph: 8.34, temperatureC: 25 });
    expectWithin(carbon, 2, 0.005);
  });

  it('counts hydroxide at high pH: 0.783 mmol/L hold 100 mg/L alkalinity at pH 10.8 and 25 °C (derived)', () => {
    // 1.998 meq/L less 0.631 of hydroxide, by (h + 2 k2) / (h + k2) = 1.747 charges for each carbon.
    const carbon = inorganicCarbonMmolPerL({ alkalinityMgCaCO3PerL: 100, ph: 10.8, temperatureC: 25 });
    expectWithin(carbon, 0.783, 0.003);
  });

  it('gives the pH back it was found from', () => {
    fc.assert(
      fc.property(water, (sample) => {
        expectWithin(phOf({ ...sample, inorganicCarbonMmolPerL: inorganicCarbonMmolPerL(sample) }), sample.ph, 1e-9);
      }),
    );
  });

  it('falls with pH: giving off dioxide raises it', () => {
    fc.assert(
      fc.property(water, (sample) => {
        expect(inorganicCarbonMmolPerL({ ...sample, ph: sample.ph + 0.1 })).toBeLessThan(
          inorganicCarbonMmolPerL(sample),
        );
      }),
    );
  });

  it('refuses a pH no such alkalinity can hold, and a carbon no pH fits', () => {
    expect(() => inorganicCarbonMmolPerL({ alkalinityMgCaCO3PerL: 2, ph: 10.5, temperatureC: 20 })).toThrow(
      InvalidValueError,
    );
    expect(() => phOf({ alkalinityMgCaCO3PerL: 100, inorganicCarbonMmolPerL: 900, temperatureC: 20 })).toThrow(
      'No pH from 4.5 to 11 fits this alkalinity.',
    );
    expect(() => carbonicPK1({ temperatureC: 51 })).toThrow('water temperature, °C: 51, outside 0 to 50.');
  });
});

describe('mixed water', () => {
  const pond = { temperatureC: 22, ph: 8.4, alkalinityMgCaCO3PerL: 100 };
  const tap = { temperatureC: 16, ph: 7.2, alkalinityMgCaCO3PerL: 60 };

  it('does not take the mean of the pH: a fifth of tap of 7.2 moves 8.4 to 8.00, not 8.16 (derived)', () => {
    const mixed = mixedWater({ pond, source: tap, changeShare: 0.2 });
    expectWithin(mixed.temperatureC, 20.8, 1e-9);
    expectWithin(mixed.alkalinityMgCaCO3PerL, 92, 1e-9);
    expectWithin(mixed.ph, 8.0, 0.01);
  });

  it('closes alkalinity, carbon and heat to 1e-9', () => {
    fc.assert(
      fc.property(water, water, fc.double({ min: 0, max: 1, noNaN: true }), (old, added, changeShare) => {
        const mixed = mixedWater({ pond: old, source: added, changeShare });
        const share = (a: number, b: number) => (1 - changeShare) * a + changeShare * b;
        const carbon = share(inorganicCarbonMmolPerL(old), inorganicCarbonMmolPerL(added));
        expectWithin(mixed.alkalinityMgCaCO3PerL, share(old.alkalinityMgCaCO3PerL, added.alkalinityMgCaCO3PerL), 1e-9);
        expectWithin(mixed.temperatureC, share(old.temperatureC, added.temperatureC), 1e-9);
        expectWithin(inorganicCarbonMmolPerL(mixed), carbon, 1e-9 * Math.max(1, carbon));
      }),
    );
  });

  it('is the pond without a change, and the new water after a whole one', () => {
    fc.assert(
      fc.property(water, water, (old, added) => {
        expectWithin(mixedWater({ pond: old, source: added, changeShare: 0 }).ph, old.ph, 1e-9);
        expectWithin(mixedWater({ pond: old, source: added, changeShare: 1 }).ph, added.ph, 1e-9);
      }),
    );
  });

  it('keeps to the step of pH up to the share allowed, and uses all of it', () => {
    fc.assert(
      fc.property(water, water, fc.double({ min: 0, max: 1, noNaN: true }), (old, added, part) => {
        const largest = largestChangeShareByPh({ pond: old, source: added });
        const at = (changeShare: number) => Math.abs(mixedWater({ pond: old, source: added, changeShare }).phStep);
        expect(at(largest)).toBeLessThanOrEqual(0.3 + 1e-9);
        if (largest < 1) expectWithin(at(largest), 0.3, 1e-6);
        // Between two places searched the pH may bulge by a hair.
        expect(at(part * largest)).toBeLessThanOrEqual(0.3 + 0.01);
      }),
      { numRuns: 50 },
    );
  });

  it('asks for no larger a step than 0.5', () => {
    expect(() => largestChangeShareByPh({ pond, source: tap, largestPhStep: 0.6 })).toThrow(
      'largest change of pH: 0.6, outside 0.05 to 0.5.',
    );
  });
});
