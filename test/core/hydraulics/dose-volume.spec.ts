import { describe, expect, it } from '@jest/globals';
import { doseVolumeL, isVolumeUncertain, UNKNOWN_VOLUME_SIGMA_PCT } from '../../../src/core/hydraulics/dose-volume.js';
import { expectWithin } from '../../support/expect-within.js';

describe('volume a dose is for (common practice)', () => {
  it.each([
    [10, 'correction', 10_000],
    [10, 'first-fill', 10_000],
    [10.5, 'correction', 8950],
    [12, 'correction', 8800],
    [12, 'first-fill', 11_200],
    [UNKNOWN_VOLUME_SIGMA_PCT, 'correction', 7500],
    [UNKNOWN_VOLUME_SIGMA_PCT, 'first-fill', 12_500],
  ] as const)('with an error of %d %% for a %s is %d L of 10,000', (volumeSigmaPct, purpose, expected) => {
    expectWithin(doseVolumeL({ volumeL: 10_000, volumeSigmaPct, purpose }), expected, 1e-9);
  });

  it('should be measured first above 15 %', () => {
    expect(isVolumeUncertain({ volumeSigmaPct: 15 })).toBe(false);
    expect(isVolumeUncertain({ volumeSigmaPct: 15.1 })).toBe(true);
    expect(() => isVolumeUncertain({ volumeSigmaPct: -1 })).toThrow('error of the volume, %: -1');
  });
});
