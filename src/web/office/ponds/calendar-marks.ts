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

/** Numbers tasks in the order of their days, from 1. One needs action from the day its window opens. */
export function numbered(tasks: readonly MarkSource[], today: CivilDay): NumberedTask[] {
  return [...tasks]
    .sort((a, b) => a.due - b.due || (a.planned.ruleId < b.planned.ruleId ? -1 : 1))
    .map(({ planned, title, earliest, due, latest }, index) => ({
      number: index + 1,
      doneBy: planned.doneBy,
      needsAction: due <= today || (planned.consequence === 'urgent' && earliest <= today),
      title,
      earliest,
      due,
      latest,
      minutes: planned.doneBy === 'technician' ? planned.minutes * planned.people : 0,
      isRoutine: planned.routineLine,
    }));
}
