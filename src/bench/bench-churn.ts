/**
 * `npm run bench:churn -- [--data DIR] [--json]`: a year of nightly replans with the real air of a station, of three ponds
 * at three places in two years each. Inside 60 days before it is due a task moves only out of its standing window, at
 * most twice, and once it was mailed only when the promise cannot be kept, and says so. Violations must be none.
 */
import path from 'node:path';
import { parseArgs } from 'node:util';
import { ClimateService } from '../climate/index.js';
import { loadCareRules, loadDechlorinators, loadStations } from '../config/index.js';
import { type ChurnCount, churnCount } from './churn/churn-count.js';
import { churnPonds } from './churn/churn-ponds.js';
import { livedYear, planInHindsight } from './churn/churn-year.js';
import { MissingWeatherError, measuredAir, WEATHER_SITES } from './churn/measured-air.js';
import { tableOf } from './water-forecast/table.js';

interface Row extends ChurnCount {
  readonly what: string;
}

const { values } = parseArgs({
  options: { data: { type: 'string', default: '../shared/data' }, json: { type: 'boolean', default: false } },
});

function rowsOf(dataDirectory: string): Row[] {
  const config = path.join(import.meta.dirname, '../../config');
  const climates = new ClimateService(loadStations(path.join(config, 'stations')));
  const settings = { rules: loadCareRules(config), dechlorinator: loadDechlorinators(config).preset };
  return WEATHER_SITES.flatMap((site) => {
    const air = measuredAir(dataDirectory, site);
    const climate = climates.siteFor(site);
    return site.years.flatMap((year) =>
      churnPonds(year).map((pond) => {
        const churn = { climate, pond, year, air, settings };
        const count = churnCount(livedYear(churn), planInHindsight(churn));
        return { what: `${site.name} ${year}, ${pond.pondId}`, ...count };
      }),
    );
  });
}

function cellsOf({ what, tasks, neverMoved, moves, brokenPromises, violations, errorsDays }: Row): string[] {
  const sizes = errorsDays.map(({ days }) => Math.abs(days)).sort((a, b) => a - b);
  const mean = sizes.reduce((sum, days) => sum + days, 0) / sizes.length;
  return [
    what,
    String(tasks),
    (moves / tasks).toFixed(2),
    `${Math.round((100 * neverMoved) / tasks)} %`,
    String(brokenPromises),
    sizes.length === 0 ? '-' : mean.toFixed(1),
    sizes.length === 0 ? '-' : String(sizes[Math.floor(0.9 * (sizes.length - 1))]),
    String(violations.length),
  ];
}

const HEADER = ['place, year, pond', 'tasks', 'moves/task', 'never moved', 'broken', 'error d', 'p90 d', 'violations'];

try {
  const rows = rowsOf(values.data);
  const sum = (figure: (row: Row) => number) => rows.reduce((total, row) => total + figure(row), 0);
  const all: Row = {
    what: 'all',
    tasks: sum(({ tasks }) => tasks),
    neverMoved: sum(({ neverMoved }) => neverMoved),
    moves: sum(({ moves }) => moves),
    brokenPromises: sum(({ brokenPromises }) => brokenPromises),
    violations: rows.flatMap(({ violations }) => violations),
    errorsDays: rows.flatMap(({ errorsDays }) => errorsDays),
  };
  if (values.json) process.stdout.write(`${JSON.stringify({ rows, all })}\n`);
  else {
    process.stdout.write(`${tableOf(HEADER, [...rows, all].map(cellsOf), 1)}\n`);
    for (const row of rows) {
      for (const { kind, task, on } of row.violations) process.stdout.write(`${row.what}: ${on} ${task} ${kind}\n`);
    }
  }
  if (all.violations.length > 0) process.exitCode = 1;
} catch (error) {
  if (!(error instanceof MissingWeatherError)) throw error;
  process.stderr.write(`${error.message}\n`);
  process.exitCode = 1;
}
