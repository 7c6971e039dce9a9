import { describe, expect, it } from '@jest/globals';
import { newId } from '../../src/platform/ids.js';

describe('newId', () => {
  it('is a UUID of version 7 that begins with its millisecond', () => {
    const id = newId(Date.parse('2026-11-25T12:00:00.123Z'));
    expect(id).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
    expect(Number.parseInt(id.replaceAll('-', '').slice(0, 12), 16)).toBe(Date.parse('2026-11-25T12:00:00.123Z'));
  });

  it('is never given twice, and sorts in the order in which it was asked for', () => {
    const atMs = Date.now();
    const made = Array.from({ length: 2000 }, () => newId(atMs));
    expect(new Set(made).size).toBe(2000);
    expect([...made].sort()).toEqual(made);
    expect(newId(atMs + 1) > made.at(-1)!).toBe(true);
  });
});
