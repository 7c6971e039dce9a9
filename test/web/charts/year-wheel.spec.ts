import { describe, expect, it } from '@jest/globals';
import { addDays, civilDay } from '../../../src/core/units/civil-day.js';
import { type YearWheelFigures, yearWheel } from '../../../src/web/charts/year-wheel.js';
import { aMark, sampleWater } from './sample-water.js';

const TODAY = civilDay('2026-10-05');

function drawn(own: Partial<YearWheelFigures> = {}): string {
  const water = sampleWater(TODAY);
  return String(
    yearWheel({
      id: 'w',
      pondName: 'Haugen pond',
      today: TODAY,
      latitude: 43,
      units: 'us',
      water,
      feed: [],
      marks: [],
      hubWords: 'and falling',
      ...own,
    }),
  );
}

describe('yearWheel', () => {
  it('is a picture with a name and a description that holds the twelve medians', () => {
    const svg = drawn();
    expect(svg).toContain('role="img"');
    expect(svg).toContain('aria-labelledby="wt wd"');
    expect(svg).toMatch(/<title id="wt">Year wheel of Haugen pond<\/title>/);
    const words = /<desc id="wd">(.*?)<\/desc>/s.exec(svg)?.[1] ?? '';
    expect(words).toContain('July at the top');
    expect(words).toContain('The hand stands at 5 October');
    for (const month of ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec']) {
      expect(words).toMatch(new RegExp(`${month} -?\\d+`));
    }
  });

  it('draws no NaN, no inline style and no script', () => {
    const svg = drawn({ marks: [aMark(1, TODAY), aMark(2, TODAY, { doneBy: 'homeowner', needsAction: true })] });
    expect(svg).not.toMatch(/NaN|undefined|style=|<script|Infinity/);
  });

  it('has January on top south of the equator', () => {
    expect(drawn({ latitude: -37.8, water: sampleWater(TODAY, { south: true }) })).toContain('January at the top');
  });

  it('shows the temperature of the hub in the units that are asked for', () => {
    expect(drawn({ units: 'metric' })).toMatch(/class="hub2"[^>]*>\d+ °C/);
    expect(drawn()).toMatch(/class="hub2"[^>]*>\d+ °F/);
  });

  it('hatches ice and dots the hot band, and needs neither in a mild climate', () => {
    expect(drawn()).toContain('url(#wh)');
    expect(drawn({ water: sampleWater(TODAY, { coldestC: 8, warmestC: 31 }) })).toContain('url(#wo)');
    const mild = drawn({ water: sampleWater(TODAY, { coldestC: 8, warmestC: 22 }) });
    expect(mild).not.toMatch(/fill="url\(#w[ho]\)"/);
  });

  it('draws a square for the crew, a circle for the homeowner and a halo for what needs action', () => {
    const svg = drawn({ marks: [aMark(1, TODAY), aMark(2, TODAY, { doneBy: 'homeowner', needsAction: true })] });
    expect(svg).toMatch(/class="mk mk-t"><rect/);
    expect(svg).toMatch(/class="mk mk-h mk-act"><circle class="halo"/);
  });

  it('widens its box only when the outer lane is used', () => {
    expect(drawn({ marks: [aMark(1, TODAY)] })).toContain('viewBox="17 17 406 406"');
    expect(drawn({ marks: [aMark(1, TODAY), aMark(2, TODAY)] })).toContain('viewBox="0 0 440 440"');
  });

  it('names nothing twice', () => {
    const feed = [
      { kind: 'staple' as const, from: TODAY, until: addDays(TODAY, 60) },
      { kind: 'none' as const, from: addDays(TODAY, 61), until: addDays(TODAY, 200) },
    ];
    const ids = [...drawn({ feed }).matchAll(/ id="([^"]+)"/g)].map((found) => found[1]);
    expect(new Set(ids).size).toBe(ids.length);
  });

  it('escapes the name of a pond', () => {
    expect(drawn({ pondName: '<b>"x"</b>' })).not.toContain('<b>');
  });

  it('can be drawn with a forecast that ends early and a task that is long late', () => {
    const short = sampleWater(TODAY);
    const svg = drawn({
      water: { ...short, p50C: short.p50C.slice(0, 90) },
      marks: [
        aMark(1, TODAY, { earliest: addDays(TODAY, -90), due: addDays(TODAY, -80), latest: addDays(TODAY, -70) }),
      ],
    });
    expect(svg).not.toMatch(/NaN/);
  });
});
