import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { InvalidValueError } from '../../../src/core/errors.js';
import { meteredVolume, type PondShape, pondVolume } from '../../../src/core/hydraulics/pond-volume.js';
import { metresFromFt, squareMetresFromFt2 } from '../../../src/core/units/length-units.js';
import { usGalFromL } from '../../../src/core/units/volume-units.js';
import examples from '../../published/pond-measuring-examples.json' with { type: 'json' };
import { expectWithin, expectWithinShare } from '../../support/expect-within.js';

const rectangleFt = (lengthFt: number, widthFt: number) =>
  ({ kind: 'rectangle', lengthM: metresFromFt(lengthFt), widthM: metresFromFt(widthFt), rockShare: 0 }) as const;
const vertical = (depthFt: number) => ({ kind: 'vertical', depthM: metresFromFt(depthFt) }) as const;

describe('pond volume', () => {
  it('reproduces the example with a mean depth', () => {
    const row = examples.rows.find(({ id }) => id === 'G1')!;
    const meanDepthM = metresFromFt(row.meanDepthFt!);
    const shape = rectangleFt(row.lengthFt!, row.widthFt!);
    const { volumeL } = pondVolume({ ...shape, depth: { kind: 'average', meanDepthM, maxDepthM: 2 * meanDepthM } });
    // It counts 7.48 gal to the cubic foot, 0.007 % less than there are.
    expectWithinShare(usGalFromL(volumeL), row.volumeUsGal!, 0.0001);
  });

  it('reproduces the example with 0.4 of the deepest point', () => {
    const row = examples.rows.find(({ id }) => id === 'G2')!;
    const shape = rectangleFt(row.lengthFt!, row.widthFt!);
    const { volumeL } = pondVolume({ ...shape, depth: { kind: 'bowl', maxDepthM: metresFromFt(row.maxDepthFt!) } });
    expectWithinShare(usGalFromL(volumeL), row.volumeUsGal!, 0.0001);
  });

  it('of 3.2 acres, 12.5 ft at the dam, is 16 acre-feet (from memory of Agriculture Handbook 590, G7)', () => {
    const acreM2 = squareMetresFromFt2(43_560);
    const depth = { kind: 'bowl', maxDepthM: metresFromFt(12.5) } as const;
    const { volumeL } = pondVolume({ kind: 'measured-area', areaM2: 3.2 * acreM2, depth, rockShare: 0 });
    expectWithin(volumeL / 1000 / acreM2 / metresFromFt(1), 16, 0.1);
  });

  it('of 10 x 6 x 2 ft is 897.66 US gal, 3398 L (derived)', () => {
    const volume = pondVolume({ ...rectangleFt(10, 6), depth: vertical(2) });
    expectWithinShare(volume.volumeL, 3398, 0.001);
    expectWithinShare(usGalFromL(volume.volumeL), 897.66, 0.001);
    expect(volume).toMatchObject({ method: 'vertical-sides', volumeSigmaPct: 10 });
    expectWithin(volume.meanDepthM, volume.maxDepthM, 1e-12);
  });

  it('of a circle of 10 ft and 3 ft depth is 1762.6, of an ellipse of 12 x 8 x 2 ft 1128.0 US gal (derived)', () => {
    const circle: PondShape = { kind: 'circle', diameterM: metresFromFt(10), depth: vertical(3), rockShare: 0 };
    const ellipse: PondShape = { ...rectangleFt(12, 8), kind: 'ellipse', depth: vertical(2) };
    expectWithinShare(usGalFromL(pondVolume(circle).volumeL), 1762.6, 0.001);
    expectWithinShare(usGalFromL(pondVolume(ellipse).volumeL), 1128.0, 0.001);
  });

  it('with a shelf all round is summed level by level to 8.496 m³ (derived)', () => {
    const levels = [
      { areaM2: 12, heightM: 0.3 },
      { areaM2: 3.4 * 2.4, heightM: 0.6 },
    ];
    const shape: PondShape = {
      kind: 'rectangle',
      lengthM: 4,
      widthM: 3,
      depth: { kind: 'levels', levels },
      rockShare: 0,
    };
    const volume = pondVolume(shape);
    expectWithinShare(volume.volumeL, 8496, 0.001);
    expect(volume).toMatchObject({ method: 'shelf-by-shelf', volumeSigmaPct: 5, surfaceAreaM2: 12 });
    expectWithin(volume.maxDepthM, 0.9, 1e-12);
    expectWithin(volume.meanDepthM, 0.708, 1e-9);
    expect(pondVolume({ ...shape, rockShare: 0.1 }).volumeSigmaPct).toBe(5);
    expect(pondVolume({ ...shape, rockShare: 0.11 }).volumeSigmaPct).toBe(8);
  });

  it('from depth contours is summed by Simpson, 9.50 m³ of 20, 15, 9, 4 and 0 m² (derived)', () => {
    const contours = [15, 9, 4, 0].map((areaM2, i) => ({ depthM: 0.25 * (i + 1), areaM2 }));
    const shape: PondShape = { kind: 'measured-area', areaM2: 20, depth: { kind: 'contours', contours }, rockShare: 0 };
    const volume = pondVolume(shape);
    expectWithinShare(volume.volumeL, 9500, 1e-9);
    expect(volume).toMatchObject({ method: 'depth-contours', volumeSigmaPct: 5, surfaceAreaM2: 20, maxDepthM: 1 });
    expect(pondVolume({ ...shape, rockShare: 0.2 }).volumeSigmaPct).toBe(8);
    expect(() => pondVolume({ ...shape, depth: { kind: 'contours', contours: [] } })).toThrow('Give at least one');
  });

  it('loses a twentieth to rocks and pots unless told otherwise (common practice)', () => {
    const shape: PondShape = { kind: 'measured-area', areaM2: 10, depth: { kind: 'vertical', depthM: 1 } };
    expectWithin(pondVolume(shape).volumeL, 9500, 1e-9);
    expectWithin(pondVolume({ ...shape, rockShare: 0.35 }).volumeL, 6500, 1e-9);
  });

  it('tells the more uncertain method by a larger error (common practice)', () => {
    const area = { kind: 'measured-area', areaM2: 10 } as const;
    const average = pondVolume({ ...area, depth: { kind: 'average', meanDepthM: 0.6, maxDepthM: 1 } });
    const bowl = pondVolume({ ...area, depth: { kind: 'bowl', maxDepthM: 1 } });
    expect(average).toMatchObject({ method: 'average-depth', volumeSigmaPct: 20 });
    expect(bowl).toMatchObject({ method: 'bowl-rule', volumeSigmaPct: 25 });
  });

  it('is area times mean depth in every shape, and grows with the depth', () => {
    const side = fc.double({ min: 1, max: 30, noNaN: true });
    const plan = fc.oneof(
      fc.record({ kind: fc.constant('rectangle' as const), lengthM: side, widthM: side }),
      fc.record({ kind: fc.constant('ellipse' as const), lengthM: side, widthM: side }),
      fc.record({ kind: fc.constant('circle' as const), diameterM: side }),
      fc.record({ kind: fc.constant('measured-area' as const), areaM2: side }),
    );
    fc.assert(
      fc.property(
        plan,
        fc.double({ min: 0.3, max: 3, noNaN: true }),
        fc.double({ min: 0, max: 0.35, noNaN: true }),
        (shape, depthM, rockShare) => {
          const volume = pondVolume({ ...shape, depth: { kind: 'vertical', depthM }, rockShare });
          const deeper = pondVolume({ ...shape, depth: { kind: 'vertical', depthM: depthM + 0.1 }, rockShare });
          expectWithinShare(volume.surfaceAreaM2 * volume.meanDepthM * 1000, volume.volumeL, 1e-9);
          expect(deeper.volumeL).toBeGreaterThan(volume.volumeL);
        },
      ),
    );
  });

  it.each<[string, PondShape, string]>([
    [
      'no length',
      { kind: 'rectangle', lengthM: Number.NaN, widthM: 3, depth: { kind: 'vertical', depthM: 1 } },
      'length, m: NaN',
    ],
    ['no depth', { kind: 'circle', diameterM: 3, depth: { kind: 'vertical', depthM: 0 } }, 'depth, m: 0'],
    [
      'a mean below the deepest point',
      { kind: 'circle', diameterM: 3, depth: { kind: 'average', meanDepthM: 1.2, maxDepthM: 1 } },
      'mean depth, m: 1.2, outside 0.05 to 1.',
    ],
    [
      'nothing but rocks',
      { kind: 'circle', diameterM: 3, depth: { kind: 'vertical', depthM: 1 }, rockShare: 0.6 },
      'space taken by rocks, share: 0.6, outside 0 to 0.35.',
    ],
    [
      'a level wider than the one above',
      {
        kind: 'measured-area',
        areaM2: 10,
        depth: {
          kind: 'levels',
          levels: [
            { areaM2: 5, heightM: 0.3 },
            { areaM2: 8, heightM: 0.3 },
          ],
        },
      },
      'area of a level, m²: 8',
    ],
    [
      'no level',
      { kind: 'measured-area', areaM2: 10, depth: { kind: 'levels', levels: [] } },
      'Give at least one level',
    ],
  ])('refuses %s', (_, shape, message) => {
    expect(() => pondVolume(shape)).toThrow(message);
  });

  it('refuses a shape and a depth it does not know', () => {
    const depth = { kind: 'vertical', depthM: 1 };
    expect(() => pondVolume({ kind: 'heart', depth } as unknown as PondShape)).toThrow(InvalidValueError);
    expect(() => pondVolume({ kind: 'circle', diameterM: 3, depth: { kind: 'deep' } } as unknown as PondShape)).toThrow(
      'Use average, bowl, vertical, levels or contours.',
    );
  });
});

describe('metered volume', () => {
  it('is what went through the meter less what was lost', () => {
    const metered = meteredVolume({ meterStartL: 120_500, meterEndL: 131_300, lostL: 200 });
    expect(metered).toEqual({ volumeL: 10_600, method: 'metered-fill', volumeSigmaPct: 2 });
    expect(meteredVolume({ meterStartL: 0, meterEndL: 10_600 })).toEqual(metered);
  });

  it('refuses a meter that ran backwards, or nothing left', () => {
    expect(() => meteredVolume({ meterStartL: 100, meterEndL: 90 })).toThrow('meter at the end, L: 90');
    expect(() => meteredVolume({ meterStartL: 100, meterEndL: 200, lostL: 100 })).toThrow('Read the meter again.');
  });
});
