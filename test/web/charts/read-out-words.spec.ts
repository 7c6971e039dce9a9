import { describe, expect, it } from '@jest/globals';
import { addDays, civilDay } from '../../../src/core/units/civil-day.js';
import { type ReadOutData, readOutData } from '../../../src/web/charts/read-out.js';
import { dayWords, readableDays, readOutWords } from '../../../src/web/charts/read-out-words.js';
import { aMark, sampleWater } from './sample-water.js';

const TODAY = civilDay('2026-10-05');

function data(own: Partial<ReadOutData> = {}): ReadOutData {
  const figures = {
    today: TODAY,
    units: 'us',
    water: sampleWater(TODAY),
    marks: [aMark(3, TODAY), aMark(6, TODAY, { earliest: addDays(TODAY, 18), latest: addDays(TODAY, 30) })],
  } as const;
  return { ...(JSON.parse(readOutData(figures)) as ReadOutData), ...own };
}

describe('readOutWords', () => {
  it('says median, likely range and the tasks whose windows are open', () => {
    const of = data({ p50: [100, 100], p10: [47, 47], p90: [54, 54], ice: [0, 0] });
    expect(readOutWords({ ...of, first: '2026-10-26' }, 21)).toBe(
      'Mon 26 Oct: 50 °F, likely 47 to 54 °F; task 6 in its window',
    );
    expect(readOutWords(data(), 19)).toMatch(/; tasks 3 and 6 in their windows$/);
  });

  it('says ice in years of ten, and nothing of a range that is one figure', () => {
    const frozen = data({ first: '2026-10-05', p50: [0], p10: [32], p90: [32], ice: [9], marks: [] });
    expect(readOutWords(frozen, 0)).toBe('Mon 5 Oct: 32 °F; ice in 9 years of 10');
  });

  it('is empty outside the forecast', () => {
    const { from, until } = readableDays(data());
    expect([readOutWords(data(), from - 1), readOutWords(data(), until + 1)]).toEqual(['', '']);
    expect(readOutWords(data(), until)).not.toBe('');
  });

  it('names many tasks by the first six', () => {
    const marks = Array.from({ length: 9 }, (_, i) => [i + 1, 0, 5] as const);
    expect(readOutWords(data({ marks }), 2)).toContain('tasks 1, 2, 3, 4, 5, 6 and 3 more in their windows');
    expect(dayWords(data(), 2)).toBe('7 October');
  });
});

describe('readOutData', () => {
  it('sends today and the year ahead, in whole degrees of the unit, and years of ten with ice', () => {
    const of = data();
    expect([of.p10.length, of.p50.length, of.p90.length, of.ice.length]).toEqual([366, 366, 366, 366]);
    const metric = JSON.parse(readOutData({ today: TODAY, units: 'metric', water: sampleWater(TODAY), marks: [] }));
    for (const [index, low] of of.p10.entries())
      expect(Math.abs(low - (metric.p10[index] * 1.8 + 32))).toBeLessThan(1.5);
    expect(new Set(of.ice)).toEqual(new Set([0, 9]));
  });
});
