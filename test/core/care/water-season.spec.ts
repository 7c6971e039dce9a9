import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import {
  lastingSeason,
  SEASON_LIMITS_C,
  type SeasonWater,
  seasonBeginning,
  WATER_SEASONS,
  waterSeason,
} from '../../../src/core/care/water-season.js';
import { addDays, type CivilDay, civilDay, isoDateOf } from '../../../src/core/units/civil-day.js';

const NORTH = 43;
const SOUTH = -38;

/** A year and a half of 7-day means, warmest on a day of July in the north. */
function sinusoid(firstDay: CivilDay, meanC: number, amplitudeC: number, latitude = NORTH): SeasonWater {
  const warmest = civilDay(latitude < 0 ? '2026-01-20' : '2026-07-22');
  return {
    firstDay,
    median7dMeanC: Array.from(
      { length: 548 },
      (_, ahead) => meanC + amplitudeC * Math.cos(((firstDay + ahead - warmest) * 2 * Math.PI) / 365.25),
    ),
  };
}

describe('waterSeason', () => {
  it('is told by the feeding limits, and between them by the half of the year', () => {
    expect(SEASON_LIMITS_C).toEqual({ rest: 10, growing: 15 });
    expect(waterSeason(9.9, civilDay('2026-05-01'), NORTH)).toBe('rest');
    expect(waterSeason(12, civilDay('2026-05-01'), NORTH)).toBe('spring');
    expect(waterSeason(12, civilDay('2026-10-01'), NORTH)).toBe('autumn');
    expect(waterSeason(15, civilDay('2026-10-01'), NORTH)).toBe('growing');
    expect(waterSeason(12, civilDay('2026-05-01'), SOUTH)).toBe('autumn');
    expect(waterSeason(12, civilDay('2026-10-01'), SOUTH)).toBe('spring');
  });
});

describe('seasonBeginning', () => {
  const beginnings = (water: SeasonWater, latitude = NORTH) => {
    const found: string[] = [];
    let told = lastingSeason(water, water.firstDay, latitude);
    for (let from = water.firstDay; from < water.firstDay + 365; from = addDays(from, 7)) {
      const begins = seasonBeginning(water, { from, to: addDays(from, 6) }, latitude, told);
      if (!begins) continue;
      told = begins.season;
      found.push(`${begins.season} ${isoDateOf(begins.on).slice(0, 7)}`);
    }
    return found;
  };

  it('is told four times in a year, in order, on both halves of the earth', () => {
    const north = sinusoid(civilDay('2026-02-01'), 12, 12);
    expect(beginnings(north)).toEqual(['spring 2026-04', 'growing 2026-05', 'autumn 2026-10', 'rest 2026-11']);
    const south = sinusoid(civilDay('2026-02-01'), 13, 6, SOUTH);
    expect(beginnings(south, SOUTH).map((words) => words.split(' ')[0])).toEqual([
      'autumn',
      'rest',
      'spring',
      'growing',
    ]);
  });

  it('never comes in water that is warm, or cold, all year', () => {
    expect(beginnings(sinusoid(civilDay('2026-02-01'), 25, 3))).toEqual([]);
    expect(beginnings(sinusoid(civilDay('2026-02-01'), 4, 3))).toEqual([]);
  });

  it('is none for a few warm days, nor for a forecast that moves back over a limit', () => {
    const cold = sinusoid(civilDay('2026-03-01'), 8, 0);
    const warmDays = { ...cold, median7dMeanC: cold.median7dMeanC.map((c, day) => (day >= 2 && day < 7 ? 11 : c)) };
    const days = { from: cold.firstDay, to: addDays(cold.firstDay, 6) };
    expect(seasonBeginning(warmDays, days, NORTH, 'rest')).toBeNull();
    expect(seasonBeginning(cold, days, NORTH, 'spring')).toBeNull();
  });

  it('is told late when no mail went out meanwhile', () => {
    const april = sinusoid(civilDay('2026-04-25'), 12, 12);
    const days = { from: april.firstDay, to: addDays(april.firstDay, 6) };
    expect(seasonBeginning(april, days, NORTH, 'autumn')).toMatchObject({ season: 'spring', on: april.firstDay });
    expect(seasonBeginning(april, days, NORTH, null)).toBeNull();
  });

  it('is a lasting season of one of the days, other than the one told', () => {
    const c = fc.double({ min: 0, max: 30, noNaN: true });
    fc.assert(
      fc.property(
        fc.array(c, { minLength: 20, maxLength: 20 }),
        fc.constantFrom(...WATER_SEASONS, null),
        (means, told) => {
          const water = { firstDay: civilDay('2026-04-01'), median7dMeanC: means };
          const days = { from: water.firstDay, to: addDays(water.firstDay, 6) };
          const begins = seasonBeginning(water, days, NORTH, told);
          if (begins === null) return;
          expect(begins.season).not.toBe(told);
          expect(lastingSeason(water, begins.on, NORTH)).toBe(begins.season);
          expect(begins.on >= days.from && begins.on <= days.to).toBe(true);
        },
      ),
    );
  });
});
