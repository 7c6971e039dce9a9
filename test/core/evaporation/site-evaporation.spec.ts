import { describe, expect, it } from '@jest/globals';
import { siteEvaporationMmPerDay, siteEvaporationOnMmPerDay } from '../../../src/core/evaporation/site-evaporation.js';
import { addDays, civilDay, daysInYear } from '../../../src/core/units/civil-day.js';
import { aClimate, twelve } from '../../support/climates.js';
import { expectWithin } from '../../support/expect-within.js';

const climate = aClimate(twelve(-5, -3, 2, 9, 15, 20, 23, 22, 17, 10, 3, -3));

describe('evaporation of a site', () => {
  it('is highest in summer and hardly any in a frosty winter', () => {
    expect(siteEvaporationMmPerDay(climate, 7)).toBeGreaterThan(4);
    expect(siteEvaporationMmPerDay(climate, 1)).toBeLessThan(1);
    expect(() => siteEvaporationMmPerDay(climate, 13)).toThrow('month: 13');
  });

  it('is that of the month in its middle, and moves evenly from day to day through the year and its end', () => {
    for (let month = 1; month <= 12; month++) {
      const middle = civilDay(`2026-${String(month).padStart(2, '0')}-15`);
      expectWithin(siteEvaporationOnMmPerDay(climate, middle), siteEvaporationMmPerDay(climate, month), 1e-9);
    }
    const first = civilDay('2026-01-01');
    for (let i = 0; i < daysInYear(2026) + 20; i++) {
      const here = siteEvaporationOnMmPerDay(climate, addDays(first, i));
      const next = siteEvaporationOnMmPerDay(climate, addDays(first, i + 1));
      expect(Math.abs(next - here)).toBeLessThan(0.08);
    }
  });
});
