/**
 * `npm run validate:forecast -- [--data DIR] [--json] [--plot FILE.svg]`: the forecast command against measured lakes in
 * three cases, beside what anyone can do without it (water = air, 7-day mean of the air), and every goal with what was
 * reached. Figures and definitions: climate handbook sections 10 and 11.
 */
import { writeFileSync } from 'node:fs';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { loadStations } from '../config/stations.js';
import type { Station } from '../core/climate/station.js';
import { DAILY_AIR, runCase } from './water-forecast/cases.js';
import { forecastPlot } from './water-forecast/forecast-plot.js';
import { type Goal, goalsOf } from './water-forecast/goals.js';
import { LAKES, type LakeSet, MissingSetError, readLakeSet } from './water-forecast/lake-sets.js';
import { type MethodScores, scoresOf } from './water-forecast/method-scores.js';
import { type CrossingScores, trailingMean } from './water-forecast/scores.js';
import { tableOf } from './water-forecast/table.js';
import { wrongReadingScores } from './water-forecast/wrong-readings.js';

const FIGURES = (value: number | null, digits = 2) => (value === null ? '-' : value.toFixed(digits));
const PERCENT = (share: number | null) => (share === null ? '-' : `${Math.round(100 * share)} %`);

function scoreTable(rows: readonly MethodScores[]): string {
  const days = (scores: CrossingScores) =>
    scores.events === 0 ? '-' : `${FIGURES(scores.meanDays, 1)} (${scores.events - scores.missed}/${scores.events})`;
  const header = 'lake|method|days|RMSE|MAE|bias|below air mean|in band|autumn<=15|autumn|spring|dates in band'.split(
    '|',
  );
  const body = rows.map((row) => [
    row.lake,
    row.method,
    String(row.days),
    FIGURES(row.rmseC),
    FIGURES(row.maeC),
    FIGURES(row.biasC),
    row.key === 'air-7-day-mean' ? '-' : PERCENT(row.belowAirMean),
    PERCENT(row.daysInBand),
    days(row.autumnTo15),
    days(row.autumn),
    days(row.spring),
    row.crossingsInBand === null ? '-' : `${row.crossingsInBand.covered}/${row.crossingsInBand.events}`,
  ]);
  return tableOf(header, body, 2);
}

function goalTable(goals: readonly Goal[]): string {
  const digits = ({ unit }: Goal) => (unit === '°C' ? 2 : unit === '' ? 0 : 1);
  const body = goals.map((goal) => [
    goal.lake,
    goal.figure,
    `${goal.value.toFixed(digits(goal))} ${goal.unit}`.trim(),
    `${goal.goal} ${goal.unit}`.trim(),
    goal.isMet ? 'met' : 'not met',
  ]);
  return tableOf(['lake', 'figure', 'reached', 'goal', ''], body, 2);
}

const LEGEND = `
Errors in °C; band p10 to p90. Below air mean: how much smaller the RMSE is than that of the 7-day mean of the air.
Dates: mean absolute error in days of the crossings of 10, 15 and 20 °C by the 7-day mean, in brackets how many of the
observed ones the method makes at all. Wrong wind: half of it on the open lake, twice on the wooded ones.
`;

function plotOf(sets: readonly LakeSet[], stations: readonly Station[], rows: readonly MethodScores[]): string {
  return forecastPlot(
    sets.map((set) => {
      const row = rows.find(({ lake, key }) => lake === set.site.key && key === DAILY_AIR.key);
      return {
        set,
        forecast: runCase(set, DAILY_AIR, stations),
        airMeansC: trailingMean(set.airC),
        words: row ? `RMSE ${FIGURES(row.rmseC)} °C, ${PERCENT(row.daysInBand)} of the days in the band` : '',
      };
    }),
  );
}

function main(): void {
  const { values } = parseArgs({
    options: {
      data: { type: 'string', default: '../shared/data' },
      json: { type: 'boolean', default: false },
      plot: { type: 'string' },
    },
  });
  const stations = loadStations(path.join(import.meta.dirname, '../../config/stations'));
  const sets = LAKES.map((site) => readLakeSet(values.data, site));
  const rows = sets.flatMap((set) => scoresOf(set, stations));
  const wrong = sets.map((set) => wrongReadingScores(set, stations));
  const goals = goalsOf(rows, wrong);
  if (values.plot !== undefined) writeFileSync(values.plot, plotOf(sets, stations, rows));
  if (values.json) {
    process.stdout.write(`${JSON.stringify({ rows, wrongReadings: wrong, goals })}\n`);
    return;
  }
  const met = goals.filter(({ isMet }) => isMet).length;
  process.stdout.write(`${scoreTable(rows)}\n${LEGEND}\n${goalTable(goals)}\n\n${met} of ${goals.length} goals met.\n`);
}

try {
  main();
} catch (error) {
  if (!(error instanceof MissingSetError)) throw error;
  process.stderr.write(`${error.message}\n`);
  process.exitCode = 1;
}
