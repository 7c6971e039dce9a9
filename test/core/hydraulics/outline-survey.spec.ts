import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { areaFromWidthsM2, outlineAreaM2 } from '../../../src/core/hydraulics/outline-survey.js';
import { expectWithin, expectWithinShare } from '../../support/expect-within.js';

const point = (xM: number, yM: number) => ({ xM, yM });

describe('outline survey', () => {
  it('finds a rectangle either way round, and half of it for its triangle (derived)', () => {
    const corners = [point(0, 0), point(4, 0), point(4, 3), point(0, 3)];
    expect(outlineAreaM2(corners)).toBe(12);
    expect(outlineAreaM2([...corners].reverse())).toBe(12);
    expect(outlineAreaM2(corners.slice(0, 3))).toBe(6);
  });

  it('does not depend on where the first stake stands', () => {
    const metre = fc.double({ min: -20, max: 20, noNaN: true });
    fc.assert(
      fc.property(fc.array(fc.tuple(metre, metre), { minLength: 3, maxLength: 12 }), metre, metre, (all, x, y) => {
        const here = outlineAreaM2(all.map(([xM, yM]) => point(xM, yM)));
        const there = outlineAreaM2(all.map(([xM, yM]) => point(xM + x, yM + y)));
        expectWithin(there, here, 1e-9);
      }),
    );
  });

  it('finds a circle from its widths to a few percent, and better with closer ones', () => {
    const circle = (steps: number) =>
      areaFromWidthsM2({
        spacingM: 4 / steps,
        widthsM: Array.from(
          { length: steps + 1 },
          (_, i) => 2 * Math.sqrt(Math.max(0, 4 - ((4 * i) / steps - 2) ** 2)),
        ),
      });
    expectWithinShare(circle(8), 4 * Math.PI, 0.03);
    expectWithinShare(circle(9), 4 * Math.PI, 0.06);
    expect(Math.abs(circle(40) - 4 * Math.PI)).toBeLessThan(Math.abs(circle(8) - 4 * Math.PI));
  });

  it('refuses a line, two widths, and no spacing', () => {
    expect(() => outlineAreaM2([point(0, 0), point(1, 1)])).toThrow('at least three');
    expect(() => outlineAreaM2([point(0, 0), point(1, Number.NaN), point(1, 1)])).toThrow('corner, m: NaN');
    expect(() => areaFromWidthsM2({ spacingM: 0.5, widthsM: [1, 2] })).toThrow('at least three');
    expect(() => areaFromWidthsM2({ spacingM: 0, widthsM: [1, 2, 1] })).toThrow('spacing of the widths, m: 0');
  });
});
