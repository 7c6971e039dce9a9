import { describe, expect, it } from '@jest/globals';
import { OutOfRangeError } from '../../../src/core/errors.js';
import { liveCrossings } from '../../../src/core/thermal/live-crossing.js';
import { addDays, civilDay } from '../../../src/core/units/civil-day.js';

const FIRST = civilDay('2026-09-01');
const days = (...spells: [count: number, value: number][]) =>
  spells.flatMap(([count, value]) => Array<number>(count).fill(value));
const falls = (water7dMeanC: number[]) =>
  liveCrossings({ water7dMeanC, firstDay: FIRST, thresholdC: 10, direction: 'falling' }).map(
    ({ crossedOn, confirmedOn }) => [crossedOn - FIRST, confirmedOn - FIRST],
  );
const rises = (water7dMeanC: number[]) =>
  liveCrossings({ water7dMeanC, firstDay: FIRST, thresholdC: 10, direction: 'rising' }).map(
    ({ crossedOn, confirmedOn }) => [crossedOn - FIRST, confirmedOn - FIRST],
  );

describe('live crossing', () => {
  it('is confirmed on the fifth day below the threshold itself, on the seventh above', () => {
    expect(falls(days([10, 10.1], [20, 9.9]))).toEqual([[10, 14]]);
    expect(rises(days([10, 9.9], [20, 10.1]))).toEqual([[10, 16]]);
  });

  it('is not made by four days, nor by six when rising', () => {
    expect(falls(days([10, 11], [4, 9], [10, 11]))).toEqual([]);
    expect(rises(days([10, 9], [6, 11], [10, 9]))).toEqual([]);
  });

  it('does not fire again until the mean went 2.0 °C back', () => {
    expect(falls(days([10, 12], [10, 9], [20, 11.9], [20, 9]))).toEqual([[10, 14]]);
    expect(falls(days([10, 12], [10, 9], [20, 12], [20, 9]))).toEqual([
      [10, 14],
      [40, 44],
    ]);
  });

  it('does not fire again within ten days, however far the mean went back', () => {
    // Confirmed on day 14; back above 12 °C for three days, below again from day 18: fires once ten days have passed.
    expect(falls(days([10, 12], [5, 9], [3, 13], [20, 9]))).toEqual([
      [10, 14],
      [18, 24],
    ]);
  });

  it('needs a day on the near side first, and an unbroken run', () => {
    expect(falls(days([30, 8]))).toEqual([]);
    expect(falls([...days([5, 12], [3, 9]), Number.NaN, ...days([3, 9])])).toEqual([]);
  });

  it('never knows what follows: a longer series changes nothing already confirmed', () => {
    const series = days([10, 12], [8, 9], [15, 12.5], [9, 9.5], [30, 13]);
    const whole = falls(series);
    for (let length = 1; length <= series.length; length++) {
      expect(falls(series.slice(0, length))).toEqual(whole.filter(([, confirmed]) => confirmed! < length));
    }
    expect(whole.length).toBeGreaterThan(1);
  });

  it('refuses an absurd threshold', () => {
    const series = { water7dMeanC: [1], firstDay: addDays(FIRST, 0), direction: 'rising' as const };
    expect(() => liveCrossings({ ...series, thresholdC: Number.NaN })).toThrow(OutOfRangeError);
  });
});
