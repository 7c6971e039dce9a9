import { describe, expect, it } from '@jest/globals';
import { gaussianAt, noiseKey, normalQuantile, uniformAt } from '../../../src/core/climate/counter-noise.js';
import { expectWithin } from '../../support/expect-within.js';

describe('noise by number', () => {
  /** Quantiles of the standard normal distribution as in every statistical table. */
  it.each([
    [0.5, 0],
    [0.8413447461, 1],
    [0.9, 1.2815515655],
    [0.95, 1.644853627],
    [0.975, 1.9599639845],
    [0.99, 2.326347874],
    [0.999, 3.0902323062],
  ])('has the quantile of %d at %d, and mirrored below', (probability, value) => {
    expectWithin(normalQuantile(probability), value, 1e-8);
    expectWithin(normalQuantile(1 - probability), -value, 1e-8);
  });

  it('gives the same value for the same key and index, another for others', () => {
    const key = noiseKey(7, 3);
    expect(gaussianAt(key, 20_000)).toBe(gaussianAt(noiseKey(7, 3), 20_000));
    expect(gaussianAt(key, 20_000)).not.toBe(gaussianAt(key, 20_001));
    expect(noiseKey(7, 4)).not.toBe(key);
    expect(noiseKey(8, 3)).not.toBe(key);
  });

  it('is evenly spread, of unit variance, and has no memory from one index or stream to the next', () => {
    const n = 20_000;
    const values = Array.from({ length: n }, (_, i) => gaussianAt(noiseKey(1, 0), i));
    const other = Array.from({ length: n }, (_, i) => gaussianAt(noiseKey(1, 1), i));
    const mean = (of: readonly number[]) => of.reduce((sum, value) => sum + value, 0) / n;
    expectWithin(mean(values), 0, 0.03);
    expectWithin(mean(values.map((value) => value * value)), 1, 0.04);
    expectWithin(mean(values.map((value, i) => value * (values[i + 1] ?? 0))), 0, 0.03);
    expectWithin(mean(values.map((value, i) => value * other[i]!)), 0, 0.03);
    const uniform = Array.from({ length: n }, (_, i) => uniformAt(noiseKey(2, 0), i));
    expectWithin(mean(uniform.map((value) => Number(value < 0.1))), 0.1, 0.01);
    expect(uniform.every((value) => value > 0 && value < 1)).toBe(true);
  });
});
