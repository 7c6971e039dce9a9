import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { addDays, civilDay, isoDateOf } from '../../../src/core/units/civil-day.js';
import { lampLife } from '../../../src/core/uv/lamp-life.js';
import { expectWithin } from '../../support/expect-within.js';

const season = (from: string, until: string) => ({ from: civilDay(from), until: civilDay(until) });
/** On from 15 April, off on 1 November: 200 days. */
const gardenYears = [2026, 2027, 2028].map((year) => season(`${year}-04-15`, `${year}-10-31`));

describe('useful life of a lamp that burns by season', () => {
  it('of 9,000 h, 200 days a year, is renewed at the second spring start: 4,200 h left, 4,800 needed (derived)', () => {
    const life = lampLife({ seasons: gardenYears });
    expect(life).toMatchObject({ because: 'not-lasting-the-season', hoursLeft: 4200, seasonHours: 4800 });
    expect(isoDateOf(life.replaceOn!)).toBe('2027-04-15');
    // Left in, its hours run out after 175 days. The 175th day is 6 October; the handbook counts to the day after.
    expect(isoDateOf(addDays(life.runsOutOn!, 1))).toBe('2027-10-07');
    expectWithin(life.outputShare, 1 - 0.2 * (4800 / 9000), 1e-9);
  });

  it('of 201 days a year has 4,176 h left for 4,824 (derived)', () => {
    const seasons = [2026, 2027].map((year) => season(`${year}-04-15`, `${year}-11-01`));
    expect(lampLife({ seasons })).toMatchObject({ hoursLeft: 4176, seasonHours: 4824 });
  });

  it('that burns all year is renewed on the day its hours are up: 375 days', () => {
    const life = lampLife({ seasons: [season('2026-04-15', '2030-04-14')] });
    expect(life.because).toBe('hours');
    expect(life.replaceOn! - civilDay('2026-04-15')).toBe(374);
    expectWithin(life.outputShare, 0.8, 1e-9);
  });

  it('that lasts through all seasons given says so, with the light it has left', () => {
    const life = lampLife({ seasons: gardenYears, ratedHours: 20_000 });
    expect(life).toMatchObject({ runsOutOn: null, replaceOn: null, because: null });
    expectWithin(life.outputShare, 1 - 0.2 * (14_400 / 20_000), 1e-9);
  });

  it('with hours on it from before is renewed at the first start it would not outlast', () => {
    const life = lampLife({ seasons: gardenYears, usedHours: 6000 });
    expect(isoDateOf(life.replaceOn!)).toBe('2026-04-15');
    expect(lampLife({ seasons: gardenYears, usedHours: 12_000 })).toMatchObject({ hoursLeft: 0, outputShare: 0.8 });
  });

  it('never ends sooner for more rated hours, and never runs out outside a season', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1000, max: 13_000 }),
        fc.integer({ min: 0, max: 3000 }),
        fc.integer({ min: 4, max: 24 }),
        (ratedHours, more, hoursPerDay) => {
          const life = lampLife({ seasons: gardenYears, ratedHours, hoursPerDay });
          const longer = lampLife({ seasons: gardenYears, ratedHours: ratedHours + more, hoursPerDay });
          const end = (of: typeof life) => of.runsOutOn ?? Number.POSITIVE_INFINITY;
          expect(end(longer)).toBeGreaterThanOrEqual(end(life));
          if (life.runsOutOn === null) return;
          const { runsOutOn } = life;
          expect(gardenYears.some(({ from, until }) => runsOutOn >= from && runsOutOn <= until)).toBe(true);
          expect(life.replaceOn!).toBeLessThanOrEqual(runsOutOn);
        },
      ),
    );
  });

  it.each([
    [{ ratedHours: 0 }, 'rated lamp hours, h: 0'],
    [{ usedHours: Number.NaN }, 'lamp hours, h: NaN'],
    [{ hoursPerDay: 25 }, 'hours a day: 25, outside 0.1 to 24.'],
    [{ seasons: [season('2026-05-01', '2026-04-01')] }, 'last day of the season'],
    [{ seasons: [...gardenYears].reverse() }, 'first day of the season'],
  ])('refuses %j', (wrong, message) => {
    expect(() => lampLife({ seasons: gardenYears, ratedHours: 20_000, ...wrong })).toThrow(message);
  });
});
