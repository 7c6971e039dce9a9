import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import {
  circleAreaFromShorelineM2,
  meanDepthOfSoundingsM,
  planAreaM2,
} from '../../../src/core/hydraulics/plan-area.js';
import { ft2FromSquareMetres, ftFromM, metresFromFt } from '../../../src/core/units/length-units.js';
import examples from '../../published/pond-measuring-examples.json' with { type: 'json' };
import pumps from '../../published/pump-and-weir-examples.json' with { type: 'json' };
import { expectWithin, expectWithinShare } from '../../support/expect-within.js';

const FT2_PER_ACRE = 43_560;

describe('plan area', () => {
  it('reproduces the published areas of a rectangle and of a round pond by its shoreline', () => {
    const rectangle = examples.rows.find(({ id }) => id === 'G3')!;
    const round = examples.rows.find(({ id }) => id === 'G4')!;
    const areaM2 = planAreaM2({
      kind: 'rectangle',
      lengthM: metresFromFt(rectangle.lengthFt!),
      widthM: metresFromFt(rectangle.widthFt!),
    });
    expectWithin(ft2FromSquareMetres(areaM2) / FT2_PER_ACRE, rectangle.acres!, 0.0001);
    const roundM2 = circleAreaFromShorelineM2({ shorelineM: metresFromFt(round.shorelineFt!) });
    expectWithin(ft2FromSquareMetres(roundM2) / FT2_PER_ACRE, round.acres!, 0.001);
  });

  it('of a stadium lies between the ellipse and the rectangle of its sides, and as wide as long is a circle', () => {
    const side = fc.double({ min: 1, max: 20, noNaN: true });
    fc.assert(
      fc.property(side, side, (widthM, moreM) => {
        const lengthM = widthM + moreM;
        const of = (kind: 'rectangle' | 'ellipse' | 'stadium') => planAreaM2({ kind, lengthM, widthM });
        expect(of('stadium')).toBeGreaterThan(of('ellipse'));
        expect(of('stadium')).toBeLessThan(of('rectangle'));
        const round = planAreaM2({ kind: 'stadium', lengthM: widthM, widthM });
        expectWithinShare(round, planAreaM2({ kind: 'circle', diameterM: widthM }), 1e-12);
      }),
    );
  });

  it('of a stadium 2.06 times as long as wide is the 6.7 gal/ft³ of the trade, not so of others (derived)', () => {
    const factor = (ratio: number) => (7.48052 * planAreaM2({ kind: 'stadium', lengthM: ratio, widthM: 1 })) / ratio;
    expectWithin(factor(2.06), 6.7, 0.01);
    expect(Math.abs(factor(4) - 6.7)).toBeGreaterThan(0.3);
  });

  it('of a kidney of 20 by 15 and 10 ft is 225 sq ft (common practice)', () => {
    const row = pumps.rows.find(({ id }) => id === 'kidney')!;
    const areaM2 = planAreaM2({
      kind: 'kidney',
      lengthM: metresFromFt(row.lengthFt!),
      widthM: metresFromFt(row.widthFt!),
      otherWidthM: metresFromFt(row.otherWidthFt!),
    });
    expectWithin(ft2FromSquareMetres(areaM2), row.areaFt2!, 1e-9);
  });

  it('of a kidney grows with each lobe and stays inside the rectangle around it', () => {
    const side = fc.double({ min: 1, max: 20, noNaN: true });
    fc.assert(
      fc.property(side, side, side, (lengthM, widthM, otherWidthM) => {
        const areaM2 = planAreaM2({ kind: 'kidney', lengthM, widthM, otherWidthM });
        expect(areaM2).toBeLessThan(lengthM * Math.max(widthM, otherWidthM));
        expect(planAreaM2({ kind: 'kidney', lengthM, widthM, otherWidthM: otherWidthM + 1 })).toBeGreaterThan(areaM2);
      }),
    );
    expect(() => planAreaM2({ kind: 'kidney', lengthM: 4, widthM: 3, otherWidthM: Number.NaN })).toThrow(
      'width of the other lobe, m: NaN',
    );
  });

  it('is refused for a stadium wider than long, and for no size', () => {
    expect(() => planAreaM2({ kind: 'stadium', lengthM: 2, widthM: 3 })).toThrow('at least the width, 3 m');
    expect(() => planAreaM2({ kind: 'circle', diameterM: 0 })).toThrow('diameter, m: 0');
    expect(() => planAreaM2({ kind: 'measured-area', areaM2: Number.NaN })).toThrow('surface area, m²: NaN');
  });
});

describe('mean depth of soundings', () => {
  it('reproduces the published example, zeros at the banks counted', () => {
    const row = examples.rows.find(({ id }) => id === 'G5')!;
    expectWithin(ftFromM(meanDepthOfSoundingsM(row.soundingsFt!.map(metresFromFt))), row.meanDepthFt!, 0.05);
  });

  it('refuses none, and a depth below nothing', () => {
    expect(() => meanDepthOfSoundingsM([])).toThrow('Give at least one depth');
    expect(() => meanDepthOfSoundingsM([0, -1])).toThrow('sounding, m: -1');
  });
});
