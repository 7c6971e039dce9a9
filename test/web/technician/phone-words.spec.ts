import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { gatesStillHeld, isRoundFresh, ROUND_KEPT_MS } from '../../../src/web/technician/phone/gates.js';
import { savedItem } from '../../../src/web/technician/phone/outbox.js';
import {
  agoWords,
  barWords,
  LITTLE_ROOM_BYTES,
  longWaitWords,
  offlineFault,
  phoneClockWords,
  roomWords,
} from '../../../src/web/technician/phone/phone-words.js';
import { fitted } from '../../../src/web/technician/phone/photo.js';
import { lastClosing, stopsOnPhone } from '../../../src/web/technician/phone/round-state.js';
import { phoneId } from '../../../src/web/technician/phone/uuid.js';

const NOW = Date.parse('2026-10-05T12:00:00Z');
const HOUR = 3_600_000;
const item = (own: Partial<ReturnType<typeof savedItem>> = {}) => ({
  ...savedItem({
    id: 'a',
    owner: 'o',
    kind: 'closing',
    visitId: 'v',
    pondName: 'Pond',
    savedAt: '2026-10-05T11:50:00Z',
  }),
  seq: 1,
  ...own,
});

describe('what the bar says', () => {
  it.each([
    [[], ''],
    [[item({ state: 'sent' })], 'All sent'],
    [[item(), item()], '2 not sent yet'],
    [[item(), item({ state: 'needs-you' })], '1 needs you'],
  ] as const)('counts %#', (items, words) => {
    expect(barWords(items, false)).toBe(words);
  });

  it('says while it sends', () => {
    expect(barWords([item()], true)).toBe('Sending 1');
  });
});

describe('what has waited', () => {
  it('is told by its age', () => {
    expect(agoWords('2026-10-05T11:59:50Z', NOW)).toBe('just now');
    expect(agoWords('2026-10-05T11:35:00Z', NOW)).toBe('25 min ago');
    expect(agoWords('2026-10-05T09:00:00Z', NOW)).toBe('3 h ago');
    expect(agoWords('2026-10-01T12:00:00Z', NOW)).toBe('4 days ago');
  });

  it('is worth a warning after a day', () => {
    expect(longWaitWords([item({ savedAt: '2026-10-04T13:00:00Z' })], NOW)).toBe('');
    expect(longWaitWords([item({ savedAt: '2026-10-04T11:00:00Z' })], NOW)).toContain('25 h ago');
    expect(longWaitWords([item({ savedAt: '2026-10-01T11:00:00Z', state: 'sent' })], NOW)).toBe('');
  });
});

describe('what the phone says of itself', () => {
  it('tells a clock that is wrong by more than ten minutes', () => {
    expect(phoneClockWords('2026-10-05T11:51:00Z', NOW)).toBe('');
    expect(phoneClockWords('2026-10-05T11:45:00Z', NOW)).toContain('15 min ahead');
    expect(phoneClockWords('2026-10-08T12:00:00Z', NOW)).toContain('3 days behind');
    expect(phoneClockWords('2036-10-05T12:00:00Z', NOW)).toContain('days behind');
  });

  it('tells early when room grows little', () => {
    expect(roomWords({ quota: 4 * LITTLE_ROOM_BYTES, usage: 0 })).toBe('');
    expect(roomWords({ quota: LITTLE_ROOM_BYTES, usage: LITTLE_ROOM_BYTES / 2 })).toContain('50 MB');
    expect(roomWords({ quota: 10, usage: 20 })).toContain('0 MB');
    expect(roomWords({})).toBe('');
  });

  it('says why it cannot open without signal', () => {
    expect(offlineFault({ isSecure: false, hasWorker: false, hasStore: true })).toContain('HTTPS');
    expect(offlineFault({ isSecure: true, hasWorker: false, hasStore: true })).toContain('keeps no pages');
    expect(offlineFault({ isSecure: true, hasWorker: true, hasStore: false })).toContain('Nothing can be saved');
    expect(offlineFault({ isSecure: true, hasWorker: true, hasStore: true })).toBe('');
  });
});

describe('gate codes', () => {
  const gate = { visitId: 'v', code: '4711', receivedMs: NOW, keepMs: 5 * HOUR };

  it('are held until the day of the visit is over', () => {
    expect(gatesStillHeld([gate], NOW + 5 * HOUR - 1)).toEqual([gate]);
    expect(gatesStillHeld([gate], NOW + 5 * HOUR)).toEqual([]);
  });

  it('go when the clock is set back, which would keep them for good', () => {
    expect(gatesStillHeld([gate], NOW - HOUR)).toEqual([]);
    expect(gatesStillHeld([gate], NOW - 60_000)).toEqual([gate]);
  });
});

describe('a kept round', () => {
  it('is shown for two days, whichever way the clock goes', () => {
    expect(isRoundFresh(NOW, NOW + ROUND_KEPT_MS - 1)).toBe(true);
    expect(isRoundFresh(NOW, NOW + ROUND_KEPT_MS)).toBe(false);
    expect(isRoundFresh(NOW, NOW - ROUND_KEPT_MS)).toBe(false);
  });

  it('shows what this phone has closed, and what came after it', () => {
    const items = [
      item({ kind: 'start' }),
      item(),
      item({ kind: 'start' }),
      item({ visitId: 'w', kind: 'on-the-way' }),
    ];
    const stops = stopsOnPhone(items);
    expect(stops.get('v')).toMatchObject({ words: 'closed, not sent yet', isClosed: true });
    expect(stops.get('w')).toMatchObject({ words: 'on the way', isClosed: false });
    expect(stopsOnPhone([item({ state: 'needs-you' })]).get('v')).toMatchObject({
      words: 'needs you',
      isClosed: false,
    });
  });

  it('speaks of the last closing for an hour', () => {
    expect(lastClosing([item({ id: 'first' }), item({ id: 'last' })], NOW)?.id).toBe('last');
    expect(lastClosing([item({ savedAt: '2026-10-05T10:00:00Z' })], NOW)).toBeNull();
  });
});

describe('an id made on a phone', () => {
  it('is a UUID of version 7 that begins with its time', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 2 ** 48 - 1 }), (atMs) => {
        const id = phoneId(atMs);
        expect(id).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
        expect(Number.parseInt(id.replaceAll('-', '').slice(0, 12), 16)).toBe(atMs);
      }),
    );
  });

  it('is never made twice', () => {
    expect(new Set(Array.from({ length: 1_000 }, () => phoneId(NOW))).size).toBe(1_000);
  });
});

describe('a photo made small', () => {
  it('keeps its proportions within 2048', () => {
    expect(fitted(4000, 3000)).toEqual({ width: 2048, height: 1536 });
    expect(fitted(800, 600)).toEqual({ width: 800, height: 600 });
    expect(fitted(40_000, 3)).toEqual({ width: 2048, height: 1 });
  });
});
