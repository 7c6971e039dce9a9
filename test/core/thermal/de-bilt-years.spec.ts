import { describe, expect, it } from '@jest/globals';
import { firstSustainedRun, seasonWindow } from '../../../src/core/thermal/crossing-dates.js';
import { forecastWater } from '../../../src/core/thermal/forecast-water.js';
import type { DailyAir } from '../../../src/core/thermal/water-forecast.js';
import { addDays, dayFromParts, monthOf } from '../../../src/core/units/civil-day.js';
import deBilt from '../../published/knmi-de-bilt-daily-1980-2019.json' with { type: 'json' };
import { aClimate, aGardenPond, twelve } from '../../support/climates.js';
import { expectWithin } from '../../support/expect-within.js';

/** Air from KNMI (published); what water it gives was computed for the climate handbook by another implementation (derived). */
const AIR: DailyAir[] = deBilt.rows.flatMap(({ year, meanTenthsC }) =>
  meanTenthsC.flatMap((tenths, i) =>
    tenths === null
      ? []
      : [
          {
            on: addDays(dayFromParts(year, 1, 1), i),
            airTemperatureC: tenths / 10,
            airTemperatureMinC: null,
            airTemperatureMaxC: null,
            solarMjPerM2: null,
            windMPerS: null,
            relativeHumidityPct: null,
          },
        ],
  ),
);
const FIRST = AIR[0]!.on;
const DAYS = AIR.at(-1)!.on - FIRST + 1;
const MEAN_C = twelve(3.2, 3.4, 6.2, 9.4, 13.2, 15.8, 18.0, 17.6, 14.6, 10.9, 6.8, 4.2);
/** Share of the sun at De Bilt, climate handbook section 10. */
const SUN = twelve(0.38, 0.41, 0.45, 0.5, 0.48, 0.47, 0.47, 0.47, 0.47, 0.45, 0.39, 0.37);

/** Deutscher Wetterdienst, CLIMAT reports 2003 to 2021 (CC BY 4.0), as in the table of stations. */
const VAPOUR_HPA = twelve(7.2, 7, 7.6, 8.8, 11.1, 13.9, 15.6, 15.8, 13.9, 11.6, 9.3, 7.7);

const water = forecastWater({
  pond: aGardenPond({
    latitude: 52.1,
    surfaceAreaM2: 10_000,
    meanDepthM: 1,
    shadeShare: 0,
    windAt2mMPerS: 1.7,
    waterfallFlowLPerH: 0,
  }),
  climate: aClimate(MEAN_C, { latitude: 52.1, sunShare: SUN, vapourPressureHPa: VAPOUR_HPA }),
  firstDay: FIRST,
  days: DAYS,
  seed: 1,
  traces: 2,
  air: AIR,
});

describe('an open pond at De Bilt, 1980 to 2019', () => {
  // Climate handbook 7.2 (derived), Mar to Nov, tolerance 0.4 there with measured sun and humidity; here from air alone.
  it.each([
    [3, 6.8],
    [4, 13.1],
    [5, 18.5],
    [6, 21.8],
    [7, 23.6],
    [8, 22.6],
    [9, 18.2],
    [10, 12.6],
    [11, 6.7],
  ])('has a mean in month %d near %f °C', (month, meanC) => {
    let sum = 0;
    let count = 0;
    for (let day = 0; day < DAYS; day++) {
      if (monthOf(addDays(FIRST, day)) !== month) continue;
      sum += water.p50C[day]!;
      count++;
    }
    expectWithin(sum / count, meanC, 1.1);
  });

  // Climate handbook section 9 (derived): day of the year and its spread over the years.
  it.each([
    ['rising', 10, 92, 10.0],
    ['rising', 15, 119, 9.1],
    ['falling', 15, 281, 8.9],
    ['falling', 10, 304, 8.5],
    ['falling', 8, 316, 10.8],
    ['rising', 8, 81, 14.9],
  ] as const)('crosses %s %d °C about day %d, give or take %f', (direction, thresholdC, meanDay, sd) => {
    const days: number[] = [];
    for (let year = 1981; year <= 2018; year++) {
      const window = seasonWindow(direction, 52.1, year);
      const run = { thresholdC, direction, first: window.from - FIRST, last: window.until - FIRST, persistence: 7 };
      const at = firstSustainedRun(water.median7dMeanC, run);
      if (at !== null) days.push(addDays(FIRST, at) - dayFromParts(year, 1, 1) + 1);
    }
    const mean = days.reduce((sum, day) => sum + day, 0) / days.length;
    const spread = Math.sqrt(days.reduce((sum, day) => sum + (day - mean) ** 2, 0) / (days.length - 1));
    expect(days.length).toBeGreaterThan(35);
    expectWithin(mean, meanDay, 6);
    expectWithin(spread, sd, 3);
  });
});
