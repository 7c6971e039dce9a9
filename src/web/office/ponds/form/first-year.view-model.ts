import type { CarePreview } from '../../../../care-calendar/index.js';
import { findingWords, taskTitle } from '../../../../core/care/explain.js';
import { showMinutes, type UnitSystem } from '../../../../core/units/show.js';
import type { PondInput } from '../../../../ponds/index.js';
import { numbered } from '../calendar-marks.js';
import { crewYear, dailyWater, feedSpans } from '../year.view-model.js';
import type { FirstYear } from './first-year.view.js';

const TASKS_LISTED = 8;

/** The year of a pond as typed: the wheel, the first tasks, the sums. */
export function firstYearModel(preview: CarePreview, input: PondInput, units: UnitSystem): FirstYear {
  const { today } = preview.plan;
  const marks = numbered(
    preview.tasks.map(({ task, rule }) => ({ planned: task, title: taskTitle(task, rule), ...task.window })),
    today,
  ).map((mark) => ({ ...mark, needsAction: false }));
  const hasFish = input.stock.some(({ species }) => species !== 'slider-turtle');
  return {
    wheel: {
      id: 'first',
      pondName: input.name || 'the new pond',
      today,
      latitude: input.latitude,
      units,
      water: dailyWater(preview.outlook),
      feed: feedSpans(preview.outlook, today, hasFish),
      marks,
      hubWords: 'likely',
    },
    tasks: marks.slice(0, TASKS_LISTED),
    summary: summaryOf(marks, crewYear(marks, today)),
    findings: preview.plan.findings.map((finding) => findingWords(finding, units)),
  };
}

function summaryOf(marks: readonly { doneBy: string }[], crew: { visits: number; minutes: number }): string {
  const mine = marks.filter(({ doneBy }) => doneBy === 'technician').length;
  const visits = crew.visits === 1 ? 'one visit' : `about ${crew.visits} visits`;
  const first = marks.length > TASKS_LISTED ? `The first ${TASKS_LISTED} of ${marks.length} tasks. ` : '';
  const ofCrew = mine === 0 ? 'None for your crew' : `${mine} for your crew, ${showMinutes(crew.minutes)} on ${visits}`;
  return `${first}${ofCrew}; ${marks.length - mine} for the homeowner. Work that repeats is counted once.`;
}
