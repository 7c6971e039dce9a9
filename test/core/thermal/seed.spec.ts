import { describe, expect, it } from '@jest/globals';
import { ensembleSeed } from '../../../src/core/thermal/seed.js';

describe('ensemble seed', () => {
  it('is the same for the same pond and station, another for any other', () => {
    const seed = ensembleSeed('pond-1', 'wmo-72658');
    expect(ensembleSeed('pond-1', 'wmo-72658')).toBe(seed);
    expect(ensembleSeed('pond-2', 'wmo-72658')).not.toBe(seed);
    expect(ensembleSeed('pond-1', 'wmo-72659')).not.toBe(seed);
    expect(ensembleSeed('pond-1w', 'mo-72658')).not.toBe(seed);
  });

  it('is a 32-bit whole number', () => {
    const seed = ensembleSeed('Teich Müller', 'x');
    expect(Number.isInteger(seed)).toBe(true);
    expect(seed).toBeGreaterThanOrEqual(0);
    expect(seed).toBeLessThan(2 ** 32);
  });
});
