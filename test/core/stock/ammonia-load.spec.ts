import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { ammoniaLoadGNPerDay, turtleFeedGPerDay } from '../../../src/core/stock/ammonia-load.js';
import fromFeed from '../../published/ammonia-from-feed.json' with { type: 'json' };
import { expectWithin } from '../../support/expect-within.js';

describe('ammonia from food', () => {
  it.each([
    [200, 0.35, 6.44],
    [500, 0.4, 18.4],
    [100, 0.3, 2.76],
    [454, 0.35, 14.62],
  ])('of %d g with a protein share of %d is %d g N (derived)', (feedGPerDay, feedProteinShare, expected) => {
    expectWithin(ammoniaLoadGNPerDay({ feedGPerDay, feedProteinShare }), expected, 0.02);
  });

  it.each(fromFeed.rows)(
    'brackets the extension rule for $feedG g between 30 and 35 % protein, never below it',
    (row) => {
      const ruleG = row.ammoniaMgN / 1000;
      const lean = ammoniaLoadGNPerDay({ feedGPerDay: row.feedG, feedProteinShare: 0.3 });
      const usual = ammoniaLoadGNPerDay({ feedGPerDay: row.feedG, feedProteinShare: 0.35 });
      expect(lean).toBeGreaterThan(ruleG);
      expect(usual).toBeLessThan(1.3 * ruleG);
    },
  );

  it('rises in proportion to the food', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 1e4, noNaN: true }),
        fc.double({ min: 0, max: 0.5, noNaN: true }),
        (feed, share) => {
          const once = ammoniaLoadGNPerDay({ feedGPerDay: feed, feedProteinShare: share });
          expectWithin(
            ammoniaLoadGNPerDay({ feedGPerDay: 2 * feed, feedProteinShare: share }),
            2 * once,
            1e-9 * Math.max(1, once),
          );
          expect(once).toBeLessThanOrEqual(0.16 * feed * share + 1e-12);
        },
      ),
    );
  });

  it('refuses what cannot be food', () => {
    expect(() => ammoniaLoadGNPerDay({ feedGPerDay: -1, feedProteinShare: 0.3 })).toThrow('feed, g/day: -1');
    expect(() => ammoniaLoadGNPerDay({ feedGPerDay: 100, feedProteinShare: 35 })).toThrow(
      'protein of the feed, share: 35, outside 0 to 0.8.',
    );
  });
});

describe('food of turtles (our own rule)', () => {
  const stock = [
    { species: 'slider-turtle', count: 3, lengthCm: 20 },
    { species: 'koi', count: 5, lengthCm: 40 },
  ] as const;

  it.each([
    [14.9, 0],
    [15, 0],
    [17.5, 15],
    [20, 30],
    [28, 30],
  ])('of three adult sliders at %d °C is %d g', (waterTemperature7dMeanC, expected) => {
    expectWithin(turtleFeedGPerDay({ stock, waterTemperature7dMeanC }), expected, 1e-9);
  });
});
