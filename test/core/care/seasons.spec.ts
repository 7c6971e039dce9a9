import { describe, expect, it } from '@jest/globals';
import { nextCountCycle, seasonCycle, seasonOfCycle } from '../../../src/core/care/cycle.js';
import { calendarYearOf, searchWindow, seasonEnd, seasonOf } from '../../../src/core/care/seasons.js';
import { civilDay, isoDateOf } from '../../../src/core/units/civil-day.js';

const NORTH = 40.8;
const SOUTH = -37.8;

describe('seasonOf', () => {
  it.each([
    // Design, section 4: cooling is named after the last midsummer, warming after the last midwinter.
    { half: 'cooling', day: '2026-11-02', latitude: NORTH, year: 2026 },
    { half: 'cooling', day: '2026-12-31', latitude: NORTH, year: 2026 },
    { half: 'cooling', day: '2027-01-03', latitude: NORTH, year: 2026 },
    { half: 'cooling', day: '2027-06-20', latitude: NORTH, year: 2026 },
    { half: 'cooling', day: '2027-06-21', latitude: NORTH, year: 2027 },
    { half: 'warming', day: '2027-04-15', latitude: NORTH, year: 2026 },
    { half: 'warming', day: '2026-12-20', latitude: NORTH, year: 2025 },
    { half: 'warming', day: '2026-12-22', latitude: NORTH, year: 2026 },
    { half: 'cooling', day: '2027-05-10', latitude: SOUTH, year: 2026 },
    { half: 'cooling', day: '2026-12-31', latitude: SOUTH, year: 2026 },
    { half: 'warming', day: '2026-09-15', latitude: SOUTH, year: 2026 },
    { half: 'warming', day: '2027-01-02', latitude: SOUTH, year: 2026 },
  ] as const)('calls $day at $latitude $half $year', ({ half, day, latitude, year }) => {
    expect(seasonOf(half, civilDay(day), latitude)).toEqual({ half, year });
  });

  it('keeps one name for a crossing that may fall on either side of New Year', () => {
    const names = ['2026-12-28', '2026-12-31', '2027-01-01', '2027-01-05'].map((day) =>
      seasonCycle(seasonOf('cooling', civilDay(day), NORTH)),
    );
    expect(new Set(names)).toEqual(new Set(['cooling-2026']));
  });
});

describe('searchWindow', () => {
  it('is that of the climate handbook in the north, and half a year later in the south', () => {
    const shown = (half: 'cooling' | 'warming', latitude: number) => {
      const { from, until } = searchWindow({ half, year: 2026 }, latitude);
      return [isoDateOf(from), isoDateOf(until)];
    };
    expect(shown('cooling', NORTH)).toEqual(['2026-07-25', '2027-01-05']);
    expect(shown('warming', NORTH)).toEqual(['2027-01-10', '2027-07-25']);
    expect(shown('cooling', SOUTH)).toEqual(['2027-01-25', '2027-07-05']);
    expect(shown('warming', SOUTH)).toEqual(['2026-07-10', '2027-01-25']);
  });

  it('lies inside the season it belongs to, for every year and both hemispheres', () => {
    for (let year = 2020; year < 2032; year++) {
      for (const latitude of [NORTH, SOUTH]) {
        for (const half of ['cooling', 'warming'] as const) {
          const { from, until } = searchWindow({ half, year }, latitude);
          expect(seasonOf(half, from, latitude).year).toBe(year);
          expect(seasonOf(half, until, latitude).year).toBe(year);
          expect(until).toBeLessThan(seasonEnd({ half, year }, latitude));
        }
      }
    }
  });

  it('has its autumn in the year after a southern midsummer', () => {
    expect(calendarYearOf({ half: 'cooling', year: 2026 }, SOUTH)).toBe(2027);
    expect(calendarYearOf({ half: 'cooling', year: 2026 }, NORTH)).toBe(2026);
  });
});

describe('cycles', () => {
  it('count one more than the highest ever finished, whatever the order', () => {
    expect(nextCountCycle([])).toBe('1');
    expect(nextCountCycle(['2', '10', '9'])).toBe('11');
    expect(nextCountCycle(['cooling-2026', '3'])).toBe('4');
  });

  it('of a season can be read back, others cannot', () => {
    expect(seasonOfCycle('warming-2026')).toEqual({ half: 'warming', year: 2026 });
    expect(seasonOfCycle('12')).toBeNull();
    expect(seasonOfCycle('0198c2f0-reading')).toBeNull();
  });
});
