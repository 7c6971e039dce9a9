import { describe, expect, it } from '@jest/globals';
import { DateTime } from 'luxon';
import { isoDateOf } from '../../src/core/units/civil-day.js';
import { civilDayIn, instantFrom } from '../../src/platform/clock.js';

const dateIn = (instant: string, timeZone: string) => isoDateOf(civilDayIn(instantFrom(instant), timeZone));

describe('civilDayIn', () => {
  it('is the date on the wall of the zone, on both sides of midnight', () => {
    expect(dateIn('2026-11-25T05:59:59.999Z', 'America/Chicago')).toBe('2026-11-24');
    expect(dateIn('2026-11-25T06:00:00.000Z', 'America/Chicago')).toBe('2026-11-25');
    expect(dateIn('2026-11-25T18:15:00Z', 'Asia/Kathmandu')).toBe('2026-11-26');
    expect(dateIn('2026-11-25T23:59:59Z', 'UTC')).toBe('2026-11-25');
  });

  it.each(['America/Chicago', 'Australia/Lord_Howe', 'Africa/Casablanca', 'America/St_Johns', 'Pacific/Apia'])(
    'agrees with the calendar of %s at every third hour of two years, days of a change of the clock included',
    (timeZone) => {
      const wrong: string[] = [];
      for (let at = instantFrom('2011-01-01T00:00:00Z'); at.year < 2013; at = at.plus({ hours: 3 })) {
        const expected = DateTime.fromMillis(at.toMillis(), { zone: timeZone }).toISODate();
        if (isoDateOf(civilDayIn(at, timeZone)) !== expected) wrong.push(at.toISO());
      }
      expect(wrong).toEqual([]);
    },
  );

  it('refuses a zone that is none', () => {
    expect(() => dateIn('2026-11-25T00:00:00Z', 'Mars/Olympus')).toThrow(/IANA time zone/);
  });
});
