import { describe, expect, it } from '@jest/globals';
import { civilDay, isoDateOf } from '../../src/core/units/civil-day.js';
import { instantFrom, instantText } from '../../src/platform/clock.js';
import { digestDue, latestDigestMoment, localInstant, urgentNotBefore } from '../../src/reminders/digest-time.js';

const SATURDAY_8 = { weekday: 6, hour: 8, timeZone: 'America/Chicago' };
const KNOWN = { since: civilDay('2024-01-01'), lastDigestOn: null };
const dueOn = (at: string, wish = SATURDAY_8, known: Parameters<typeof digestDue>[2] = KNOWN) => {
  const due = digestDue(instantFrom(at), wish, known);
  return due && isoDateOf(due.on);
};

describe('localInstant', () => {
  // RFC 5545 section 3.3.5: a time that does not exist keeps the offset before the gap; of two, the first.
  it.each([
    ['2027-03-14', 2, 'America/New_York', '2027-03-14T07:00:00.000Z'],
    ['2026-11-01', 1, 'America/New_York', '2026-11-01T05:00:00.000Z'],
    ['2026-04-24', 0, 'Africa/Cairo', '2026-04-23T22:00:00.000Z'],
    ['2026-10-03', 8, 'America/Phoenix', '2026-10-03T15:00:00.000Z'],
  ])('of %s at %i in %s is %s', (on, hour, timeZone, instant) => {
    expect(instantText(localInstant(civilDay(on), hour, timeZone))).toBe(instant);
  });
});

describe('latestDigestMoment', () => {
  it('is today from the hour on, and a week ago before it', () => {
    expect(isoDateOf(latestDigestMoment(instantFrom('2026-10-03T13:00:00Z'), SATURDAY_8).on)).toBe('2026-10-03');
    expect(isoDateOf(latestDigestMoment(instantFrom('2026-10-03T12:59:59Z'), SATURDAY_8).on)).toBe('2026-09-26');
  });
});

describe('digestDue', () => {
  it('comes at the chosen local hour, on both sides of a clock change', () => {
    expect(dueOn('2026-10-31T12:59:00Z')).toBeNull();
    expect(dueOn('2026-10-31T13:00:00Z')).toBe('2026-10-31');
    expect(dueOn('2026-11-07T13:59:00Z')).toBeNull();
    expect(dueOn('2026-11-07T14:00:00Z')).toBe('2026-11-07');
  });

  it('catches up for three days, then waits for the next', () => {
    expect(dueOn('2026-10-05T15:00:00Z')).toBe('2026-10-03');
    expect(dueOn('2026-10-06T14:00:00Z')).toBeNull();
  });

  it('does not catch up at night', () => {
    expect(dueOn('2026-10-04T04:00:00Z')).toBeNull();
    expect(dueOn('2026-10-04T13:00:00Z')).toBe('2026-10-03');
  });

  it('keeps an early hour that the homeowner chose', () => {
    expect(dueOn('2026-10-03T11:30:00Z', { ...SATURDAY_8, hour: 6 })).toBe('2026-10-03');
    expect(dueOn('2026-10-03T12:30:00Z', { ...SATURDAY_8, hour: 6 })).toBeNull();
  });

  it('is not sent for a day before the contact began', () => {
    expect(dueOn('2026-10-05T15:00:00Z', SATURDAY_8, { since: civilDay('2026-10-04'), lastDigestOn: null })).toBeNull();
  });

  it('is not sent within five days of the last one, so a changed day brings no second mail', () => {
    const tuesday = { ...SATURDAY_8, weekday: 2 };
    const known = { since: civilDay('2024-01-01'), lastDigestOn: civilDay('2026-10-03') };
    expect(dueOn('2026-10-06T15:00:00Z', tuesday, known)).toBeNull();
    expect(dueOn('2026-10-13T15:00:00Z', tuesday, known)).toBe('2026-10-13');
    expect(dueOn('2026-10-03T15:00:00Z', SATURDAY_8, known)).toBeNull();
  });
});

describe('urgentNotBefore', () => {
  const at = (now: string, latest: string) =>
    instantText(urgentNotBefore(instantFrom(now), civilDay(latest), SATURDAY_8));

  it('is at once by day, and at eight after a night', () => {
    expect(at('2026-10-03T18:00:00Z', '2026-10-06')).toBe('2026-10-03T18:00:00.000Z');
    expect(at('2026-10-04T03:00:00Z', '2026-10-06')).toBe('2026-10-04T13:00:00.000Z');
    expect(at('2026-10-04T10:00:00Z', '2026-10-06')).toBe('2026-10-04T13:00:00.000Z');
  });

  it('does not wait for the morning on the last day', () => {
    expect(at('2026-10-04T03:00:00Z', '2026-10-03')).toBe('2026-10-04T03:00:00.000Z');
  });
});

describe('A year of weekly mails', () => {
  const HOURS = 24 * 366;

  // A change of the clock in each, at another hour, or none: Lord Howe by half an hour, Cairo at midnight.
  it.each([
    ['America/New_York', 8],
    ['America/New_York', 2],
    ['America/New_York', 1],
    ['Australia/Lord_Howe', 2],
    ['Africa/Cairo', 0],
    ['America/St_Johns', 8],
    ['America/Phoenix', 8],
    ['America/Sao_Paulo', 8],
  ])(
    'in %s at %i is one in each week, at its hour by the wall, though the clock is corrected to and fro',
    (timeZone, hour) => {
      // Sunday is the day on which clocks change.
      const wish = { weekday: 7, hour, timeZone };
      let now = instantFrom('2026-09-20T00:00:00Z');
      const since = civilDay('2026-09-20');
      let lastDigestOn: ReturnType<typeof civilDay> | null = null;
      const days: number[] = [];
      const hours = new Map<number, number>();
      for (let passed = 0; passed < HOURS; passed++) {
        now = now.plus({ hours: 1 });
        if (passed % 97 === 50) now = now.minus({ hours: 25 });
        const due = digestDue(now, wish, { since, lastDigestOn });
        if (!due) continue;
        lastDigestOn = due.on;
        days.push(due.on);
        const local = now.setZone(timeZone).hour;
        hours.set(local, (hours.get(local) ?? 0) + 1);
      }
      expect(new Set(days).size).toBe(days.length);
      for (const [index, on] of days.entries()) if (index > 0) expect(on - days[index - 1]!).toBe(7);
      expect(days.length).toBeGreaterThanOrEqual(37);
      // Hours that a change leaves out are those after the gap; after a step back a moment that was missed is made up by day.
      expect(hours.get(hour) ?? 0).toBeGreaterThanOrEqual(days.length - 6);
    },
  );
});
