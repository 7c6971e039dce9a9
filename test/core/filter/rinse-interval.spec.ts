import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import {
  learnedHeldGPerL,
  rinseCapacityG,
  rinseIntervalDays,
  seasonRinseIntervalDays,
  solidsLoadGPerDay,
} from '../../../src/core/filter/rinse-interval.js';
import { expectWithin } from '../../support/expect-within.js';

describe('rinse interval', () => {
  it.each([
    [100, 0, 9.524],
    [100, 0.5, 7.407],
    [200, 0, 4.76],
    [50, 0.5, 12.12],
    [20, 0.5, 19.61],
    [0, 0.5, 33.33],
  ])('of 40 L with %d g of food and %d g/m² of dust is %d days (derived)', (feedGPerDay, ambient, expected) => {
    const filter = { mediaVolumeL: 40, feedGPerDay, surfaceAreaM2: 12, useShare: 1 };
    expectWithin(rinseIntervalDays({ ...filter, ambientSolidsGPerM2Day: ambient }), expected, 0.01);
  });

  it('uses four fifths of the capacity unless told otherwise (derived)', () => {
    const pond = { mediaVolumeL: 40, surfaceAreaM2: 12 };
    expectWithin(rinseIntervalDays({ ...pond, feedGPerDay: 100 }), 5.9, 0.05);
    expectWithin(rinseIntervalDays({ ...pond, feedGPerDay: 0 }), 26.7, 0.05);
    expect(rinseCapacityG(pond)).toBe(160);
  });

  it('closes its balance: what arrives in the interval is what the media hold', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 500, noNaN: true }),
        fc.double({ min: 0, max: 2000, noNaN: true }),
        fc.double({ min: 0.5, max: 500, noNaN: true }),
        (mediaVolumeL, feedGPerDay, surfaceAreaM2) => {
          const filter = { mediaVolumeL, feedGPerDay, surfaceAreaM2 };
          const arrivedG = rinseIntervalDays(filter) * solidsLoadGPerDay(filter);
          expectWithin(arrivedG, rinseCapacityG(filter), 1e-9 * arrivedG);
          expect(rinseIntervalDays({ ...filter, feedGPerDay: feedGPerDay + 10 })).toBeLessThan(
            rinseIntervalDays(filter),
          );
        },
      ),
    );
  });

  it('is kept to 3 to 42 days in the season, for warm koi to 21 (common practice)', () => {
    const pond = { mediaVolumeL: 100, feedGPerDay: 5, surfaceAreaM2: 6, hasKoi: true, waterTemperature7dMeanC: 20 };
    expect(seasonRinseIntervalDays(pond)).toBe(21);
    expect(seasonRinseIntervalDays({ ...pond, waterTemperature7dMeanC: 13.1 })).toBe(21);
    expect(seasonRinseIntervalDays({ ...pond, waterTemperature7dMeanC: 13 })).toBe(42);
    expect(seasonRinseIntervalDays({ ...pond, hasKoi: false })).toBe(42);
    expect(seasonRinseIntervalDays({ ...pond, mediaVolumeL: 5, feedGPerDay: 400 })).toBe(3);
    expectWithin(
      seasonRinseIntervalDays({ ...pond, mediaVolumeL: 40, feedGPerDay: 100, surfaceAreaM2: 12 }),
      5.93,
      0.01,
    );
  });

  it('learns from a rinse that falling flow called for, and stays within 2 to 10 g/L (common practice)', () => {
    expectWithin(learnedHeldGPerL({ heldGPerL: 5, loadSinceRinseG: 280, mediaVolumeL: 40 }), 5.6, 1e-12);
    expect(learnedHeldGPerL({ heldGPerL: 2, loadSinceRinseG: 0, mediaVolumeL: 40 })).toBe(2);
    expect(learnedHeldGPerL({ heldGPerL: 10, loadSinceRinseG: 4000, mediaVolumeL: 40 })).toBe(10);
  });

  it.each([
    [{ mediaVolumeL: 0 }, 'media volume, L: 0'],
    [{ feedGPerDay: -5 }, 'feed, g/day: -5'],
    [{ surfaceAreaM2: Number.NaN }, 'surface area, m²: NaN'],
    [{ heldGPerL: 20 }, 'solids held, g/L: 20, outside 2 to 10.'],
    [{ useShare: 0 }, 'use of the capacity, share: 0'],
    [{ captureShare: 1 }, 'capture, share: 1, outside 0.4 to 0.9.'],
  ])('refuses %j', (wrong, message) => {
    expect(() => rinseIntervalDays({ mediaVolumeL: 40, feedGPerDay: 50, surfaceAreaM2: 12, ...wrong })).toThrow(
      message,
    );
  });
});
