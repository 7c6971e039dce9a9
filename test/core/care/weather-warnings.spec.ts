import { describe, expect, it } from '@jest/globals';
import { HOT_MEAN_C, weatherWarnings } from '../../../src/core/care/weather-warnings.js';
import type { WaterForecast } from '../../../src/core/thermal/water-forecast.js';
import { addDays, civilDay } from '../../../src/core/units/civil-day.js';

const TODAY = civilDay('2026-12-03');
const TRACES = 5;

/** Traces that all say the same. */
function forecast(given: { readonly iceCm?: readonly number[]; readonly p50C?: readonly number[] }): WaterForecast {
  const days = 10;
  const perDay = (values: readonly number[] | undefined, day: number) => values?.[day] ?? values?.at(-1) ?? 0;
  const rows = (values: readonly number[] | undefined) =>
    Float32Array.from({ length: TRACES * days }, (_, index) => perDay(values, index % days));
  const column = Float64Array.from({ length: days }, (_, day) => perDay(given.p50C, day));
  return {
    firstDay: TODAY,
    days,
    traces: TRACES,
    waterC: rows(given.p50C),
    water7dMeanC: rows(given.p50C),
    iceCm: rows(given.iceCm),
    airC: rows([0]),
    p10C: column,
    p50C: column,
    p90C: column,
    median7dMeanC: column,
  };
}
const known = (days: number) => ({ today: TODAY, knownUntil: addDays(TODAY, days) });
const warned = (given: Parameters<typeof forecast>[0], days = 6, latitude = 43) =>
  weatherWarnings(forecast(given), known(days), latitude);

describe('weatherWarnings', () => {
  it('warns of young ice by tomorrow, under one name for the whole cooling season', () => {
    expect(warned({ iceCm: [0, 1] })).toEqual([{ id: 'ice-2026', kind: 'ice-forecast', on: TODAY }]);
    const january = { today: civilDay('2027-01-20'), knownUntil: civilDay('2027-01-26') };
    const later = { ...forecast({ iceCm: [0, 1] }), firstDay: january.today };
    expect(weatherWarnings(later, january, 43)[0]?.id).toBe('ice-2026');
  });

  it('does not warn of ice farther ahead, of ice that has stood, or of none', () => {
    expect(warned({ iceCm: [0, 0.2, 4] })).toEqual([]);
    expect(warned({ iceCm: [3, 3.1] })).toEqual([]);
    expect(warned({ iceCm: [9, 10] })).toEqual([]);
    expect(warned({ iceCm: [0] })).toEqual([]);
  });

  it('warns of heat the day before it comes, and on its day', () => {
    expect(warned({ p50C: [24, 25, HOT_MEAN_C] })).toMatchObject([{ kind: 'heat-forecast', on: TODAY + 1 }]);
    expect(warned({ p50C: [24, HOT_MEAN_C] })).toMatchObject([{ kind: 'heat-forecast', on: TODAY }]);
    expect(warned({ p50C: [HOT_MEAN_C] })).toMatchObject([{ kind: 'heat-forecast', on: TODAY }]);
    expect(warned({ p50C: [24, 25, 25.9, 30] })).toEqual([]);
  });

  it('warns only of days whose air is known', () => {
    expect(warned({ iceCm: [0, 1] }, 0)).toEqual([]);
    expect(warned({ p50C: [24, 25, 27] }, 1)).toEqual([]);
    expect(warned({ iceCm: [0, 1], p50C: [27] }, -1)).toEqual([]);
  });

  it('has one name for the days of a week, so that a spell is no mail a day', () => {
    const names = new Set(
      [0, 1, 2, 3, 4, 5, 6].map((ahead) => {
        const today = addDays(civilDay('2026-07-02'), ahead);
        const hot = { ...forecast({ p50C: [28] }), firstDay: today };
        return weatherWarnings(hot, { today, knownUntil: addDays(today, 5) }, 43)[0]?.id;
      }),
    );
    expect(names.size).toBeLessThanOrEqual(2);
  });
});
