import { describe, expect, it } from '@jest/globals';
import { LAKES, type LakeSet, MissingSetError, readLakeSet } from '../../src/bench/water-forecast/lake-sets.js';
import {
  crossingScores,
  dayCoverage,
  dayScores,
  observedCrossings,
  summarised,
  trailingMean,
} from '../../src/bench/water-forecast/scores.js';
import type { WaterForecast } from '../../src/core/thermal/water-forecast.js';
import { civilDay } from '../../src/core/units/civil-day.js';
import { expectWithin } from '../support/expect-within.js';

/** One year of a pure cosine, warmest at the end of July. */
const WATER = Float64Array.from({ length: 730 }, (_, day) => 12 - 12 * Math.cos((2 * Math.PI * (day - 25)) / 365));
const set: LakeSet = {
  site: LAKES[0]!,
  firstDay: civilDay('2018-01-01'),
  days: 730,
  airC: WATER,
  solarMjPerM2: WATER,
  waterC: WATER,
};

describe('scores of the validation', () => {
  it('are the usual ones, first thirty days left out', () => {
    const scores = dayScores(
      set,
      WATER.map((value, day) => value + (day % 2 === 0 ? 3 : -1)),
    );
    expect(scores.days).toBe(700);
    expectWithin(scores.biasC, 1, 1e-9);
    expectWithin(scores.maeC, 2, 1e-9);
    expectWithin(scores.rmseC, Math.sqrt(5), 1e-9);
  });

  it('count the days inside the band', () => {
    const band = {
      p10C: WATER.map((value, day) => value + (day % 4 === 0 ? 0.5 : -1)),
      p90C: WATER.map((value) => value + 1),
    };
    expectWithin(dayCoverage(set, band as unknown as WaterForecast), 0.75, 0.01);
  });

  it('find every crossing of 10, 15 and 20 °C once a season', () => {
    const events = observedCrossings(set);
    expect(events.filter((event) => event.direction === 'falling')).toHaveLength(6);
    expect(events.filter((event) => event.direction === 'rising')).toHaveLength(6);
  });

  it('measure a series two weeks late as two weeks late', () => {
    const late = WATER.map((_, day) => 12 - 12 * Math.cos((2 * Math.PI * (day - 14 - 25)) / 365));
    const scores = summarised(crossingScores(set, trailingMean(late), observedCrossings(set)));
    expect(scores).toMatchObject({ events: 12, missed: 0, medianDays: 14, within7Days: 0 });
    expectWithin(scores.meanDays!, 14, 0.01);
  });

  it('count what the model never crosses as missed', () => {
    const scores = summarised(crossingScores(set, trailingMean(new Float64Array(730)), observedCrossings(set)));
    expect(scores).toEqual({ events: 12, missed: 12, medianDays: null, meanDays: null, within7Days: 0 });
  });

  it('need five values for a 7-day mean', () => {
    const means = trailingMean([1, 2, 3, 4, 5, Number.NaN, Number.NaN, Number.NaN]);
    expect(Array.from(means.subarray(0, 4)).every(Number.isNaN)).toBe(true);
    expect(means[6]).toBe(3);
    expect(means[7]).toBeNaN();
  });

  it('say where a missing set comes from', () => {
    expect(() => readLakeSet('/nowhere', LAKES[0]!)).toThrow(MissingSetError);
    expect(() => readLakeSet('/nowhere', LAKES[0]!)).toThrow('--data');
  });
});
