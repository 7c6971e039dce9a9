import { describe, expect, it } from '@jest/globals';
import type { OutlookSummary } from '../../../src/care-calendar/index.js';
import { civilDay, isoDateOf } from '../../../src/core/units/civil-day.js';
import {
  crewYear,
  crossings,
  feedSpans,
  trendWords,
  yearInWords,
} from '../../../src/web/office/ponds/year.view-model.js';
import { sampleWater } from '../charts/sample-water.js';

const TODAY = civilDay('2026-10-05');

function outlook(given: { coldestC?: number; warmestC?: number } = {}): OutlookSummary {
  const { firstDay, p10C, p50C, p90C, iceShare } = sampleWater(TODAY, given);
  return {
    firstDay: isoDateOf(firstDay),
    p10C,
    p50C,
    p90C,
    median7dMeanC: p50C,
    iceShare,
    koeppen: 'Dfa',
    hardinessZone: '5a',
    winterClass: 'W3',
    stations: [],
    warnings: [],
  };
}

describe('feedSpans', () => {
  it('goes through the feeds of a cold climate in their order, without a gap', () => {
    const spans = feedSpans(outlook(), TODAY, true);
    expect(spans.map(({ kind }) => kind)).toEqual(
      ['staple', 'light', 'none', 'light', 'staple'].slice(spans[0]?.kind === 'light' ? 1 : 0),
    );
    for (const [i, span] of spans.slice(1).entries()) expect(span.from).toBe((spans[i]?.until ?? 0) + 1);
  });

  it('is empty for a pond without fish', () => {
    expect(feedSpans(outlook(), TODAY, false)).toEqual([]);
  });

  it('feeds all year where the water stays warm', () => {
    const kinds = new Set(feedSpans(outlook({ coldestC: 16, warmestC: 24 }), TODAY, true).map(({ kind }) => kind));
    expect([...kinds]).toEqual(['staple']);
  });
});

describe('crossings', () => {
  it('takes the dates of the task that waits for the crossing', () => {
    const inputs = [
      { name: 'threshold', value: 10, unit: '°C' },
      { name: 'direction', value: 'falling', unit: '' },
      { name: 'crossing-p10', value: civilDay('2026-10-21'), unit: 'day' },
      { name: 'crossing-p50', value: civilDay('2026-10-26'), unit: 'day' },
      { name: 'crossing-p90', value: civilDay('2026-11-01'), unit: 'day' },
    ];
    const found = crossings(outlook(), TODAY, 'us', [{ trigger: 'crossing', formula: '', source: '', inputs }]);
    expect(found).toContainEqual(
      expect.objectContaining({ thresholdC: 10, label: 'stop feeding, likely 26 Oct (21 Oct – 1 Nov)' }),
    );
  });

  it('reads them off the forecast where no task waits, the likely day between the others', () => {
    const found = crossings(outlook(), TODAY, 'us', []);
    expect(found.length).toBeGreaterThanOrEqual(3);
    for (const { earliest, likely, latest } of found) {
      expect(earliest).toBeLessThanOrEqual(likely);
      expect(likely).toBeLessThanOrEqual(latest);
    }
  });
});

describe('trendWords', () => {
  it('says that October water falls', () => {
    expect(trendWords(outlook(), TODAY)).toBe('falling');
  });
});

describe('yearInWords', () => {
  it('is four sentences: feed, ice, the warmest time, the crew', () => {
    const year = outlook();
    const words = yearInWords({
      outlook: year,
      today: TODAY,
      units: 'us',
      feed: feedSpans(year, TODAY, true),
      crew: { visits: 5, minutes: 520 },
    });
    expect(words).toHaveLength(4);
    expect(words[1]).toMatch(/^Ice is likely from \d+ \w+ to \d+ \w+\.$/);
    expect(words[2]).toMatch(/^Warmest about 2\d July, at 77 °F\.$/);
    expect(words[3]).toBe('Your crew is wanted on about 5 days, 8 h 40 min in all.');
  });

  it('says that no ice is to be expected where there is none', () => {
    const year = outlook({ coldestC: 9 });
    expect(
      yearInWords({ outlook: year, today: TODAY, units: 'us', feed: [], crew: { visits: 0, minutes: 0 } }),
    ).toContain('No ice is to be expected.');
  });
});

describe('crewYear', () => {
  it('counts the fewest days on which every window is met', () => {
    const task = (earliest: number, latest: number) => ({
      number: 1,
      doneBy: 'technician' as const,
      needsAction: false,
      title: '',
      minutes: 30,
      earliest: (TODAY + earliest) as typeof TODAY,
      due: (TODAY + earliest) as typeof TODAY,
      latest: (TODAY + latest) as typeof TODAY,
    });
    expect(crewYear([task(1, 10), task(8, 20), task(9, 12), task(40, 50)], TODAY)).toEqual({ visits: 2, minutes: 120 });
  });
});
