import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import type { StockGroup } from '../../../src/core/care/pond-facts.js';
import { ammoniaLoadGNPerDay } from '../../../src/core/stock/ammonia-load.js';
import {
  FEED_PROTEIN_SHARE,
  type FeedConditions,
  feedFor,
  feedRationShare,
  mayFeedAgain,
} from '../../../src/core/stock/feed-ration.js';
import { stockBiomass } from '../../../src/core/stock/fish-mass.js';
import carpRation from '../../published/carp-ration.json' with { type: 'json' };
import { expectWithin } from '../../support/expect-within.js';

/** 1030 g each, 10.3 kg together. */
const adults: readonly StockGroup[] = [{ species: 'koi', count: 10, lengthCm: 40 }];
const adultsG = stockBiomass(adults).fishKg * 1000;

function feedAt(waterC: number, more: Partial<FeedConditions> = {}) {
  return feedFor({ stock: adults, waterTemperature7dMeanC: waterC, waterTemperature3dMeanC: waterC, ...more });
}

describe('ration of a fish', () => {
  it.each([
    [7.9, 0, 0, 0],
    [9.9, 0, 0, 0],
    [10, 0.2, 0.3, 0.4],
    [12.9, 0.2, 0.3, 0.4],
    [13, 0.4, 0.6, 0.8],
    [16, 0.7, 1.0, 1.5],
    [20, 1.0, 1.5, 2.5],
    [25, 1.2, 2.0, 3.0],
    [28, 1.0, 1.5, 2.5],
    [30, 0.5, 0.8, 1.2],
    [32, 0.5, 0.8, 1.2],
    [32.1, 0, 0, 0],
  ])('at %d °C is %d, %d and %d %% of large, middle and small (common practice)', (waterTemperatureC, ...pct) => {
    const shares = [501, 500, 49].map((fishMassG) => feedRationShare({ fishMassG, waterTemperatureC }));
    for (const [size, share] of shares.entries()) expectWithin(share, pct[size]! / 100, 1e-12);
    expectWithin(feedRationShare({ fishMassG: 50, waterTemperatureC }), pct[1]! / 100, 1e-12);
  });

  it.each(carpRation.rows)(
    'of an adult at $temperatureC °C stays within 1.1 of what young carp need to keep their mass',
    ({ temperatureC, maintenancePctPerDay, maxGrowthPctPerDay }) => {
      const pct = 100 * feedRationShare({ fishMassG: 1000, waterTemperatureC: temperatureC });
      expect(pct).toBeGreaterThan(0);
      expect(pct).toBeLessThanOrEqual(1.1 * maintenancePctPerDay);
      const smallPct = 100 * feedRationShare({ fishMassG: 20, waterTemperatureC: temperatureC });
      expect(smallPct).toBeLessThanOrEqual(maxGrowthPctPerDay);
    },
  );

  it('is never more for a larger fish, in share of its mass', () => {
    const mass = fc.double({ min: 1, max: 5000, noNaN: true });
    fc.assert(
      fc.property(mass, mass, fc.double({ min: 0, max: 35, noNaN: true }), (a, b, waterTemperatureC) => {
        const [small, large] = [Math.min(a, b), Math.max(a, b)];
        const smallShare = feedRationShare({ fishMassG: small, waterTemperatureC });
        expect(feedRationShare({ fishMassG: large, waterTemperatureC })).toBeLessThanOrEqual(smallShare);
      }),
    );
  });

  it.each([
    [{ fishMassG: -1, waterTemperatureC: 20 }, 'fish mass, g: -1'],
    [{ fishMassG: 500, waterTemperatureC: Number.NaN }, 'water temperature, °C: NaN'],
  ])('refuses %j', (fish, message) => {
    expect(() => feedRationShare(fish)).toThrow(message);
  });
});

describe('food of a pond (common practice)', () => {
  it('for ten adult kilograms at 22 °C is 100 g, 3.22 g of ammonia nitrogen (derived)', () => {
    const feedGPerDay = (feedAt(22).feedGPerDay * 10_000) / adultsG;
    expectWithin(feedGPerDay, 100, 0.1);
    expectWithin(ammoniaLoadGNPerDay({ feedGPerDay, feedProteinShare: 0.35 }), 3.22, 0.01);
  });

  it.each([
    [7.9, 'none', 'locked-cold', 'none', 0],
    [8, 'none', 'too-cold', 'none', 0],
    [9.9, 'none', 'too-cold', 'none', 0],
    [10, 'light', 'cool-light-food', 'two-or-three-a-week', 3],
    [14.9, 'light', 'cool-light-food', 'at-most-one-a-day', 7],
    [15, 'staple', 'in-season', 'at-most-one-a-day', 7],
    [22, 'staple', 'in-season', 'two-to-four-a-day', 7],
    [26, 'staple', 'warm-feed-early', 'two-each-morning', 7],
    [28, 'staple', 'hot-half', 'two-each-morning', 7],
    [30, 'none', 'too-hot', 'none', 0],
  ] as const)('at %d °C is %s, because %s', (waterC, kind, reason, mealsText, feedingDaysPerWeek) => {
    expect(feedAt(waterC)).toMatchObject({ kind, reason, mealsText, feedingDaysPerWeek });
  });

  it('has less protein while it is cool', () => {
    expect(FEED_PROTEIN_SHARE).toEqual({ light: 0.3, staple: 0.35 });
  });

  it('keeps its sparse meals when one day of a cool spell is hot', () => {
    expect(feedAt(12, { waterTemperatureMaxC: 26 })).toMatchObject({
      mealsText: 'two-or-three-a-week',
      feedingDaysPerWeek: 3,
    });
  });

  it('follows the lower of the two means, both ways', () => {
    expect(feedAt(16, { waterTemperature3dMeanC: 9.5 })).toMatchObject({ feedGPerDay: 0, reason: 'too-cold' });
    expect(feedAt(9.5, { waterTemperature3dMeanC: 16 })).toMatchObject({ feedGPerDay: 0, reason: 'too-cold' });
    expect(feedAt(22, { waterTemperature3dMeanC: 14 })).toMatchObject({ kind: 'light', rationTemperatureC: 14 });
  });

  it('goes by the highest temperature of the day in the heat', () => {
    const full = feedAt(25);
    expect(feedAt(25, { waterTemperatureMaxC: 26 })).toMatchObject({ halved: false, reason: 'warm-feed-early' });
    expect(feedAt(25, { waterTemperatureMaxC: 28 })).toMatchObject({ halved: true, feedGPerDay: full.feedGPerDay / 2 });
    expect(feedAt(25, { waterTemperatureMaxC: 30 })).toMatchObject({ feedGPerDay: 0, kind: 'none', reason: 'too-hot' });
  });

  it('takes the heat rule off when oxygen was good at that dawn, and keeps to the table', () => {
    const good = { dawnOxygenMgPerL: 6 };
    expect(feedAt(26, { waterTemperatureMaxC: 29, ...good })).toMatchObject({
      halved: false,
      feedGPerDay: adultsG * 0.01,
    });
    expectWithin(feedAt(26, { waterTemperatureMaxC: 31, ...good }).feedGPerDay, adultsG * 0.005, 1e-9);
    expect(feedAt(26, { waterTemperatureMaxC: 31, ...good }).mealsText).toBe('one-each-morning');
    expectWithin(feedAt(26, { waterTemperatureMaxC: 28, ...good }).feedGPerDay, adultsG * 0.01, 1e-9);
    expectWithin(feedAt(26, { waterTemperatureMaxC: 32, ...good }).feedGPerDay, adultsG * 0.005, 1e-9);
    expect(feedAt(26, { waterTemperatureMaxC: 30, ...good }).mealsText).toBe('one-each-morning');
    expect(feedAt(26, { waterTemperatureMaxC: 32.1, ...good })).toMatchObject({ feedGPerDay: 0, reason: 'too-hot' });
    expect(feedAt(26, { waterTemperatureMaxC: 29, dawnOxygenMgPerL: 5.9 })).toMatchObject({ halved: true });
  });

  it('is halved or stopped by bad readings', () => {
    expect(feedAt(22, { dawnOxygenMgPerL: 4.9 })).toMatchObject({ halved: true, reason: 'oxygen-low-half' });
    expect(feedAt(22, { dawnOxygenMgPerL: 5 })).toMatchObject({ halved: false, reason: 'in-season' });
    expect(feedAt(22, { dawnOxygenMgPerL: 4 })).toMatchObject({ halved: true, reason: 'oxygen-low-half' });
    expect(feedAt(22, { dawnOxygenMgPerL: 3.9 })).toMatchObject({ feedGPerDay: 0, reason: 'oxygen-emergency' });
    expect(feedAt(22, { unionisedAmmoniaMgNPerL: 0.05 })).toMatchObject({ feedGPerDay: 0, reason: 'ammonia-high' });
    expect(feedAt(22, { nitriteMgNPerL: 0.3 })).toMatchObject({ halved: true, reason: 'nitrite-high-half' });
    expect(feedAt(22, { nitriteMgNPerL: 0.29, unionisedAmmoniaMgNPerL: 0.04, dawnOxygenMgPerL: 7 }).halved).toBe(false);
  });

  it('counts every size class by its own ration, and no turtle', () => {
    const small: StockGroup = { species: 'koi', count: 20, lengthCm: 10 };
    const turtle: StockGroup = { species: 'slider-turtle', count: 2, lengthCm: 20 };
    const smallG = stockBiomass([small]).fishKg * 1000;
    const feed = feedAt(22, { stock: [...adults, small, turtle] });
    expectWithin(feed.feedGPerDay, adultsG * 0.01 + smallG * 0.025, 1e-9);
    expect(feedAt(22, { stock: [turtle] })).toMatchObject({ feedGPerDay: 0, reason: 'no-fish' });
    expect(feedAt(22, { stock: [{ species: 'koi', count: 0, lengthCm: 40 }] }).reason).toBe('no-fish');
    expect(feedAt(22, { stock: [{ species: 'koi', count: 1, lengthCm: 40 }] }).reason).toBe('in-season');
    expect(feedAt(22, { stock: [] })).toMatchObject({ feedGPerDay: 0, reason: 'no-fish' });
  });

  it('is nothing below 10 °C whatever else is known, and never negative', () => {
    const optional = (max: number) => fc.option(fc.double({ min: 0, max, noNaN: true }), { nil: undefined });
    fc.assert(
      fc.property(
        fc.double({ min: -1, max: 40, noNaN: true }),
        fc.double({ min: -1, max: 40, noNaN: true }),
        optional(40),
        optional(15),
        (m7, m3, waterTemperatureMaxC, dawnOxygenMgPerL) => {
          const feed = feedAt(m7, { waterTemperature3dMeanC: m3, waterTemperatureMaxC, dawnOxygenMgPerL });
          expect(feed.feedGPerDay).toBeGreaterThanOrEqual(0);
          expect(feed.feedGPerDay).toBeLessThanOrEqual(adultsG * 0.012 + 1e-9);
          if (Math.min(m7, m3) < 10) expect(feed.feedGPerDay).toBe(0);
          expect(feed.kind === 'none').toBe(feed.mealsText === 'none');
        },
      ),
    );
  });

  it.each([
    [{ waterTemperature7dMeanC: Number.NaN }, '7-day mean of the water, °C: NaN'],
    [{ waterTemperature3dMeanC: 60 }, '3-day mean of the water, °C: 60'],
    [{ waterTemperatureMaxC: Number.NaN }, 'highest water temperature, °C: NaN'],
    [{ dawnOxygenMgPerL: -1 }, 'oxygen at dawn, mg/L: -1'],
    [{ stock: [{ species: 'koi', count: Number.NaN, lengthCm: 30 }] as const }, 'number of koi: NaN'],
  ])('refuses %j', (wrong, message) => {
    expect(() => feedAt(20, wrong)).toThrow(message);
  });
});

describe('feeding after winter (common practice)', () => {
  const sevenAt = (meanC: number) => new Array<number>(7).fill(meanC);

  it('begins after seven means of 10 °C and five days above 8 °C', () => {
    const days = [8.1, 9, 10, 11, 12];
    expect(mayFeedAgain({ waterTemperature7dMeansC: sevenAt(10), waterTemperaturesC: days })).toBe(true);
    expect(mayFeedAgain({ waterTemperature7dMeansC: [9.9, ...sevenAt(10)], waterTemperaturesC: [3, ...days] })).toBe(
      true,
    );
  });

  it('waits after one cold mean, one cold day, or with too short a record', () => {
    const days = [9, 9, 10, 11, 12];
    expect(mayFeedAgain({ waterTemperature7dMeansC: [...sevenAt(10), 9.9], waterTemperaturesC: days })).toBe(false);
    expect(mayFeedAgain({ waterTemperature7dMeansC: sevenAt(10), waterTemperaturesC: [8, ...days.slice(1)] })).toBe(
      false,
    );
    expect(mayFeedAgain({ waterTemperature7dMeansC: [10, 10, 10], waterTemperaturesC: days })).toBe(false);
    expect(mayFeedAgain({ waterTemperature7dMeansC: sevenAt(10), waterTemperaturesC: [10] })).toBe(false);
  });
});
