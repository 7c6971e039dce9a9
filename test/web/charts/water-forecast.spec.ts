import { describe, expect, it } from '@jest/globals';
import { addDays, civilDay } from '../../../src/core/units/civil-day.js';
import { placeLabel, pushedApart, wideFrame } from '../../../src/web/charts/forecast-geometry.js';
import type { WaterForecastFigures } from '../../../src/web/charts/forecast-lines.js';
import { forecastTable } from '../../../src/web/charts/forecast-table.js';
import { waterForecast } from '../../../src/web/charts/water-forecast.js';
import { aMark, sampleWater } from './sample-water.js';

const TODAY = civilDay('2026-10-05');
const CROSSING = {
  thresholdC: 10,
  earliest: civilDay('2026-10-21'),
  likely: civilDay('2026-10-26'),
  latest: civilDay('2026-11-01'),
  label: 'stop feeding, likely 26 Oct (21 Oct – 1 Nov)',
  shortLabel: 'stop feeding 26 Oct',
};

function drawn(own: Partial<WaterForecastFigures> = {}): string {
  const base = { id: 'f', pondName: 'Haugen pond', today: TODAY, units: 'us' as const, water: sampleWater(TODAY) };
  return String(
    waterForecast({ ...base, readings: [], hasFish: true, crossings: [CROSSING], marks: [aMark(1, TODAY)], ...own }),
  );
}

describe('waterForecast', () => {
  it('draws a wide and a narrow picture, each with a name, words and ids of its own', () => {
    const svg = drawn();
    expect(svg).toContain('viewBox="0 0 1120 340"');
    expect(svg).toContain('viewBox="0 0 358 300"');
    expect(svg.match(/role="img"/g)).toHaveLength(2);
    const ids = [...svg.matchAll(/ id="([^"]+)"/g)].map((found) => found[1]);
    expect(new Set(ids).size).toBe(ids.length);
  });

  it('says in words when the threshold is passed and when ice is likely', () => {
    const words = /<desc[^>]*>(.*?)<\/desc>/s.exec(drawn())?.[1] ?? '';
    expect(words).toContain('50 °F is passed between 21 October and 1 November, most likely on 26 October.');
    expect(words).toMatch(/Ice is likely from \d+ \w+ to \d+ \w+\./);
  });

  it('draws no NaN and no inline style', () => {
    expect(drawn()).not.toMatch(/NaN|undefined|style=|Infinity/);
  });

  it('rings the readings it can show, not those of the future or long ago', () => {
    const readings = [-300, -40, -3, 5].map((days) => ({ on: addDays(TODAY, days), temperatureC: 14 }));
    const [wide = '', narrow = ''] = drawn({ readings }).split('class="chart narrow"');
    expect(wide.match(/class="rd"/g)).toHaveLength(2);
    expect(narrow.match(/class="rd"/g)).toHaveLength(1);
  });

  it('makes room for water warmer than 31 °C instead of cutting it off', () => {
    const hot = drawn({ water: sampleWater(TODAY, { coldestC: 12, warmestC: 36 }) });
    const topOfBand = Math.min(
      ...[...(/class="bandf" d="([^"]+)"/.exec(hot)?.[1] ?? '').matchAll(/[\d.]+,([\d.]+)/g)].map((found) =>
        Number(found[1]),
      ),
    );
    expect(topOfBand).toBeGreaterThanOrEqual(36);
  });

  it('leaves the feed out where there is no fish', () => {
    const svg = drawn({ hasFish: false, crossings: [] });
    expect(svg).not.toContain('staple feed');
    expect(svg).not.toContain('class="zone');
  });
});

describe('pushedApart', () => {
  it('pushes marks nearer than 20 px to the right and keeps the others', () => {
    const placed = pushedApart(
      [
        { of: 'a', x: 100 },
        { of: 'b', x: 105 },
        { of: 'c', x: 200 },
      ],
      1000,
    );
    expect(placed.map(({ x }) => x)).toEqual([100, 120, 200]);
  });
});

describe('placeLabel', () => {
  const frame = wideFrame(TODAY);
  const whisker = { from: 500, to: 540, y: 190 };

  it('stands to the right of its whisker, above the line, when nothing is there', () => {
    expect(placeLabel('stop feeding', whisker, [], frame)).toMatchObject({ x: 548, y: 182, anchor: 'start' });
  });

  it('goes elsewhere when that place is taken', () => {
    const first = placeLabel('stop feeding', whisker, [], frame);
    const second = placeLabel('stop feeding', whisker, [first.box], frame);
    expect(second).not.toMatchObject({ x: first.x, y: first.y });
  });

  it('stays inside the drawing at its right edge', () => {
    const label = placeLabel('a label of some length', { from: 960, to: 1000, y: 190 }, [], frame);
    expect(label.anchor).toBe('end');
    expect(label.box.right).toBeLessThanOrEqual(frame.right);
  });
});

describe('forecastTable', () => {
  it('has a row for each month with median, band, ice and feed', () => {
    const feed = [
      { kind: 'light' as const, from: TODAY, until: civilDay('2026-10-26') },
      { kind: 'none' as const, from: civilDay('2026-10-27'), until: civilDay('2027-04-10') },
    ];
    const html = String(forecastTable({ today: TODAY, units: 'us', water: sampleWater(TODAY), feed }));
    expect(html).toContain('October 2026');
    expect(html).toContain('light feed to 26 Oct, then none');
    expect(html.match(/<tr>/g)?.length).toBeGreaterThanOrEqual(13);
    expect(html).not.toMatch(/NaN|style=/);
  });
});
