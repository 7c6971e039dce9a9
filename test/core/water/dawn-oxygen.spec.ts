import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { InvalidValueError } from '../../../src/core/errors.js';
import { fieldTransferGPerH, surfaceTransferGPerDay } from '../../../src/core/water/aeration.js';
import { dawnOxygen, dawnOxygenRange, hoursUntilOxygen, type NightPond } from '../../../src/core/water/dawn-oxygen.js';
import { dawnOxygenByReadingsMgPerL } from '../../../src/core/water/evening-readings.js';
import { oxygenSaturationMgPerL } from '../../../src/core/water/oxygen.js';
import { bottomRespirationGPerM2Day, waterRespirationMgPerLH } from '../../../src/core/water/pond-respiration.js';
import { waterfallExchange } from '../../../src/core/water/waterfall-aeration.js';
import { expectWithin } from '../../support/expect-within.js';

/** 12 m³ of koi on a warm night, no air. */
const pond: NightPond = {
  volumeL: 12_000,
  surfaceAreaM2: 12,
  temperatureC: 26,
  nightH: 10,
  duskOxygenMgPerL: 8,
  fishGPerH: 4,
  filterGPerH: 0.8,
  waterLook: 'tinted',
  bottomLook: 'some-sludge',
  aeratorStandardGPerH: 0,
  waterfall: null,
  transferVelocityMPerDay: 0.3,
};

const anyPond = fc.record({
  volumeL: fc.double({ min: 500, max: 100_000, noNaN: true }),
  surfaceAreaM2: fc.double({ min: 1, max: 100, noNaN: true }),
  temperatureC: fc.double({ min: 0, max: 35, noNaN: true }),
  elevationM: fc.double({ min: 0, max: 2500, noNaN: true }),
  nightH: fc.double({ min: 1, max: 16, noNaN: true }),
  duskOxygenMgPerL: fc.double({ min: 0, max: 14, noNaN: true }),
  fishGPerH: fc.double({ min: 0, max: 60, noNaN: true }),
  filterGPerH: fc.double({ min: 0, max: 10, noNaN: true }),
  waterLook: fc.constantFrom('clear' as const, 'tinted' as const, 'green' as const),
  bottomLook: fc.constantFrom('clean' as const, 'some-sludge' as const, 'thick-sludge' as const),
  aeratorStandardGPerH: fc.double({ min: 0, max: 100, noNaN: true }),
  waterfall: fc.option(fc.record({ fallHeightM: fc.constant(0.5), flowLPerH: fc.constant(6000) })),
  transferVelocityMPerDay: fc.double({ min: 0, max: 1, noNaN: true }),
});

describe('oxygen at dawn by two readings', () => {
  it('D-40: 8.0 at nine and 7.0 at midnight are 5.60 at five, not 5.33 (derived)', () => {
    const evening = { firstMgPerL: 8, secondMgPerL: 7, hoursBetween: 3, hoursToDawn: 8 };
    expectWithin(dawnOxygenByReadingsMgPerL(evening), 5.6, 0.01);
  });

  it('is the second reading at its own hour, and lies above a straight line after it', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 2, max: 12, noNaN: true }),
        fc.double({ min: 0.5, max: 0.99, noNaN: true }),
        fc.double({ min: 3.5, max: 12, noNaN: true }),
        (firstMgPerL, share, hoursToDawn) => {
          const evening = { firstMgPerL, secondMgPerL: share * firstMgPerL, hoursBetween: 3 };
          expectWithin(dawnOxygenByReadingsMgPerL({ ...evening, hoursToDawn: 3 }), evening.secondMgPerL, 1e-9);
          const straight = firstMgPerL - ((firstMgPerL - evening.secondMgPerL) / 3) * hoursToDawn;
          expect(dawnOxygenByReadingsMgPerL({ ...evening, hoursToDawn })).toBeGreaterThan(straight);
        },
      ),
    );
  });

  it.each([
    [{ secondMgPerL: 8.1 }, 'It is above the first of 8: nothing falls yet.'],
    [{ hoursBetween: 0 }, 'hours between the readings: 0, outside 1 to 8.'],
    [{ hoursToDawn: 2 }, 'hours from the first reading to dawn: 2, outside 3 to 18.'],
    [{ firstMgPerL: Number.NaN }, 'first oxygen reading, mg/L: NaN'],
  ])('refuses %j', (wrong, message) => {
    const evening = { firstMgPerL: 8, secondMgPerL: 7, hoursBetween: 3, hoursToDawn: 8, ...wrong };
    expect(() => dawnOxygenByReadingsMgPerL(evening)).toThrow(message);
  });

  it('refuses a rising evening as a value to be read again', () => {
    const rising = { firstMgPerL: 7, secondMgPerL: 8, hoursBetween: 3, hoursToDawn: 8 };
    expect(() => dawnOxygenByReadingsMgPerL(rising)).toThrow(InvalidValueError);
  });
});

describe('oxygen at dawn by the balance of the pond', () => {
  it('is a straight fall where nothing hangs on the concentration (derived)', () => {
    // Clean-looking water of 20 °C: 0.04 mg/L h; fish 1.2 g/h in 12 m³: 0.1 mg/L h; bottom of a hair's breadth.
    const still = {
      ...pond,
      temperatureC: 20,
      surfaceAreaM2: 0,
      waterLook: 'clear',
      fishGPerH: 1.2,
      filterGPerH: 0,
    } as const;
    expectWithin(dawnOxygen(still).dawnMgPerL, 8 - 10 * 0.14, 1e-9);
    expectWithin(hoursUntilOxygen({ ...still, limitMgPerL: 5 })!, 3 / 0.14, 1e-9);
  });

  it('is the same in one night and in two halves', () => {
    fc.assert(
      fc.property(anyPond, (any) => {
        const night = dawnOxygen(any);
        fc.pre(night.emptyAfterH === null);
        const { balance } = night;
        // The uses and gains of a night twice as finely cut add up to the same.
        const half = dawnOxygen({ ...any, nightH: any.nightH / 2 });
        fc.pre(half.dawnMgPerL <= 25);
        const rest = dawnOxygen({ ...any, nightH: any.nightH / 2, duskOxygenMgPerL: half.dawnMgPerL });
        expectWithin(rest.dawnMgPerL, night.dawnMgPerL, 1e-9);
        expectWithin(half.balance.bottomG + rest.balance.bottomG, balance.bottomG, 1e-9 * Math.max(1, balance.startG));
        const gain = half.balance.surfaceG + rest.balance.surfaceG;
        expectWithin(gain, balance.surfaceG, 1e-8 * Math.max(1, balance.startG));
      }),
    );
  });

  it('agrees with the rates of its parts, added up in small steps', () => {
    const waterfall = { fallHeightM: 0.5, flowLPerH: 6000 };
    const aired = { ...pond, elevationM: 800, aeratorStandardGPerH: 12, waterfall };
    const fall = waterfallExchange({ ...aired, ...waterfall });
    /** mg/L per hour at a concentration, from the public functions alone. */
    const slopeAt = (dissolvedOxygenMgPerL: number) => {
      const bottomG =
        (12 * bottomRespirationGPerM2Day({ look: 'some-sludge', temperatureC: 26, dissolvedOxygenMgPerL })) / 24;
      const waterG = 12 * waterRespirationMgPerLH({ look: 'tinted', temperatureC: 26 });
      const aeratorG = fieldTransferGPerH({ ...aired, standardGPerH: 12, dissolvedOxygenMgPerL });
      const surfaceG = surfaceTransferGPerDay({ ...aired, dissolvedOxygenMgPerL }) / 24;
      const fallG = fall.perDeficitM3PerH * (fall.towardsMgPerL - dissolvedOxygenMgPerL);
      return (aeratorG + surfaceG + fallG - bottomG - waterG - 4.8) / 12;
    };
    let mgPerL = 8;
    for (let step = 0; step < 1000; step++) {
      const middle = mgPerL + 0.005 * slopeAt(mgPerL);
      mgPerL += 0.01 * slopeAt(middle);
    }
    expectWithin(dawnOxygen(aired).dawnMgPerL, mgPerL, 1e-5);
  });

  it('closes its balance to 1e-9, also when the pond runs empty', () => {
    fc.assert(
      fc.property(anyPond, (any) => {
        const { balance, dawnMgPerL } = dawnOxygen(any);
        const uses = balance.fishG + balance.filterG + balance.waterG + balance.bottomG;
        const gains = balance.aeratorG + balance.waterfallG + balance.surfaceG;
        const scale = Math.max(1, balance.startG, uses);
        expectWithin(balance.startG - uses + gains, balance.endG, 1e-9 * scale);
        expectWithin(balance.endG, (dawnMgPerL * any.volumeL) / 1000, 1e-9 * scale);
        expect(dawnMgPerL).toBeGreaterThanOrEqual(0);
      }),
      { numRuns: 300 },
    );
  });

  it('falls with fish, sludge, green water and the length of the night, and rises with air', () => {
    fc.assert(
      fc.property(anyPond, (any) => {
        const dawn = dawnOxygen(any).dawnMgPerL + 1e-9;
        expect(dawnOxygen({ ...any, fishGPerH: any.fishGPerH + 1 }).dawnMgPerL).toBeLessThanOrEqual(dawn);
        expect(dawnOxygen({ ...any, bottomLook: 'thick-sludge' }).dawnMgPerL).toBeLessThanOrEqual(dawn);
        expect(dawnOxygen({ ...any, waterLook: 'green' }).dawnMgPerL).toBeLessThanOrEqual(dawn);
        const lowest = dawnOxygen(any).lowestMgPerL + 1e-9;
        expect(dawnOxygen({ ...any, nightH: any.nightH + 1 }).lowestMgPerL).toBeLessThanOrEqual(lowest);
        const full = 0.98 * oxygenSaturationMgPerL(any);
        fc.pre(any.duskOxygenMgPerL < full && dawn < full);
        const aired = { ...any, aeratorStandardGPerH: any.aeratorStandardGPerH + 5 };
        expect(dawnOxygen(aired).dawnMgPerL).toBeGreaterThanOrEqual(dawn - 2e-9);
      }),
    );
  });

  it('is judged by the limits of a reading at dawn, and shown as a range around it', () => {
    const night = dawnOxygen(pond);
    expect(night.level).toBe('emergency');
    const range = dawnOxygenRange(pond);
    expect(range.lowMgPerL).toBeLessThan(range.likelyMgPerL);
    expect(range.likelyMgPerL).toBe(night.dawnMgPerL);
    expect(range.highMgPerL).toBeGreaterThan(range.likelyMgPerL);
    expect(dawnOxygen({ ...pond, aeratorStandardGPerH: 60 }).level).not.toBe('emergency');
  });

  it('starts full where dusk was not measured, at the height of the pond', () => {
    const { duskOxygenMgPerL: _, ...unmeasured } = { ...pond, elevationM: 1600 };
    const { balance } = dawnOxygen(unmeasured);
    expectWithin(balance.startG, 12 * oxygenSaturationMgPerL({ temperatureC: 26, elevationM: 1600 }), 1e-9);
  });

  it('keeps dusk as the lowest where the water gains over night', () => {
    const gaining = {
      ...pond,
      duskOxygenMgPerL: 3,
      fishGPerH: 0,
      filterGPerH: 0,
      waterLook: 'clear',
      aeratorStandardGPerH: 80,
    } as const;
    const night = dawnOxygen(gaining);
    expect(night.dawnMgPerL).toBeGreaterThan(3);
    expect(night.lowestMgPerL).toBe(3);
  });

  it('says when nothing is left, and shares out what still comes in', () => {
    const crowded = dawnOxygen({ ...pond, fishGPerH: 40 });
    expect(crowded.dawnMgPerL).toBe(0);
    expect(crowded.emptyAfterH).toBeGreaterThan(1);
    expect(crowded.emptyAfterH).toBeLessThan(3);
    expect(crowded.balance.fishG).toBeLessThan(400);
  });
});

describe('clock of a power failure', () => {
  it('rings at dawn for the oxygen there is at dawn, and never for less than the night comes down to', () => {
    fc.assert(
      fc.property(anyPond, (any) => {
        const { dawnMgPerL, emptyAfterH } = dawnOxygen(any);
        fc.pre(emptyAfterH === null);
        if (dawnMgPerL > any.duskOxygenMgPerL - 0.01) {
          const limitMgPerL = any.duskOxygenMgPerL / 2;
          const hours = hoursUntilOxygen({ ...any, limitMgPerL }) ?? Number.POSITIVE_INFINITY;
          expect(hours === 0 || hours > any.nightH).toBe(true);
          return;
        }
        const hours = hoursUntilOxygen({ ...any, limitMgPerL: dawnMgPerL });
        fc.pre(hours !== null);
        expectWithin(dawnOxygen({ ...any, nightH: Math.min(24, hours!) }).dawnMgPerL, dawnMgPerL, 1e-6);
      }),
    );
  });

  it('never rings in a pond whose air carries it, and at once below the limit', () => {
    const carried = {
      ...pond,
      fishGPerH: 0.1,
      waterLook: 'clear',
      bottomLook: 'clean',
      aeratorStandardGPerH: 90,
    } as const;
    expect(hoursUntilOxygen({ ...carried, limitMgPerL: 3 })).toBeNull();
    expect(hoursUntilOxygen({ ...pond, duskOxygenMgPerL: 2, limitMgPerL: 3 })).toBe(0);
  });

  it.each([
    [{ volumeL: 0 }, 'pond volume, L: 0'],
    [{ fishGPerH: -1 }, 'oxygen used by fish, g/h: -1'],
    [{ duskOxygenMgPerL: 30 }, 'oxygen at dusk, mg/L: 30, outside 0 to 25.'],
    [{ temperatureC: Number.NaN }, 'water temperature, °C: NaN'],
    [{ surfaceAreaM2: Number.NaN }, 'open surface, m²: NaN'],
    [{ limitMgPerL: 21 }, 'oxygen limit, mg/L: 21, outside 0 to 20.'],
  ])('refuses %j', (wrong, message) => {
    expect(() => hoursUntilOxygen({ ...pond, limitMgPerL: 3, ...wrong })).toThrow(message);
  });
});
