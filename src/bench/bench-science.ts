/** `npm run bench:science -- [--json]`: how long the water forecast of one pond takes, warm. */
import path from 'node:path';
import { parseArgs } from 'node:util';
import { loadStations } from '../config/stations.js';
import { siteClimateFor } from '../core/climate/site-climate.js';
import { winterClassFor } from '../core/climate/winter-class.js';
import { crossingDates, seasonWindow } from '../core/thermal/crossing-dates.js';
import { forecastWater } from '../core/thermal/forecast-water.js';
import { spinUpStart } from '../core/thermal/spin-up.js';
import type { PondHeat } from '../core/thermal/water-forecast.js';
import { addDays, civilDay } from '../core/units/civil-day.js';
import { tableOf } from './water-forecast/table.js';

const DAYS = 548;
const TRACES = 40;
const WARM_UP_RUNS = 60;
const MEASURED_RUNS = 200;
const FIRST_DAY = civilDay('2026-11-25');

const SITES = [
  { name: 'Minneapolis, cold', latitude: 44.98, longitude: -93.27, elevationM: 260, waterfallFlowLPerH: 0 },
  { name: 'Atlanta, waterfall', latitude: 33.75, longitude: -84.39, elevationM: 320, waterfallFlowLPerH: 6000 },
  { name: 'Melbourne, south', latitude: -37.81, longitude: 144.96, elevationM: 30, waterfallFlowLPerH: 0 },
] as const;

interface Row {
  readonly what: string;
  readonly runs: number;
  readonly fastestMs: number;
  readonly medianMs: number;
  readonly p95Ms: number;
  readonly nanosecondsPerPondDay: number | null;
}

function measured(what: string, run: (seed: number) => void, pondDays: number | null): Row {
  for (let i = 0; i < WARM_UP_RUNS; i++) run(i);
  const times: number[] = [];
  for (let i = 0; i < MEASURED_RUNS; i++) {
    const start = performance.now();
    run(i);
    times.push(performance.now() - start);
  }
  times.sort((a, b) => a - b);
  const medianMs = times[MEASURED_RUNS / 2] as number;
  return {
    what,
    runs: MEASURED_RUNS,
    fastestMs: times[0] as number,
    medianMs,
    p95Ms: times[Math.floor(0.95 * MEASURED_RUNS)] as number,
    nanosecondsPerPondDay: pondDays === null ? null : (medianMs * 1e6) / pondDays,
  };
}

function rows(): Row[] {
  const stations = loadStations(path.join(import.meta.dirname, '../../config/stations'));
  return SITES.flatMap((site) => {
    const climate = siteClimateFor(site, stations);
    const pond: PondHeat = {
      latitude: site.latitude,
      elevationM: site.elevationM,
      surfaceAreaM2: 20,
      meanDepthM: 0.9,
      shadeShare: 0.3,
      windAt2mMPerS: 1.5,
      waterfallFlowLPerH: site.waterfallFlowLPerH,
    };
    const forecast = forecastWater({ pond, climate, firstDay: FIRST_DAY, days: DAYS, seed: 1, traces: TRACES });
    const rising = seasonWindow('rising', site.latitude, 2027);
    const falling = seasonWindow('falling', site.latitude, 2027);
    const readings = [5, 20, 35, 50, 65, 80].map((daysAgo) => ({
      on: addDays(FIRST_DAY, -daysAgo),
      waterTemperatureC: 12,
    }));
    const simulatedDays = TRACES * (DAYS + FIRST_DAY - spinUpStart(FIRST_DAY, site.latitude));
    return [
      measured(
        `forecast, ${DAYS} days x ${TRACES} traces, ${site.name}`,
        (seed) => forecastWater({ pond, climate, firstDay: FIRST_DAY, days: DAYS, seed, traces: TRACES }),
        simulatedDays,
      ),
      measured(
        `the same with six readings, ${site.name}`,
        (seed) => forecastWater({ pond, climate, firstDay: FIRST_DAY, days: DAYS, seed, traces: TRACES, readings }),
        simulatedDays,
      ),
      measured(
        `thirty crossing dates of it, ${site.name}`,
        () => {
          for (let thresholdC = 5; thresholdC < 20; thresholdC++) {
            crossingDates(forecast, { thresholdC, direction: 'rising', ...rising });
            crossingDates(forecast, { thresholdC, direction: 'falling', ...falling });
          }
        },
        null,
      ),
      measured(`climate of a site, ${site.name}`, () => siteClimateFor(site, stations), null),
      measured(`winter class, ${site.name}`, (seed) => winterClassFor({ climate, pond, maxDepthM: 1.2, seed }), null),
    ];
  });
}

const { values } = parseArgs({ options: { json: { type: 'boolean', default: false } } });
const results = rows();
if (values.json) {
  process.stdout.write(`${JSON.stringify({ rows: results })}\n`);
} else {
  const body = results.map((row) => [
    row.what,
    row.fastestMs.toFixed(3),
    row.medianMs.toFixed(3),
    row.p95Ms.toFixed(3),
    row.nanosecondsPerPondDay === null ? '-' : row.nanosecondsPerPondDay.toFixed(0),
  ]);
  process.stdout.write(`${tableOf(['what', 'fastest ms', 'median ms', 'p95 ms', 'ns per pond-day'], body, 1)}\n`);
  process.stdout.write('\nA pond-day is one day of one trace, the days before the first one included.\n');
}
