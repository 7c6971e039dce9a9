import { describe, expect, it } from '@jest/globals';
import ICAL from 'ical.js';
import { DateTime } from 'luxon';
import { timeZoneBlock } from '../../../src/feeds/icalendar/time-zone-block.js';

const HOUR_MS = 3_600_000;
/** Two a year, or none. */
const CHANGES: Record<string, number> = {
  'America/Chicago': 20,
  'America/Phoenix': 0,
  'Europe/Berlin': 20,
  'Australia/Lord_Howe': 20,
  'Asia/Kathmandu': 0,
};

describe('timeZoneBlock', () => {
  // Expanded by ical.js, compared with luxon's zone data: each half hour of the day
  // around every change of ten years, and one hour in 197 otherwise.
  it.each([
    'America/Chicago',
    'America/Phoenix',
    'Europe/Berlin',
    'Europe/Dublin',
    'Australia/Lord_Howe',
    'Australia/Adelaide',
    'Africa/Cairo',
    'Africa/Casablanca',
    'America/St_Johns',
    'America/Sao_Paulo',
    'Pacific/Kiritimati',
    'Asia/Kathmandu',
  ])('gives the offsets of %s over ten years', (zone) => {
    const from = Date.UTC(2020, 0, 1);
    const to = Date.UTC(2030, 0, 1);
    const read = new ICAL.Timezone(new ICAL.Component(ICAL.parse(timeZoneBlock(zone, from, to).join('\r\n'))));
    const hours = (start: number, end: number, step: number) =>
      Array.from({ length: Math.ceil((end - start) / (step * HOUR_MS)) }, (_, i) => start + i * step * HOUR_MS);
    const offsetAt = (ms: number) => DateTime.fromMillis(ms, { zone }).offset;
    const days = hours(from + 24 * HOUR_MS, to, 24);
    const changeDays = days.filter((ms) => offsetAt(ms) !== offsetAt(ms - 24 * HOUR_MS));
    const instants = [
      ...hours(from + 24 * HOUR_MS, to, 197),
      ...changeDays.flatMap((ms) => hours(ms - 30 * HOUR_MS, ms + 6 * HOUR_MS, 0.5)),
    ];
    let compared = 0;
    for (const ms of instants) {
      const local = DateTime.fromMillis(ms, { zone });
      // A local time that comes twice cannot say which of the two it is.
      if (local.getPossibleOffsets().length > 1) continue;
      const { year, month, day, hour, minute } = local;
      const time = new ICAL.Time({ year, month, day, hour, minute, second: 0, isDate: false }, read);
      expect([local.toISO(), time.utcOffset() / 60]).toEqual([local.toISO(), local.offset]);
      compared += 1;
    }
    expect(changeDays.length).toBe(CHANGES[zone] ?? changeDays.length);
    expect(compared).toBeGreaterThan(440);
  });

  it('refuses a zone that does not exist', () => {
    expect(() => timeZoneBlock('America/Nowhere', 0, 1)).toThrow(/America\/Nowhere is not an IANA time zone/);
  });
});
