import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import {
  lampOutputShare,
  uvDoseMjPerCm2,
  uvEyeLimitS,
  uvPassesPerDay,
  uvWaterFactor,
} from '../../../src/core/uv/lamp.js';
import eyeLimit from '../../published/cie-187-uv-limit.json' with { type: 'json' };
import { expectWithin } from '../../support/expect-within.js';

describe('lamp output', () => {
  it('at 4,500 of 9,000 h and an end share of 0.8 is 0.90 (derived)', () => {
    expectWithin(lampOutputShare({ lampRunHours: 4500, lampRatedHours: 9000, lampEndOutputShare: 0.8 }), 0.9, 1e-6);
    expectWithin(lampOutputShare({ lampRunHours: 4500 }), 0.9, 1e-6);
  });

  it('begins at one, never rises, and ends at the end share', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 20_000, noNaN: true }),
        fc.double({ min: 0.3, max: 1, noNaN: true }),
        (lampRunHours, end) => {
          const lamp = { lampRunHours, lampRatedHours: 9000, lampEndOutputShare: end };
          expect(lampOutputShare({ ...lamp, lampRunHours: lampRunHours + 100 })).toBeLessThanOrEqual(
            lampOutputShare(lamp),
          );
          expectWithin(lampOutputShare({ ...lamp, lampRunHours: 0 }), 1, 0);
          expectWithin(lampOutputShare({ ...lamp, lampRunHours: 9000 + lampRunHours }), end, 1e-12);
        },
      ),
    );
  });

  it.each([
    [{ lampRunHours: -1 }, 'lamp hours, h: -1'],
    [{ lampRatedHours: 0 }, 'rated lamp hours, h: 0'],
    [{ lampEndOutputShare: Number.NaN }, 'output at the end of lamp life, share: NaN'],
  ])('refuses %j', (wrong, message) => {
    expect(() => lampOutputShare({ lampRunHours: 100, ...wrong })).toThrow(message);
  });
});

describe('ultraviolet dose of one pass', () => {
  const pass = { intensityMwPerCm2: 8, chamberVolumeL: 1.5, flowLPerH: 6000, waterFactor: 0.9 };

  it('of 8 mW/cm² through 1.5 L at 6,000 L/h is 6.48 mJ/cm² (derived)', () => {
    expectWithin(uvDoseMjPerCm2(pass), 6.48, 0.02);
    expectWithin(uvDoseMjPerCm2({ ...pass, lampOutputShare: 0.5 }), 3.24, 0.02);
    expectWithin(uvDoseMjPerCm2({ intensityMwPerCm2: 8, chamberVolumeL: 1.5, flowLPerH: 6000 }), 7.2, 1e-9);
  });

  it.each([
    [0.95, 0.95],
    [0.9, 0.902],
    [0.8, 0.807],
    [0.7, 0.715],
  ])('through 2 cm of water of transmittance %d keeps a share of %d (derived)', (transmittancePerCm, expected) => {
    expectWithin(uvWaterFactor({ transmittancePerCm, pathCm: 2 }), expected, 0.001);
  });

  it('loses nothing in clear water or without a path', () => {
    expect(uvWaterFactor({ transmittancePerCm: 1, pathCm: 5 })).toBe(1);
    expect(uvWaterFactor({ transmittancePerCm: 0.5, pathCm: 0 })).toBe(1);
  });

  it('halves when the flow doubles', () => {
    fc.assert(
      fc.property(fc.double({ min: 100, max: 20_000, noNaN: true }), (flowLPerH) => {
        const slow = uvDoseMjPerCm2({ ...pass, flowLPerH });
        expectWithin(uvDoseMjPerCm2({ ...pass, flowLPerH: 2 * flowLPerH }), slow / 2, 1e-9 * slow);
      }),
    );
  });

  it('is what lamp, sleeve and water each let through (derived)', () => {
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(share, share, share, (waterFactor, lampShare, sleeveFactor) => {
        const clean = uvDoseMjPerCm2({ ...pass, waterFactor: 1 });
        expectWithin(
          uvDoseMjPerCm2({ ...pass, waterFactor, lampOutputShare: lampShare, sleeveFactor }),
          clean * waterFactor * lampShare * sleeveFactor,
          1e-9,
        );
      }),
    );
    expect(() => uvDoseMjPerCm2({ ...pass, sleeveFactor: 1.1 })).toThrow('light through the sleeve, share: 1.1');
  });

  it('comes 24 times a day at one turnover an hour', () => {
    expectWithin(uvPassesPerDay({ flowLPerH: 12_000, volumeL: 12_000 }), 24, 1e-12);
    expect(() => uvPassesPerDay({ flowLPerH: 100, volumeL: 0 })).toThrow('pond volume, L: 0');
  });

  it('is refused without flow', () => {
    expect(() => uvDoseMjPerCm2({ ...pass, flowLPerH: 0 })).toThrow('flow, L/h: 0');
  });
});

describe('light on eyes and skin', () => {
  it.each(eyeLimit.rows)(
    'of 1 mW/cm² reaches the limit of $limitMjPerCm2 mJ/cm² in 6 s (U04)',
    ({ limitMjPerCm2, hours }) => {
      expectWithin(uvEyeLimitS({ intensityMwPerCm2: 1 }), limitMjPerCm2, 0.01);
      // 0.21 µW/cm² all day long.
      expectWithin(uvEyeLimitS({ intensityMwPerCm2: 0.00021 }) / 3600, hours, 0.1);
    },
  );

  it('is refused where there is none', () => {
    expect(() => uvEyeLimitS({ intensityMwPerCm2: 0 })).toThrow('UV intensity, mW/cm²: 0');
  });
});
