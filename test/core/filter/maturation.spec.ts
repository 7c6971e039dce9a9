import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import {
  filterMaturityShare,
  INOCULATED_SHARE,
  NEW_FILTER_SHARE,
  RIPE_SHARE,
  ripeAfterDays,
} from '../../../src/core/filter/maturation.js';
import { runInDays } from '../../../src/core/filter/run-in.js';
import durations from '../../published/run-in-durations.json' with { type: 'json' };
import { expectWithin } from '../../support/expect-within.js';

const evenWater = (temperatureC: number, days: number) => new Array<number>(days).fill(temperatureC);

describe('ripening of a new filter', () => {
  it.each([
    [10, 9.8],
    [15, 7.0],
    [20, 5.0],
    [25, 3.6],
  ])('at %d °C takes %d weeks (B-4 before its floor, derived)', (temperatureC, weeks) => {
    expectWithin(ripeAfterDays({ temperatureC }) / 7, weeks, 0.1);
  });

  it('takes half the time with a third of live media', () => {
    expectWithin(
      ripeAfterDays({ temperatureC: 20, startShare: INOCULATED_SHARE }) / ripeAfterDays({ temperatureC: 20 }),
      0.5,
      0.01,
    );
    expect(ripeAfterDays({ temperatureC: 20, startShare: 1 })).toBe(0);
  });

  it.each(durations.rows)('lies in what is printed: $said', ({ fromDays, toDays, temperatureC }) => {
    for (let waterC = temperatureC[0]!; waterC <= temperatureC[1]!; waterC++) {
      expect(ripeAfterDays({ temperatureC: waterC })).toBeGreaterThanOrEqual(fromDays);
      expect(ripeAfterDays({ temperatureC: waterC })).toBeLessThanOrEqual(toDays);
    }
  });

  it('is never planned with fewer days than it takes', () => {
    fc.assert(
      fc.property(fc.double({ min: 5, max: 35, noNaN: true }), (temperatureC) => {
        expect(runInDays({ temperatureC })).toBeGreaterThanOrEqual(ripeAfterDays({ temperatureC }) - 1e-9);
      }),
    );
  });

  it('after 35 days at 20 °C has reached 0.95, at 10 °C 0.32 (derived)', () => {
    expectWithin(filterMaturityShare({ temperaturesC: evenWater(20, 35) }), RIPE_SHARE, 1e-9);
    expectWithin(filterMaturityShare({ temperaturesC: evenWater(10, 35) }), 0.32, 0.005);
    expectWithin(filterMaturityShare({ temperaturesC: [] }), NEW_FILTER_SHARE, 1e-12);
    expect(filterMaturityShare({ temperaturesC: evenWater(20, 5), startShare: 1 })).toBe(1);
  });

  it('only rises, faster in warmer water, stays below one, and does not care for the order of the days', () => {
    const days = fc.array(fc.double({ min: 0, max: 30, noNaN: true }), { minLength: 1, maxLength: 120 });
    fc.assert(
      fc.property(days, fc.double({ min: 0.001, max: 0.9, noNaN: true }), (temperaturesC, startShare) => {
        const share = filterMaturityShare({ temperaturesC, startShare });
        expect(share).toBeGreaterThanOrEqual(startShare);
        expect(share).toBeLessThanOrEqual(1);
        const reversed = filterMaturityShare({ temperaturesC: [...temperaturesC].reverse(), startShare });
        expectWithin(reversed, share, 1e-9);
        const warmer = temperaturesC.map((temperatureC) => temperatureC + 2);
        expect(filterMaturityShare({ temperaturesC: warmer, startShare })).toBeGreaterThanOrEqual(share);
      }),
    );
  });

  it.each([
    [{ startShare: 0 }, 'ripeness at the start, share: 0, outside 0.001 to 1.'],
    [{ temperaturesC: [20, Number.NaN] }, 'water temperature, °C: NaN'],
  ])('refuses %j', (wrong, message) => {
    expect(() => filterMaturityShare({ temperaturesC: [20], ...wrong })).toThrow(message);
  });
});
