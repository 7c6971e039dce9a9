import { describe, expect, it } from '@jest/globals';
import { InvalidValueError, OutOfRangeError } from '../../../src/core/errors.js';
import { crossingDates, firstSustainedRun, seasonWindow } from '../../../src/core/thermal/crossing-dates.js';
import type { WaterForecast } from '../../../src/core/thermal/water-forecast.js';
import { addDays, type CivilDay, civilDay } from '../../../src/core/units/civil-day.js';

const FIRST = civilDay('2026-07-01');

/** A forecast of nothing but 7-day means, one list a trace. */
function ofMeans(traces: readonly (readonly number[])[], firstDay: CivilDay = FIRST): WaterForecast {
  const days = traces[0]!.length;
  const values = Float32Array.from(traces.flat());
  const none = new Float64Array(days);
  return {
    firstDay,
    days,
    traces: traces.length,
    waterC: values,
    water7dMeanC: values,
    iceCm: new Float32Array(values.length),
    airC: values,
    p10C: none,
    p50C: none,
    p90C: none,
    median7dMeanC: none,
  };
}
/** Falls by a tenth of a degree a day from 20 °C. */
const falling = (delay = 0) => Array.from({ length: 184 }, (_, day) => 20.05 - 0.1 * Math.max(0, day - delay));
const autumn = { direction: 'falling' as const, ...seasonWindow('falling', 45, 2026) };

describe('crossing dates', () => {
  it('are the first day of a run of seven beyond the threshold', () => {
    // 20.05 - 0.1 d < 15 from day 51 on.
    const dates = crossingDates(ofMeans([falling()]), { ...autumn, thresholdC: 15 });
    expect(dates).toEqual({
      share: 1,
      p10: addDays(FIRST, 51),
      p50: addDays(FIRST, 51),
      p90: addDays(FIRST, 51),
      none: null,
    });
  });

  it('do not count a cold spell of six days', () => {
    const spell = falling().map((value, day) => (day >= 40 && day < 46 ? 14 : value));
    expect(crossingDates(ofMeans([spell]), { ...autumn, thresholdC: 15 }).p50).toBe(addDays(FIRST, 51));
    const week = falling().map((value, day) => (day >= 40 && day < 47 ? 14 : value));
    expect(crossingDates(ofMeans([week]), { ...autumn, thresholdC: 15 }).p50).toBe(addDays(FIRST, 40));
  });

  it('follow a shorter persistence where it is asked for', () => {
    const spell = falling().map((value, day) => (day >= 40 && day < 45 ? 14 : value));
    const asked = { ...autumn, thresholdC: 15, persistenceDays: 5 };
    expect(crossingDates(ofMeans([spell]), asked).p50).toBe(addDays(FIRST, 40));
  });

  it('mirror when rising', () => {
    const rising = Array.from({ length: 200 }, (_, day) => 1.05 + 0.1 * day);
    const forecast = ofMeans([rising], civilDay('2026-01-05'));
    const dates = crossingDates(forecast, { thresholdC: 10, direction: 'rising', ...seasonWindow('rising', 45, 2026) });
    // 1.05 + 0.1 d > 10 from day 90 on.
    expect(dates.p50).toBe(addDays(civilDay('2026-01-05'), 90));
  });

  it('spread over the traces, median in the middle', () => {
    const traces = Array.from({ length: 11 }, (_, trace) => falling(2 * trace));
    const dates = crossingDates(ofMeans(traces), { ...autumn, thresholdC: 15 });
    expect(dates).toMatchObject({ p10: addDays(FIRST, 53), p50: addDays(FIRST, 61), p90: addDays(FIRST, 69) });
  });

  it('are null with a reason where fewer than half of the traces cross', () => {
    const above = Array.from({ length: 184 }, () => 26);
    const below = Array.from({ length: 184 }, () => 8);
    const nothing = { p10: null, p50: null, p90: null };
    expect(crossingDates(ofMeans([above, above, falling()]), { ...autumn, thresholdC: 15 })).toEqual({
      ...nothing,
      share: 1 / 3,
      none: 'always-above',
    });
    expect(crossingDates(ofMeans([below, below]), { ...autumn, thresholdC: 15 })).toEqual({
      ...nothing,
      share: 0,
      none: 'always-below',
    });
  });

  it('ignore a crossing outside the window and a run that the forecast does not complete', () => {
    const early = Array.from({ length: 184 }, (_, day) => (day < 10 ? 16 : 14));
    expect(crossingDates(ofMeans([early]), { ...autumn, thresholdC: 15 }).none).toBe('always-below');
    const late = Array.from({ length: 184 }, (_, day) => (day < 179 ? 16 : 14));
    expect(crossingDates(ofMeans([late]), { ...autumn, thresholdC: 15 })).toMatchObject({
      share: 0,
      none: 'always-above',
    });
  });

  it('refuse a window outside the forecast and an absurd threshold', () => {
    const window = seasonWindow('falling', 45, 2030);
    expect(() => crossingDates(ofMeans([falling()]), { direction: 'falling', thresholdC: 15, ...window })).toThrow(
      InvalidValueError,
    );
    expect(() => crossingDates(ofMeans([falling()]), { ...autumn, thresholdC: 150 })).toThrow(OutOfRangeError);
  });

  it('break at a missing mean', () => {
    const gap = falling();
    gap[54] = Number.NaN;
    const run = { thresholdC: 15, direction: 'falling' as const, first: 1, last: 177, persistence: 7 };
    expect(firstSustainedRun(falling(), run)).toBe(51);
    expect(firstSustainedRun(gap, run)).toBeNull();
  });
});

describe('season window', () => {
  it('runs from high summer to the turn of the year when falling, half a year later in the south', () => {
    expect(seasonWindow('falling', 45, 2026)).toEqual({ from: civilDay('2026-07-25'), until: civilDay('2027-01-05') });
    expect(seasonWindow('rising', 45, 2026)).toEqual({ from: civilDay('2026-01-10'), until: civilDay('2026-07-25') });
    expect(seasonWindow('falling', -35, 2026)).toEqual({ from: civilDay('2026-01-25'), until: civilDay('2026-07-05') });
    expect(seasonWindow('rising', -35, 2026)).toEqual({ from: civilDay('2026-07-10'), until: civilDay('2027-01-25') });
  });
});
