import { describe, expect, it } from '@jest/globals';
import { stockBiomass } from '../../../src/core/stock/fish-mass.js';
import { stockVerdict } from '../../../src/core/stock/stocking.js';
import { expectWithin } from '../../support/expect-within.js';

describe('stocking (common practice)', () => {
  it('of ten koi of 50 cm in 15 m³ is full at 1.38 kg/m³ (derived)', () => {
    const { totalKg } = stockBiomass([{ species: 'koi', count: 10, lengthCm: 50 }]);
    const stocking = stockVerdict({ totalKg, volumeL: 15_000 });
    expect(stocking.verdict).toBe('full');
    expectWithin(stocking.kgPerM3, 1.38, 0.005);
  });

  it.each([
    [0, 'comfortable'],
    [10, 'comfortable'],
    [10.1, 'full'],
    [20, 'full'],
    [20.1, 'over'],
    [40, 'over'],
    [40.1, 'far-over'],
  ])('of %d kg in 10 m³ is %s', (totalKg, verdict) => {
    expect(stockVerdict({ totalKg, volumeL: 10_000 }).verdict).toBe(verdict);
  });

  it('refuses a pond without water', () => {
    expect(() => stockVerdict({ totalKg: 1, volumeL: 0 })).toThrow('pond volume, L: 0');
    expect(() => stockVerdict({ totalKg: Number.NaN, volumeL: 1000 })).toThrow('live mass, kg: NaN');
  });
});
