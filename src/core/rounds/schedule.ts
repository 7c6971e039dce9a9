import { type FlatProblem, suits } from './flat-problem.js';
import { RoundClock } from './round-clock.js';
import type { RoundsPlan, TimeWindow } from './rounds-problem.js';

/** One stop of a round, by index of the visit. `late`: how far the start lies past the last window of that day. */
export interface ScheduledStop {
  readonly visit: number;
  readonly driving: number;
  readonly arrival: number;
  readonly start: number;
  readonly end: number;
  readonly late: number;
}

export interface RoundSchedule {
  readonly crewDay: number;
  readonly stops: readonly ScheduledStop[];
  /** Latest hour to leave without starting any stop later; the opening of the hours for an empty round. */
  readonly leave: number;
  readonly home: number;
  readonly pause?: TimeWindow;
  readonly driving: number;
  readonly service: number;
  readonly overtime: number;
}

export type BrokenRule =
  | 'window'
  | 'skill'
  | 'crew-size'
  | 'load'
  | 'overtime'
  | 'sick-pond-last'
  | 'locked-crew-day'
  | 'locked-position'
  | 'unassigned-lock';

/** A hard rule that a plan breaks. `by`: how much, in time or load, where that has a meaning. */
export interface BrokenPlanRule {
  readonly rule: BrokenRule;
  readonly crewDay?: number;
  readonly visit?: number;
  readonly by?: number;
}

/** Times of a round in the order given, also of one that breaks rules: a visit that comes too late starts on arrival. */
export function scheduleOf(flat: FlatProblem, crewDay: number, visits: readonly number[]): RoundSchedule {
  const clock = new RoundClock(flat);
  const { hours, pause } = flat.problem.crewDays[crewDay]!;
  clock.begin(crewDay);
  let driven = 0;
  let service = 0;
  const stops = visits.map((visit): ScheduledStop => {
    const isWelcome = clock.visit(visit);
    const late = isWelcome ? 0 : clock.start - lastClose(flat, visit, crewDay);
    const driving = clock.driving - driven;
    driven = clock.driving;
    service += flat.service[visit] as number;
    return { visit, driving, arrival: clock.arrival, start: clock.start, end: clock.time, late };
  });
  clock.home();
  const first = stops[0];
  const isEmpty = first === undefined;
  const pausedAt = clock.pausedAt;
  return {
    crewDay,
    stops,
    leave: first && !isPausedBefore(first, pausedAt) ? first.start - first.driving : hours.open,
    home: isEmpty ? hours.open : clock.time,
    ...(pause && !isEmpty && Number.isFinite(pausedAt)
      ? { pause: { open: pausedAt, close: pausedAt + pause.length } }
      : {}),
    driving: isEmpty ? 0 : clock.driving,
    service,
    overtime: isEmpty ? 0 : Math.max(0, clock.time - hours.close),
  };
}

function isPausedBefore(stop: ScheduledStop, pausedAt: number): boolean {
  return pausedAt < stop.start;
}

/** Every hard rule a plan breaks; an empty list for whatever the search returns. */
export function brokenRules(flat: FlatProblem, plan: RoundsPlan): BrokenPlanRule[] {
  const { crewDays, visits } = flat.problem;
  const broken: BrokenPlanRule[] = [];
  plan.rounds.forEach((round, crewDay) => {
    if (round.length === 0) return;
    const own = crewDays[crewDay]!;
    const schedule = scheduleOf(flat, crewDay, round);
    const over = schedule.home - (flat.latestEnd[crewDay] as number);
    if (over > 0) broken.push({ rule: 'overtime', crewDay, by: over });
    const load = round.reduce((sum, visit) => sum + (flat.load[visit] as number), 0);
    const excess = load - (flat.capacity[crewDay] as number);
    if (excess > 0) broken.push({ rule: 'load', crewDay, by: excess });
    schedule.stops.forEach(({ visit, late }, i) => {
      const wanted = visits[visit]!;
      if (late > 0) broken.push({ rule: 'window', crewDay, visit, by: late });
      if (!suits(wanted, own)) {
        const isShort = (wanted.crewSize ?? 1) > Math.max(1, own.persons.length);
        broken.push({ rule: isShort ? 'crew-size' : 'skill', crewDay, visit });
      }
      const following = round[i + 1];
      if (wanted.isLast && following !== undefined && !visits[following]!.isLast) {
        broken.push({ rule: 'sick-pond-last', crewDay, visit });
      }
      if (wanted.lock && wanted.lock.crewDay !== own.id) broken.push({ rule: 'locked-crew-day', crewDay, visit });
      if (wanted.lock?.position !== undefined && round.slice(0, i).some((earlier) => !flat.isHead[earlier])) {
        broken.push({ rule: 'locked-position', crewDay, visit });
      }
    });
  });
  for (const visit of plan.unassigned) if (visits[visit]!.lock) broken.push({ rule: 'unassigned-lock', visit });
  return broken;
}

/** Close of the last window that this crew-day could have met; of the opening of its hours where there is none. */
function lastClose(flat: FlatProblem, visit: number, crewDay: number): number {
  let close = flat.begin[crewDay] as number;
  for (let w = flat.windowAt[visit] as number; w < (flat.windowAt[visit + 1] as number); w++) {
    const isToday = (flat.windowOpen[w] as number) <= (flat.latestEnd[crewDay] as number);
    if (isToday) close = Math.max(close, flat.windowClose[w] as number);
  }
  return close;
}
