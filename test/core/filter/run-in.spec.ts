import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import type { ReadingQuantity } from '../../../src/core/care/care-rule.js';
import {
  DAYS_WITHOUT_LIVESTOCK,
  firstStockShare,
  mayStartRunIn,
  mayStock,
  runInDays,
  STOCK_STAGE_GAP_DAYS,
} from '../../../src/core/filter/run-in.js';
import { expectWithin } from '../../support/expect-within.js';

const HOUR_MS = 3_600_000;

function reading(quantity: ReadingQuantity, value: number, atHours: number) {
  return { quantity, value, atMs: Date.UTC(2026, 4, 1) + atHours * HOUR_MS };
}

/** One set of readings in order, at an hour. */
function goodAt(atHours: number) {
  return [
    reading('total-ammonia', 0.24, atHours),
    reading('nitrite', 0.09, atHours),
    reading('total-chlorine', 0.01, atHours),
  ];
}

describe('run-in (common practice)', () => {
  it.each([
    [10, 68.9],
    [15, 49.1],
    [20, 42],
    [25, 42],
  ])('at %d °C is planned with %d days (derived)', (temperatureC, days) => {
    expectWithin(runInDays({ temperatureC }), days, 0.1);
  });

  it('never takes longer in warmer water', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 35, noNaN: true }), (temperatureC) => {
        expect(runInDays({ temperatureC: temperatureC + 1 })).toBeLessThanOrEqual(runInDays({ temperatureC }));
      }),
    );
  });

  it('does not begin below 10 °C, and keeps livestock out for a week', () => {
    expect(mayStartRunIn({ waterTemperature7dMeanC: 9.9 })).toBe(false);
    expect(mayStartRunIn({ waterTemperature7dMeanC: 10 })).toBe(true);
    expect(DAYS_WITHOUT_LIVESTOCK).toBe(7);
    expect(() => runInDays({ temperatureC: Number.NaN })).toThrow('water temperature, °C: NaN');
  });
});

describe('first livestock (common practice)', () => {
  it('may go in after two good sets of readings 48 h apart, a fifth at most', () => {
    const release = mayStock({ readings: [...goodAt(0), ...goodAt(48)], feedingFilter: true });
    expect(release).toEqual({ may: true, basis: 'fed-filter', largestShare: firstStockShare, missing: [] });
    expect(firstStockShare).toBe(0.2);
    expect(STOCK_STAGE_GAP_DAYS).toBe(14);
  });

  it('is a staged start where the filter is not being fed', () => {
    const release = mayStock({ readings: [...goodAt(0), ...goodAt(48)], feedingFilter: false });
    expect(release).toMatchObject({ may: true, basis: 'staged', largestShare: 0.2 });
  });

  it('waits with readings less than 48 h apart', () => {
    const release = mayStock({ readings: [...goodAt(0), ...goodAt(47.9)], feedingFilter: true });
    expect(release).toMatchObject({ may: false, basis: null, largestShare: 0 });
    expect(release.missing.map(({ because }) => because)).toEqual(new Array(3).fill('second-reading-missing'));
  });

  it('waits without any reading, naming each quantity', () => {
    const { may, missing } = mayStock({ readings: [], feedingFilter: true });
    expect(may).toBe(false);
    expect(missing).toEqual([
      { quantity: 'total-ammonia', because: 'no-reading', limit: 0.25 },
      { quantity: 'nitrite', because: 'no-reading', limit: 0.1 },
      { quantity: 'total-chlorine', because: 'no-reading', limit: 0.02 },
    ]);
  });

  it.each([
    ['total-ammonia', 0.25],
    ['nitrite', 0.1],
    ['total-chlorine', 0.02],
  ] as const)('waits while the latest %s reads %d', (quantity, value) => {
    const release = mayStock({
      readings: [...goodAt(0), ...goodAt(48), reading(quantity, value, 49)],
      feedingFilter: true,
    });
    expect(release.missing).toEqual([{ quantity, because: 'too-high', limit: value }]);
  });

  it('starts the 48 h again after a high reading between two good ones', () => {
    const readings = [...goodAt(0), reading('nitrite', 0.4, 24), ...goodAt(60)];
    expect(mayStock({ readings, feedingFilter: true }).missing).toEqual([
      { quantity: 'nitrite', because: 'second-reading-missing', limit: 0.1 },
    ]);
    expect(mayStock({ readings: [...readings, ...goodAt(108)], feedingFilter: true }).may).toBe(true);
  });

  it('counts a reading at the limit itself as high', () => {
    const readings = [...goodAt(0), reading('nitrite', 0.1, 24), ...goodAt(60)];
    expect(mayStock({ readings, feedingFilter: true }).missing.map(({ quantity }) => quantity)).toEqual(['nitrite']);
  });

  it('does not ask a well for chlorine', () => {
    const readings = [...goodAt(0), ...goodAt(48)].filter(({ quantity }) => quantity !== 'total-chlorine');
    expect(mayStock({ readings, feedingFilter: true, tapIsChlorinated: false }).may).toBe(true);
    expect(mayStock({ readings, feedingFilter: true }).may).toBe(false);
  });

  it('does not depend on the order of the readings', () => {
    const readings = [...goodAt(0), reading('nitrite', 0.4, 24), ...goodAt(30), ...goodAt(80)];
    fc.assert(
      fc.property(fc.shuffledSubarray(readings, { minLength: readings.length }), (shuffled) => {
        expect(mayStock({ readings: shuffled, feedingFilter: true }).may).toBe(true);
      }),
    );
  });

  it('refuses a reading that is none', () => {
    const readings = [reading('nitrite', Number.NaN, 0)];
    expect(() => mayStock({ readings, feedingFilter: true })).toThrow('nitrite: NaN');
  });
});
