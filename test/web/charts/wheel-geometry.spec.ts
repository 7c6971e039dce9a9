import { describe, expect, it } from '@jest/globals';
import { civilDay } from '../../../src/core/units/civil-day.js';
import { px } from '../../../src/web/charts/chart-figures.js';
import { angleOfDay, arc, monthSpan, placeMarks, point, textArc } from '../../../src/web/charts/wheel-geometry.js';

/** An angle inside one turn. */
const turned = (angle: number) => ((angle % 360) + 360) % 360;

describe('angleOfDay', () => {
  // a = 360 (doy - 1) / N + 180, N = 365 or 366, worked by hand.
  it.each([
    { day: '2026-01-01', angle: 180 },
    { day: '2026-07-01', angle: 358.521 },
    { day: '2026-10-05', angle: 93.205 },
    { day: '2024-12-31', angle: 179.016 },
    { day: '2024-03-01', angle: 239.016 },
  ])('puts $day at $angle degrees north of the equator', ({ day, angle }) => {
    expect(turned(angleOfDay(43)(civilDay(day)))).toBeCloseTo(angle, 2);
  });

  it('has January on top south of the equator', () => {
    expect(turned(angleOfDay(-37.8)(civilDay('2026-01-01')))).toBeCloseTo(0, 6);
    expect(turned(angleOfDay(-37.8)(civilDay('2026-07-01')))).toBeCloseTo(178.521, 2);
  });

  it('grows with every day, also over the end of a leap year', () => {
    const at = angleOfDay(43);
    for (let day = civilDay('2023-12-20'); day < civilDay('2025-01-20'); day++) {
      const step = at((day + 1) as typeof day) - at(day);
      expect(step).toBeGreaterThan(0.98);
      expect(step).toBeLessThan(0.99);
    }
  });
});

describe('point', () => {
  it('stands above the centre at 0 degrees and to its right at 90', () => {
    expect(point(100, 0)).toEqual({ x: 220, y: 120 });
    expect(point(100, 90)).toEqual({ x: 320, y: 220 });
  });
});

describe('px', () => {
  it('refuses what is no number instead of drawing NaN', () => {
    expect(() => px(Number.NaN)).toThrow(/NaN/);
    expect(() => px(Number.POSITIVE_INFINITY)).toThrow(/Infinity/);
  });

  it('has no negative zero', () => {
    expect(Object.is(px(-0.01), 0)).toBe(true);
  });
});

describe('arc', () => {
  it('takes the long way only beyond half a turn', () => {
    expect(arc(93, 10, 100)).toMatch(/A93 93 0 0 1/);
    expect(arc(93, 10, 200)).toMatch(/A93 93 0 1 1/);
  });
});

describe('textArc', () => {
  it('turns the path round in the lower half, further out, so that no text stands on its head', () => {
    expect(textArc(167.6, 20, 24, 7.2)).toMatch(/A167.6 167.6 0 0 1/);
    expect(textArc(167.6, 180, 24, 7.2)).toMatch(/A174.8 174.8 0 0 0/);
  });
});

describe('monthSpan', () => {
  it('is the month of this year until its 16th has passed, then that of the next', () => {
    expect(monthSpan(10, civilDay('2026-10-05')).from).toBe(civilDay('2026-10-01'));
    expect(monthSpan(10, civilDay('2026-10-17')).from).toBe(civilDay('2027-10-01'));
  });
});

describe('placeMarks', () => {
  const lanes = [191, 209] as const;

  it('keeps a mark in the first lane while there is room', () => {
    const placed = placeMarks(
      [
        { of: 'a', angle: 0 },
        { of: 'b', angle: 30 },
      ],
      lanes,
    );
    expect(placed.map(({ radius }) => radius)).toEqual([191, 191]);
  });

  it('gives a mark that comes too near the second lane', () => {
    const placed = placeMarks(
      [
        { of: 'a', angle: 0 },
        { of: 'b', angle: 2 },
      ],
      lanes,
    );
    expect(placed.map(({ radius }) => radius)).toEqual([191, 209]);
  });

  it('counts the distance over the end of the turn', () => {
    const placed = placeMarks(
      [
        { of: 'a', angle: 359 },
        { of: 'b', angle: 361 },
      ],
      lanes,
    );
    expect(placed.map(({ radius }) => radius)).toEqual([191, 209]);
  });

  it('lets no two of twenty marks on one day cover each other', () => {
    const placed = placeMarks(
      Array.from({ length: 20 }, (_, of) => ({ of, angle: 50 })),
      lanes,
    );
    for (const a of placed) {
      for (const b of placed) {
        if (a === b || a.radius !== b.radius) continue;
        const apart = Math.hypot(
          point(a.radius, a.angle).x - point(b.radius, b.angle).x,
          point(a.radius, a.angle).y - point(b.radius, b.angle).y,
        );
        expect(apart).toBeGreaterThanOrEqual(20.3);
      }
    }
  });
});
