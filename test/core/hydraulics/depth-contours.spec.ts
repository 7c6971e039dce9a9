import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { contourVolumeM3, frustumVolumeM3, prismoidVolumeM3 } from '../../../src/core/hydraulics/depth-contours.js';
import { metresFromFt, squareMetresFromFt2 } from '../../../src/core/units/length-units.js';
import { expectWithin, expectWithinShare } from '../../support/expect-within.js';

const every = (stepM: number, areasM2: readonly number[]) =>
  areasM2.map((areaM2, i) => ({ depthM: stepM * (i + 1), areaM2 }));

describe('volume of depth contours', () => {
  it('of 20, 15, 9, 4 and 0 m² every 0.25 m is 9.50 m³ by Simpson (derived, G12)', () => {
    const contours = every(0.25, [15, 9, 4, 0]);
    expectWithinShare(contourVolumeM3({ surfaceAreaM2: 20, contours }), 9.5, 1e-9);
  });

  it('takes average end areas for an odd number of layers or uneven ones (derived, G13)', () => {
    const single = contourVolumeM3({ surfaceAreaM2: 12, contours: [{ depthM: 0.9, areaM2: 6 }] });
    expectWithin(single, 8.1, 1e-9);
    const uneven = contourVolumeM3({
      surfaceAreaM2: 12,
      contours: [
        { depthM: 0.3, areaM2: 8 },
        { depthM: 0.9, areaM2: 4 },
      ],
    });
    expectWithin(uneven, 0.3 * 10 + 0.6 * 6, 1e-9);
  });

  it('finds a cone and a half ball, which Simpson gives exactly', () => {
    const depths = [0.25, 0.5, 0.75, 1];
    const cone = depths.map((depthM) => ({ depthM, areaM2: 9 * (1 - depthM) ** 2 }));
    const ball = depths.map((depthM) => ({ depthM, areaM2: Math.PI * (1 - depthM ** 2) }));
    expectWithin(contourVolumeM3({ surfaceAreaM2: 9, contours: cone }), 3, 1e-9);
    expectWithin(contourVolumeM3({ surfaceAreaM2: Math.PI, contours: ball }), (2 / 3) * Math.PI, 1e-9);
  });

  it('lies between nothing and the box around it, and equals the box for straight walls', () => {
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    const step = fc.double({ min: 0.05, max: 0.6, noNaN: true });
    fc.assert(
      fc.property(fc.array(fc.tuple(share, step), { minLength: 1, maxLength: 8 }), (layers) => {
        let areaM2 = 20;
        let depthM = 0;
        const contours = layers.map(([left, heightM]) => {
          areaM2 *= left;
          depthM += heightM;
          return { depthM, areaM2 };
        });
        const volumeM3 = contourVolumeM3({ surfaceAreaM2: 20, contours });
        expect(volumeM3).toBeGreaterThan(0);
        expect(volumeM3).toBeLessThanOrEqual(20 * depthM * (1 + 1e-9));
        const straight = contours.map((contour) => ({ ...contour, areaM2: 20 }));
        expectWithinShare(contourVolumeM3({ surfaceAreaM2: 20, contours: straight }), 20 * depthM, 1e-9);
      }),
    );
  });

  it('refuses contours upside down, wider below, or none', () => {
    const of = (contours: { depthM: number; areaM2: number }[]) => contourVolumeM3({ surfaceAreaM2: 10, contours });
    expect(() => of([])).toThrow('Give at least one');
    expect(() => of([{ depthM: 0.5, areaM2: 11 }])).toThrow('area inside a contour, m²: 11');
    expect(() => of(every(-0.1, [5]))).toThrow('depth of a contour, m: -0.1');
    expect(() => of([{ depthM: 0.5, areaM2: Number.NaN }])).toThrow('area inside a contour, m²: NaN');
  });
});

describe('solids', () => {
  it('frustum from 12 to 6 m² over 0.9 m holds 7.946 m³ (derived, G13)', () => {
    expectWithin(frustumVolumeM3({ topM2: 12, bottomM2: 6, heightM: 0.9 }), 7.9456, 0.0005);
  });

  it('prismoid of a dug pond 12 ft deep holds 3,612 cubic yards (from memory of Agriculture Handbook 590, G6)', () => {
    const volumeM3 = prismoidVolumeM3({
      topM2: squareMetresFromFt2(88 * 148),
      middleM2: squareMetresFromFt2(64 * 124),
      bottomM2: squareMetresFromFt2(40 * 100),
      heightM: metresFromFt(12),
    });
    expectWithin(volumeM3 / metresFromFt(3) ** 3, 3612.4, 1);
  });

  it('agree where the walls slope evenly', () => {
    const side = fc.double({ min: 0.5, max: 20, noNaN: true });
    fc.assert(
      fc.property(side, fc.double({ min: 0, max: 1, noNaN: true }), side, (topM, share, heightM) => {
        const bottomM = topM * share;
        const [topM2, bottomM2] = [topM ** 2, bottomM ** 2];
        const middleM2 = ((topM + bottomM) / 2) ** 2;
        const frustum = frustumVolumeM3({ topM2, bottomM2, heightM });
        expectWithinShare(prismoidVolumeM3({ topM2, middleM2, bottomM2, heightM }), frustum, 1e-9);
      }),
    );
  });
});
