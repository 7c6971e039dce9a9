import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import type { Species } from '../../../src/core/care/pond-facts.js';
import { judgeStock } from '../../../src/core/stock/stock-judgement.js';
import { stockVerdict } from '../../../src/core/stock/stocking.js';
import { cmFromIn } from '../../../src/core/units/length-units.js';
import { L_PER_US_GAL } from '../../../src/core/units/volume-units.js';
import rules from '../../published/stocking-rules.json' with { type: 'json' };
import { expectWithin } from '../../support/expect-within.js';

const tenKoi = [{ species: 'koi', count: 10, lengthCm: 50 }] as const;
const strong = { mediaAreaM2: 300, oxygenSupplyGPerH: 100 };

describe('the verdict on a stock (common practice)', () => {
  it('of ten koi of 50 cm in 15 m³ is full, by the water, at 1.38 kg/m³ (S-1, derived)', () => {
    const judged = judgeStock({ stock: tenKoi, volumeL: 15_000, ...strong });
    expect(judged.verdict).toBe('full');
    expect(judged.limiting.limit).toBe('water');
    expectWithin(judged.limiting.load, 1.38, 0.005);
    expectWithin(judged.totalKg, 20.7, 0.05);
  });

  it('names the filter where it runs out first', () => {
    // 20.7 kg x 1.2 % x 0.35 x 0.092 = 8.0 g N a day; 15 m² at 25 °C take 6.3.
    const judged = judgeStock({ stock: tenKoi, volumeL: 60_000, ...strong, mediaAreaM2: 15 });
    expect(judged.verdict).toBe('over');
    expect(judged.limiting.limit).toBe('filter');
    expectWithin(judged.limiting.load, 8.0, 0.05);
    expectWithin(judged.limiting.capacity, 6.31, 0.03);
  });

  it('names oxygen where it runs out first', () => {
    const judged = judgeStock({ stock: tenKoi, volumeL: 60_000, ...strong, oxygenSupplyGPerH: 2 });
    expect(judged.verdict).toBe('far-over');
    expect(judged.limiting.limit).toBe('oxygen');
  });

  it('says what nobody knows, and judges by the rest', () => {
    const judged = judgeStock({ stock: tenKoi, volumeL: 60_000, mediaAreaM2: null, oxygenSupplyGPerH: null });
    expect(judged.unknown).toEqual(['filter', 'oxygen']);
    expect(judged).toMatchObject({ verdict: 'comfortable', limiting: { limit: 'water' } });
  });

  it('counts turtles in, for water and filter, but lets them breathe air', () => {
    const turtles = [{ species: 'slider-turtle', count: 6, lengthCm: 20 }] as const;
    const judged = judgeStock({ stock: turtles, volumeL: 5000, ...strong });
    expectWithin(judged.limiting.load, 6 / 5, 1e-9);
    expect(judged.measures.map(({ limit }) => limit)).toEqual(['water', 'filter']);
    expect(judged.unknown).toEqual([]);
    expectWithin(judged.measures[1]!.load, 60 * 0.35 * 0.092, 1e-9);
    const both = judgeStock({ stock: [...turtles, ...tenKoi], volumeL: 5000, ...strong });
    expect(both.limiting.load).toBeGreaterThan(judged.limiting.load);
  });

  it('of an empty pond is comfortable, even without a filter', () => {
    const empty = judgeStock({ stock: [], volumeL: 5000, mediaAreaM2: 0, oxygenSupplyGPerH: 0 });
    expect(empty).toMatchObject({ verdict: 'comfortable', totalKg: 0, comfortableKg: null });
    const bare = judgeStock({ stock: tenKoi, volumeL: 500_000, mediaAreaM2: 0, oxygenSupplyGPerH: 10 });
    expect(bare).toMatchObject({ verdict: 'far-over', limiting: { limit: 'filter' }, comfortableKg: 0 });
  });

  const group = fc.record({
    species: fc.constantFrom<Species>('koi', 'goldfish', 'other-fish', 'slider-turtle'),
    count: fc.integer({ min: 1, max: 30 }),
    lengthCm: fc.integer({ min: 5, max: 40 }),
  });
  const pond = fc.record({
    volumeL: fc.integer({ min: 1000, max: 100_000 }),
    mediaAreaM2: fc.option(fc.integer({ min: 1, max: 400 }), { nil: null }),
    oxygenSupplyGPerH: fc.option(fc.integer({ min: 1, max: 100 }), { nil: null }),
  });
  const RANK = ['comfortable', 'full', 'over', 'far-over'];

  it('never grows milder when stock is added, and never graver when water, filter or air is', () => {
    fc.assert(
      fc.property(fc.array(group, { minLength: 1, maxLength: 4 }), group, pond, (stock, more, facts) => {
        const here = judgeStock({ stock, ...facts });
        const rank = (judged: typeof here) => RANK.indexOf(judged.verdict);
        expect(rank(judgeStock({ stock: [...stock, more], ...facts }))).toBeGreaterThanOrEqual(rank(here));
        const larger = {
          volumeL: facts.volumeL * 2,
          mediaAreaM2: facts.mediaAreaM2 && facts.mediaAreaM2 * 2,
          oxygenSupplyGPerH: facts.oxygenSupplyGPerH && facts.oxygenSupplyGPerH * 2,
        };
        expect(rank(judgeStock({ stock, ...larger }))).toBeLessThanOrEqual(rank(here));
      }),
    );
  });

  it('is the gravest of its measures, and by the water alone the density rule', () => {
    fc.assert(
      fc.property(fc.array(group, { minLength: 1, maxLength: 4 }), pond, (stock, facts) => {
        const judged = judgeStock({ stock, ...facts });
        const gravest = Math.max(...judged.measures.map(({ verdict }) => RANK.indexOf(verdict)));
        expect(RANK.indexOf(judged.verdict)).toBe(gravest);
        expect(judged.measures[0]?.verdict).toBe(
          stockVerdict({ totalKg: judged.totalKg, volumeL: facts.volumeL }).verdict,
        );
        const hasFish = stock.some(({ species }) => species !== 'slider-turtle');
        expect(judged.measures.length + judged.unknown.length).toBe(hasFish ? 3 : 2);
      }),
    );
  });

  it('refuses what cannot be', () => {
    expect(() => judgeStock({ stock: tenKoi, volumeL: Number.NaN, ...strong })).toThrow('pond volume, L: NaN');
    expect(() => judgeStock({ stock: tenKoi, volumeL: 1000, ...strong, oxygenSupplyGPerH: -1 })).toThrow(
      'oxygen from aeration, g/h: -1',
    );
  });
});

describe("a veterinarian's rule of inches to ten gallons", () => {
  it.each([
    [1, 14.9],
    [0.5, 29.8],
    [2, 7.5],
  ])('of %d in is %d L to the centimetre (S-2)', (inches, lPerCm) => {
    expect(rules.rows.map(({ inchesPer10UsGal }) => inchesPer10UsGal)).toContain(inches);
    expectWithin((10 * L_PER_US_GAL) / cmFromIn(inches), lPerCm, 0.1);
  });
});
