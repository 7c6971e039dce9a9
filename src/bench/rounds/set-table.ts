import { tableOf } from '../water-forecast/table.js';
import type { Answer } from './solve-instance.js';

/** Two or three of each class, none chosen by result. */
export const DEVELOPMENT_SET: readonly string[] = [
  ...['C101', 'C104', 'C201', 'C204', 'R101', 'R104', 'R109', 'R201', 'R206', 'RC101', 'RC104', 'RC202'],
];

export interface Run extends Answer {
  readonly optimum: number;
  readonly budgetSeconds: number;
}

export interface BudgetSummary {
  readonly seconds: number;
  readonly meanGap: number;
  readonly worstGap: number;
  readonly infeasible: number;
}

/** Per budget: mean and worst over the instances of the median gap over the seeds, in percent. */
export function summaryOf(runs: readonly Run[]): BudgetSummary[] {
  return budgetsOf(runs).map((seconds) => {
    const own = runs.filter((run) => run.budgetSeconds === seconds);
    const gaps = instancesOf(own).map((instance) => medianGap(own.filter((run) => run.instance === instance)));
    return {
      seconds,
      meanGap: gaps.reduce((sum, gap) => sum + gap, 0) / gaps.length,
      worstGap: Math.max(...gaps),
      infeasible: own.filter((run) => !run.feasible).length,
    };
  });
}

export function setTable(runs: readonly Run[]): string {
  const budgets = budgetsOf(runs);
  const rows = instancesOf(runs).map((instance) => {
    const own = runs.filter((run) => run.instance === instance);
    const gaps = budgets.map((seconds) => medianGap(own.filter((run) => run.budgetSeconds === seconds)).toFixed(2));
    return [instance, (own[0] as Run).optimum.toFixed(1), ...gaps];
  });
  const summary = summaryOf(runs);
  const header = ['instance', 'optimum', ...budgets.map((seconds) => `gap % after ${seconds} s`)];
  const table = tableOf(
    header,
    [
      ...rows,
      ['mean', '', ...summary.map(({ meanGap }) => meanGap.toFixed(3))],
      ['worst', '', ...summary.map(({ worstGap }) => worstGap.toFixed(2))],
      ['infeasible runs', '', ...summary.map(({ infeasible }) => String(infeasible))],
    ],
    1,
  );
  const seeds = runs.length / (rows.length * budgets.length);
  return `${table}\nTRUNC1 (one decimal cut off), vehicles free; median of ${seeds} seeds, two threads, search time.`;
}

function medianGap(runs: readonly Run[]): number {
  const gaps = runs.map((run) => (100 * (run.distance - run.optimum)) / run.optimum).sort((a, b) => a - b);
  const middle = gaps.length >> 1;
  return gaps.length % 2 === 1
    ? (gaps[middle] as number)
    : ((gaps[middle - 1] as number) + (gaps[middle] as number)) / 2;
}

const budgetsOf = (runs: readonly Run[]) => [...new Set(runs.map((run) => run.budgetSeconds))];
const instancesOf = (runs: readonly Run[]) => [...new Set(runs.map((run) => run.instance))];
