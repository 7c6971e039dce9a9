import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { largestTopUpL, solutesAfterTopUpMgPerL, topUpLPerDay } from '../../../src/core/evaporation/top-up.js';
import { expectWithin } from '../../support/expect-within.js';

const pond = { evaporationMmPerDay: 6, precipitationMmPerDay: 0, surfaceAreaM2: 12, hasWaterfall: false };

describe('top-up', () => {
  it('of 6 mm over 12 m² is 72 L, a fifth more while a waterfall runs (derived)', () => {
    expectWithin(topUpLPerDay(pond), 72, 1e-9);
    expectWithin(topUpLPerDay({ ...pond, hasWaterfall: true }), 86.4, 1e-9);
  });

  it('adds splash only where it is said to leave the basin (derived)', () => {
    expectWithin(topUpLPerDay({ ...pond, splashLPerDay: 40 }), 112, 1e-9);
  });

  it('is none when rain wins', () => {
    expect(topUpLPerDay({ ...pond, precipitationMmPerDay: 6 })).toBe(0);
    expect(topUpLPerDay({ ...pond, precipitationMmPerDay: 20 })).toBe(0);
  });

  it('closes the balance of what falls, what rises and what is added, unless rain wins', () => {
    const depth = fc.double({ min: 0, max: 20, noNaN: true });
    fc.assert(
      fc.property(depth, depth, fc.double({ min: 1, max: 200, noNaN: true }), (evaporation, rain, surfaceAreaM2) => {
        const addedL = topUpLPerDay({
          ...pond,
          evaporationMmPerDay: evaporation,
          precipitationMmPerDay: rain,
          surfaceAreaM2,
        });
        const lostL = (evaporation - rain) * surfaceAreaM2;
        expectWithin(addedL, Math.max(0, lostL), 1e-9);
      }),
    );
  });

  it('is capped per day at a tenth by hand and a twentieth by a valve (common practice)', () => {
    expect(largestTopUpL({ volumeL: 10_000, isAutomatic: false })).toBe(1000);
    expect(largestTopUpL({ volumeL: 10_000, isAutomatic: true })).toBe(500);
  });

  it('leaves the salts of the tap behind: 200 mg/L become 362 in a summer (derived, E07)', () => {
    const summer = {
      startMgPerL: 200,
      tapMgPerL: 300,
      evaporationMmPerDay: 5,
      surfaceAreaM2: 12,
      volumeL: 10_000,
      days: 90,
    };
    expectWithin(solutesAfterTopUpMgPerL(summer), 362, 1e-9);
    expect(solutesAfterTopUpMgPerL({ ...summer, tapMgPerL: 0 })).toBe(200);
    expect(() => solutesAfterTopUpMgPerL({ ...summer, days: -1 })).toThrow('days: -1');
  });

  it.each([
    [{ evaporationMmPerDay: -1 }, 'evaporation, mm/day: -1'],
    [{ precipitationMmPerDay: Number.NaN }, 'precipitation, mm/day: NaN'],
    [{ surfaceAreaM2: 0 }, 'surface area, m²: 0'],
  ])('refuses %j', (wrong, message) => {
    expect(() => topUpLPerDay({ ...pond, ...wrong })).toThrow(message);
  });
});
