import { describe, expect, it } from '@jest/globals';
import { handReadingC, readingDays } from '../../src/bench/water-forecast/cases.js';
import { forecastPlot } from '../../src/bench/water-forecast/forecast-plot.js';
import { goalsOf } from '../../src/bench/water-forecast/goals.js';
import { LAKES, type LakeSet } from '../../src/bench/water-forecast/lake-sets.js';
import type { MethodScores } from '../../src/bench/water-forecast/method-scores.js';
import type { WaterForecast } from '../../src/core/thermal/water-forecast.js';
import { civilDay } from '../../src/core/units/civil-day.js';

const NO_DATES = { events: 0, missed: 0, medianDays: null, meanDays: null, within7Days: null };
function scores(lake: string, key: MethodScores['key'], changes: Partial<MethodScores> = {}): MethodScores {
  return {
    lake,
    method: key,
    key,
    days: 400,
    rmseC: 1.1,
    maeC: 0.8,
    biasC: 0,
    belowAirMean: 0.5,
    daysInBand: 0.8,
    autumnTo15: { events: 3, missed: 0, medianDays: 1, meanDays: 1, within7Days: 1 },
    autumn: NO_DATES,
    spring: NO_DATES,
    crossingsInBand: null,
    ...changes,
  };
}
const cases = (lake: string, changes: Partial<MethodScores> = {}) => [
  scores(lake, 'daily-air', changes),
  scores(lake, 'wrong-exposure-six'),
  scores(lake, 'normals', { rmseC: 2 }),
];
const RIGHT = { lake: 'PRPO', tried: 10, gated: 10, worstRiseC: 0.1 };
const unmet = (rows: readonly MethodScores[], wrong = RIGHT) =>
  goalsOf(rows, [wrong])
    .filter(({ isMet }) => !isMet)
    .map(({ lake, figure }) => `${lake} ${figure}`);

describe('goals of the water forecast', () => {
  it('are all met by a good forecast', () => {
    expect(unmet([...cases('PRPO'), ...cases('SUGG'), ...cases('LIRO')])).toEqual([]);
  });

  it('ask for 1.2 °C on one lake, 1.4 on another and no figure of a deep one', () => {
    expect(unmet(cases('PRPO', { rmseC: 1.3 }))).toEqual(['PRPO RMSE, daily air']);
    expect(unmet(cases('SUGG', { rmseC: 1.3 }))).toEqual([]);
    expect(unmet(cases('LIRO', { rmseC: 2.3 }))).toEqual([]);
  });

  it('name what is too close to the air, too wide, too late or not crossed at all', () => {
    expect(unmet(cases('LIRO', { belowAirMean: 0.29 }))).toEqual(['LIRO below 7-day mean of air, daily air']);
    expect(unmet(cases('LIRO', { daysInBand: 0.93 }))).toEqual(['LIRO days inside p10 to p90, daily-air']);
    const missed = { events: 3, missed: 1, medianDays: 0, meanDays: 0, within7Days: 0.66 };
    expect(unmet(cases('LIRO', { autumnTo15: missed }))).toEqual(['LIRO autumn dates to 15 °C, daily air']);
    expect(unmet([...cases('PRPO').slice(0, 2), scores('PRPO', 'normals', { rmseC: 2.7 })])).toEqual([
      'mean RMSE, normals only',
    ]);
  });

  it('ask that every wrong reading is gated and harms no season', () => {
    expect(unmet(cases('PRPO'), { ...RIGHT, gated: 9 })).toEqual(['PRPO readings 10 °C off gated, of 10']);
    expect(unmet(cases('PRPO'), { ...RIGHT, worstRiseC: 0.31 })).toEqual(['PRPO worst rise by one of them']);
  });
});

const WATER = Float64Array.from({ length: 500 }, (_, day) => (day % 7 === 0 ? Number.NaN : 10 + day / 50));
const set: LakeSet = {
  site: { ...LAKES[0]!, name: 'A lake <of> & more' },
  firstDay: civilDay('2018-01-01'),
  days: 500,
  airC: WATER,
  solarMjPerM2: WATER,
  waterC: WATER,
};

describe('readings of the validation', () => {
  it('are six a year on days that were observed, to half a degree', () => {
    const days = readingDays(set, 6);
    expect(days).toHaveLength(12);
    expect(days.every((day) => !Number.isNaN(WATER[day]!))).toBe(true);
    expect(handReadingC(12.3)).toBe(12.5);
  });
});

describe('plot of the validation', () => {
  it('has one panel a lake, its text escaped, gaps left open', () => {
    const line = Float64Array.from({ length: 500 }, (_, day) => 10 + day / 50);
    const forecast = { p10C: line, p50C: line, p90C: line } as unknown as WaterForecast;
    const svg = forecastPlot([
      { set, forecast, airMeansC: WATER, words: 'RMSE 1 °C' },
      { set, forecast, airMeansC: WATER, words: '' },
    ]);
    expect(svg.startsWith('<svg xmlns="http://www.w3.org/2000/svg"')).toBe(true);
    expect(svg.match(/<g>/g)).toHaveLength(2);
    expect(svg).toContain('A lake &lt;of> &amp; more');
    expect(svg).not.toContain('NaN');
    expect(svg).toContain('<desc');
  });
});
