import type { ChartMark } from '../../../charts/chart-figures.js';
import { shortDate } from '../../../charts/show-date.js';
import { taskMark } from '../../../charts/task-mark.js';
import { type YearWheelFigures, yearWheel } from '../../../charts/year-wheel.js';

/** The year of a pond that is not saved yet. */
export interface FirstYear {
  readonly wheel: YearWheelFigures;
  /** The first of them, in time order. */
  readonly tasks: readonly ChartMark[];
  /** How many of each, and how long the crew is there. */
  readonly summary: string;
  readonly findings: readonly string[];
}

/** Stands in place of the year while something is missing. */
export interface FirstYearMissing {
  readonly missing: string;
}

export function firstYear(year: FirstYear | FirstYearMissing): JSX.Element {
  if ('missing' in year) {
    return (
      <p class="empty">
        <b>Not enough is known yet.</b>
        <span safe>{year.missing}</span>
      </p>
    );
  }
  return (
    <>
      <p class="fine">Preview. Nothing is stored yet.</p>
      {yearWheel(year.wheel)}
      {year.findings.map((finding) => (
        <p class="said act" safe>
          {finding}
        </p>
      ))}
      <ol>
        {year.tasks.map((task) => (
          <li>
            {taskMark(task)}
            <span safe>{task.title}</span>
            <span class="q num" safe>
              {shortDate(task.due)}
            </span>
          </li>
        ))}
      </ol>
      <p class="fine" safe>
        {year.summary}
      </p>
    </>
  );
}
