import type { PlannedTask } from '../../../core/care/care-plan.js';
import type { CivilDay } from '../../../core/units/civil-day.js';
import type { ChartMark } from '../../charts/chart-figures.js';

/** A task with the number it carries on the wheel, on the chart and in the calendar. */
export interface NumberedTask extends ChartMark {
  readonly minutes: number;
  readonly isRoutine: boolean;
}

export interface MarkSource {
  readonly planned: PlannedTask;
  readonly title: string;
  /** As a person set it, else as planned. */
  readonly earliest: CivilDay;
  readonly due: CivilDay;
  readonly latest: CivilDay;
}

/** From its due day on, an urgent one as soon as its window opens. Standing lines of a season are never waited for. */
function needsAction(planned: PlannedTask, earliest: CivilDay, due: CivilDay, today: CivilDay): boolean {
  if (planned.consequence === 'urgent') return earliest <= today;
  return !planned.routineLine && due <= today;
}

/** Numbers tasks in the order of their days, from 1. */
export function numbered(tasks: readonly MarkSource[], today: CivilDay): NumberedTask[] {
  return [...tasks]
    .sort((a, b) => a.due - b.due || (a.planned.ruleId < b.planned.ruleId ? -1 : 1))
    .map(({ planned, title, earliest, due, latest }, index) => ({
      number: index + 1,
      doneBy: planned.doneBy,
      needsAction: needsAction(planned, earliest, due, today),
      title,
      earliest,
      due,
      latest,
      minutes: planned.doneBy === 'technician' ? planned.minutes * planned.people : 0,
      isRoutine: planned.routineLine,
    }));
}
