import type { CareTaskView } from '../care-calendar/index.js';
import { taskTitle } from '../core/care/explain.js';
import { InvalidValueError } from '../core/errors.js';
import { addDays, type CivilDay, civilDay, isoDateOf } from '../core/units/civil-day.js';
import type { TaskId } from '../platform/ids.js';
import { daysOf } from './visit-care-tasks.js';

/** A task whose window does not hold the day of its visit. */
export interface BrokenWindow {
  readonly taskId: TaskId;
  readonly title: string;
  readonly earliestOn: string;
  readonly latestOn: string;
  readonly visitIs: 'too-early' | 'too-late';
}

type Windowed = Pick<CareTaskView, 'task' | 'rule'>;

/** ISO dates sort as text. */
export function brokenWindows(tasks: readonly Windowed[], plannedOn: string): BrokenWindow[] {
  return tasks.flatMap(({ task, rule }) => {
    const { earliestOn, latestOn } = daysOf({ task });
    if (earliestOn <= plannedOn && plannedOn <= latestOn) return [];
    const visitIs = plannedOn < earliestOn ? 'too-early' : 'too-late';
    return [{ taskId: task.id, title: taskTitle(task.planned, rule), earliestOn, latestOn, visitIs }];
  });
}

/** The days on which every task may be done; where there is none, the planned day, which somebody chose by hand. */
export function dueWindowOf(
  tasks: readonly Windowed[],
  plannedOn: string,
): { dueEarliestOn: string; dueLatestOn: string } {
  const days = tasks.map(daysOf);
  const earliest =
    days
      .map((one) => one.earliestOn)
      .sort()
      .at(-1) ?? plannedOn;
  const latest =
    days
      .map((one) => one.latestOn)
      .sort()
      .at(0) ?? plannedOn;
  return earliest <= latest
    ? { dueEarliestOn: earliest, dueLatestOn: latest }
    : { dueEarliestOn: plannedOn, dueLatestOn: plannedOn };
}

/** As far ahead as the calendar looks: 18 months. */
const FARTHEST_DAYS = 550;
const TIME_OF_DAY = /^([01]\d|2[0-3]):[0-5]\d$/;

/** When a visit is to be: a day from today on, and the arrival told to the homeowner as local time from and to. */
export interface VisitTimes {
  readonly plannedOn: string;
  readonly fromTime?: string | null;
  readonly toTime?: string | null;
}

/** @throws InvalidValueError for a day in the past or far ahead, or a time span that is none. */
export function usableTimes(
  times: VisitTimes,
  today: CivilDay,
): { plannedOn: string; fromTime: string | null; toTime: string | null } {
  const day = civilDay(times.plannedOn);
  if (day < today || day > addDays(today, FARTHEST_DAYS)) {
    const allowed = `${isoDateOf(today)} to ${isoDateOf(addDays(today, FARTHEST_DAYS))}`;
    throw new InvalidValueError('day of the visit', times.plannedOn, `Choose a day from ${allowed}.`);
  }
  const fromTime = times.fromTime || null;
  const toTime = times.toTime || null;
  for (const [field, time] of [
    ['from', fromTime],
    ['to', toTime],
  ] as const) {
    if (time !== null && !TIME_OF_DAY.test(time)) {
      throw new InvalidValueError(`arrival ${field}`, time, 'Write a time of day as HH:MM, for example 08:30.');
    }
  }
  if ((fromTime === null) !== (toTime === null)) {
    throw new InvalidValueError('arrival', [fromTime, toTime], 'Give both times, from and to, or neither.');
  }
  if (fromTime !== null && toTime !== null && fromTime >= toTime) {
    throw new InvalidValueError('arrival', [fromTime, toTime], 'The later time must come after the earlier one.');
  }
  return { plannedOn: times.plannedOn, fromTime, toTime };
}
