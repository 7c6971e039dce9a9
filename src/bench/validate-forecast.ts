/**
 * `npm run validate:forecast -- [--data DIR] [--json]`: the forecast command against measured lakes, beside what anyone
 * can do without it (water = air, 7-day mean of the air). Figures and definitions: climate handbook sections 10 and 11.
 */
import path from 'node:path';
import { parseArgs } from 'node:util';
import { loadStations } from '../config/stations.js';
import type { Station } from '../core/climate/station.js';
import { CASES, runCase } from './water-forecast/cases.js';
import { LAKES, type LakeSet, MissingSetError, readLakeSet } from './water-forecast/lake-sets.js';
import {
  type CrossingScores,
  crossingScores,
  crossingsCovered,
  type DayScores,
  dayCoverage,
  dayScores,
  observedCrossings,
  summarised,
  trailingMean,
} from './water-forecast/scores.js';
import { tableOf } from './water-forecast/table.js';

interface Row extends DayScores {
  readonly lake: string;
  readonly method: string;
  readonly daysInBand: number | null;
  readonly autumnTo15: CrossingScores;
  readonly autumn: CrossingScores;
  readonly spring: CrossingScores;
  readonly crossingsInBand: { readonly events: number; readonly covered: number } | null;
}

function rowsOf(set: LakeSet, stations: readonly Station[]): Row[] {
  const lake = set.site.key;
  const airMeans = trailingMean(set.airC);
  const naive = [
    { lake, method: 'water = air', ...seriesScores(set, set.airC, airMeans), daysInBand: null, crossingsInBand: null },
    {
      lake,
      method: '7-day mean of air',
      ...seriesScores(set, airMeans, airMeans),
      daysInBand: null,
      crossingsInBand: null,
    },
  ];
  const hasSolar = set.solarMjPerM2.some((value) => !Number.isNaN(value));
  const modelled = CASES.filter((kind) => hasSolar || !kind.withSolar).map((kind) => {
    const forecast = runCase(set, kind, stations);
    const events = observedCrossings(set);
    return {
      lake,
      method: kind.name,
      ...seriesScores(set, forecast.p50C, trailingMean(forecast.p50C)),
      daysInBand: dayCoverage(set, forecast),
      crossingsInBand: { events: events.length, covered: crossingsCovered(set, forecast, events) },
    };
  });
  return [...naive, ...modelled];
}

function seriesScores(set: LakeSet, dailyC: ArrayLike<number>, means: ArrayLike<number>) {
  const events = observedCrossings(set);
  const falling = events.filter((event) => event.direction === 'falling');
  const score = (some: typeof events) => summarised(crossingScores(set, means, some));
  return {
    ...dayScores(set, dailyC),
    autumnTo15: score(falling.filter((event) => event.thresholdC <= 15)),
    autumn: score(falling),
    spring: score(events.filter((event) => event.direction === 'rising')),
  };
}

const FIGURES = (value: number | null, digits = 2) => (value === null ? '-' : value.toFixed(digits));

function printTable(rows: readonly Row[]): void {
  const days = (scores: CrossingScores) =>
    scores.events === 0 ? '-' : `${FIGURES(scores.meanDays, 1)} (${scores.events - scores.missed}/${scores.events})`;
  const header = [
    'lake',
    'method',
    'days',
    'RMSE',
    'MAE',
    'bias',
    'in band',
    'autumn<=15',
    'autumn',
    'spring',
    'dates in band',
  ];
  const body = rows.map((row) => [
    row.lake,
    row.method,
    String(row.days),
    FIGURES(row.rmseC),
    FIGURES(row.maeC),
    FIGURES(row.biasC),
    row.daysInBand === null ? '-' : `${Math.round(100 * row.daysInBand)} %`,
    days(row.autumnTo15),
    days(row.autumn),
    days(row.spring),
    row.crossingsInBand === null ? '-' : `${row.crossingsInBand.covered}/${row.crossingsInBand.events}`,
  ]);
  process.stdout.write(`${tableOf(header, body, 2)}\n`);
  process.stdout.write(
    '\nErrors in °C; band p10 to p90. Dates: mean absolute error in days of the crossings of 10, 15 and 20 °C by the\n' +
      '7-day mean, in brackets how many of the observed ones the method makes at all.\n',
  );
}

function main(): void {
  const { values } = parseArgs({
    options: { data: { type: 'string', default: '../shared/data' }, json: { type: 'boolean', default: false } },
  });
  const stations = loadStations(path.join(import.meta.dirname, '../../config/stations'));
  const rows = LAKES.flatMap((site) => rowsOf(readLakeSet(values.data, site), stations));
  if (values.json) process.stdout.write(`${JSON.stringify({ rows })}\n`);
  else printTable(rows);
}

try {
  main();
} catch (error) {
  if (!(error instanceof MissingSetError)) throw error;
  process.stderr.write(`${error.message}\n`);
  process.exitCode = 1;
}
