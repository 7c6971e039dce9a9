import type {
  CarePlan,
  DechlorinatorStrength,
  FinishedTask,
  PlannedTask,
  PondReading,
} from '../core/care/care-plan.js';
import type { CareRule, ReadingQuantity } from '../core/care/care-rule.js';
import { planCareCalendar } from '../core/care/plan-care-calendar.js';
import type { PondFacts } from '../core/care/pond-facts.js';
import { type ProjectedOccurrence, projectOccurrences } from '../core/care/project-occurrences.js';
import type { SiteClimate } from '../core/climate/station.js';
import { forecastWater } from '../core/thermal/forecast-water.js';
import type { PondHeat, WaterForecast } from '../core/thermal/water-forecast.js';
import type { CivilDay } from '../core/units/civil-day.js';
import { bundleTasks } from '../core/visits/bundling.js';
import { plannedActuals } from '../core/visits/task-actuals.js';

export interface DemoYearInput {
  readonly facts: PondFacts;
  readonly heat: PondHeat;
  readonly climate: SiteClimate;
  readonly seed: number;
  readonly rules: readonly CareRule[];
  readonly dechlorinator: DechlorinatorStrength;
  readonly careSince: CivilDay;
  readonly today: CivilDay;
  /** Number of the pond: makes the readings of one pond unlike those of the next. */
  readonly place: number;
}

export interface DemoReading {
  readonly quantity: ReadingQuantity;
  readonly value: number;
}

/** What was done on one day: by the technician on a visit, or by the homeowner. */
export interface DemoDay {
  readonly on: CivilDay;
  readonly by: 'technician' | 'homeowner';
  readonly minutes: number;
  readonly tasks: readonly PlannedTask[];
  readonly readings: readonly DemoReading[];
}

/**
 * The engine plans the past year in long steps, each with what was done before; in the last one, near today, what comes
 * again is told each time, so that weekly work does not stand there as late. [days]
 */
const LONG_STEP_DAYS = 158;
const LAST_STEP_DAYS = 49;
/** What lies this near to today stays to be done. [days] */
const LEFT_OPEN_DAYS = 7;
const PLAN_AHEAD_DAYS = 160;
const FORECAST_BEYOND_DAYS = 240;
const MINUTES_PER_VISIT = 180;
/** Enough for the days of an invented past; the coming year is planned with the full number. */
const TRACES = 8;

/** A believable year: the care engine's own calendar of the last twelve months, done as it came due. */
export function demoYear(input: DemoYearInput): DemoDay[] {
  const { careSince, today } = input;
  const forecast = forecastWater({
    pond: input.heat,
    climate: input.climate,
    seed: input.seed,
    firstDay: careSince,
    days: today - careSince + FORECAST_BEYOND_DAYS,
    traces: TRACES,
  });
  const days: DemoDay[] = [];
  const finished: FinishedTask[] = [];
  const readings: PondReading[] = [];

  for (let from = careSince, next = from; from < today - LEFT_OPEN_DAYS; from = next) {
    next = stepAfter(from, today);
    const until = Math.min(next, today - LEFT_OPEN_DAYS) as CivilDay;
    const given = {
      pond: input.facts,
      today: from,
      horizonDays: PLAN_AHEAD_DAYS,
      forecast,
      climate: input.climate,
      rules: input.rules,
      history: { finished, readings, events: [] },
      dechlorinator: input.dechlorinator,
      careSince,
      defaultDoneBy: 'homeowner',
    } as const;
    const plan = planCareCalendar(given);
    const planned = next === today ? [...plan.tasks, ...repeated(plan, projectOccurrences(given, plan))] : plan.tasks;
    const due = planned.filter((task) => !task.routineLine && task.window.due < until);
    for (const day of daysOf(due, from, until)) {
      const withReadings = day.by === 'technician' ? { ...day, readings: readingsOn(day.on, forecast, input) } : day;
      days.push(withReadings);
      for (const task of day.tasks) finished.push(finishedOn(task, day.on));
      for (const [i, { quantity, value }] of withReadings.readings.entries()) {
        readings.push({ id: `demo-${day.on}-${i}`, quantity, value, on: day.on, atMs: day.on * 86_400_000 });
      }
    }
  }
  return days.sort((a, b) => a.on - b.on);
}

function stepAfter(from: CivilDay, today: CivilDay): CivilDay {
  const longStepEnds = Math.min(from + LONG_STEP_DAYS, today - LAST_STEP_DAYS);
  return longStepEnds > from ? (longStepEnds as CivilDay) : today;
}

/** Later times of a planned task, each like the first, on its own day. */
function repeated(plan: CarePlan, later: readonly ProjectedOccurrence[]): PlannedTask[] {
  return later.flatMap(({ ruleId, cycle, machine, due, likely, doneBy }) => {
    const first = plan.tasks.find((task) => task.ruleId === ruleId && task.machine?.id === machine?.id);
    const window = { earliest: likely.from, due, latest: likely.until };
    return first ? [{ ...first, cycle, doneBy, window }] : [];
  });
}

function daysOf(tasks: readonly PlannedTask[], from: CivilDay, until: CivilDay): DemoDay[] {
  const inside = (day: CivilDay) => Math.min(Math.max(day, from), until - 1) as CivilDay;
  const keyOf = (task: PlannedTask) => `${task.ruleId} ${task.cycle}`;
  const byKey = new Map(tasks.map((task) => [keyOf(task), task]));
  const bundled = bundleTasks({
    tasks: tasks
      .filter((task) => task.doneBy === 'technician')
      .map((task) => ({
        id: keyOf(task),
        earliest: inside(task.window.earliest),
        latest: inside(task.window.latest),
        minutes: task.minutes,
        people: task.people,
        skills: [],
      })),
    minutesPerVisit: MINUTES_PER_VISIT,
    setUpMinutes: 15,
  });
  const visits = bundled.visits.map((visit) => ({
    on: workingDay(visit.dueWindow.latest, visit.dueWindow.earliest),
    by: 'technician' as const,
    minutes: visit.minutes,
    tasks: visit.taskIds.flatMap((id) => byKey.get(id) ?? []),
    readings: [],
  }));
  const homework = tasks
    .filter((task) => task.doneBy === 'homeowner')
    .map((task) => ({
      on: inside(task.window.due),
      by: 'homeowner' as const,
      minutes: task.minutes,
      tasks: [task],
      readings: [],
    }));
  return [...visits, ...homework];
}

/** 1970-01-01 was a Thursday. Saturday and Sunday go back to the Friday, inside the window where that can be. */
function workingDay(day: CivilDay, earliest: CivilDay): CivilDay {
  const back = { 2: 1, 3: 2 }[((day % 7) + 7) % 7] ?? 0;
  return (day - back >= earliest ? day - back : day) as CivilDay;
}

function finishedOn(task: PlannedTask, on: CivilDay): FinishedTask {
  return { ruleId: task.ruleId, cycle: task.cycle, state: 'COMPLETED', on, actuals: plannedActuals(task) };
}

/** Invented readings that wander a little, never by chance: the same pond and day give the same figures. */
function readingsOn(on: CivilDay, forecast: WaterForecast, { place, facts }: DemoYearInput): DemoReading[] {
  const wander = (k: number) => Math.sin(on * 0.37 + place * 1.7 + k * 2.1);
  const waterC = (forecast.p50C[on - forecast.firstDay] ?? 12) + 0.6 * wander(0);
  const panel: [ReadingQuantity, number, number][] = [
    ['water-temperature', Math.max(waterC, 0.5), 1],
    ['ph', 7.7 + 0.2 * wander(1) + (place % 3) * 0.1, 1],
    ['alkalinity', Math.round((112 + 22 * wander(2)) / 2) * 2, 0],
  ];
  if (facts.stock.length > 0) {
    panel.push(
      ['total-ammonia', Math.max(0.12 + 0.1 * wander(3), 0), 2],
      ['nitrite', Math.max(0.03 + 0.03 * wander(4), 0), 2],
      ['nitrate', 5.5 + 2.5 * wander(5), 1],
    );
  }
  return panel.map(([quantity, value, decimals]) => ({ quantity, value: Number(value.toFixed(decimals)) }));
}
