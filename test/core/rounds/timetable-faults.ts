import type { RoundsPlan, RoundsProblem } from '../../../src/core/rounds/rounds-problem.js';
import type { RoundSchedule } from '../../../src/core/rounds/schedule.js';

/**
 * Referee of plans: reads a timetable and holds every hard rule against it. Shares nothing with the search and does not
 * know how times are found, only what they must satisfy.
 */
export function timetableFaults(
  problem: RoundsProblem,
  plan: RoundsPlan,
  schedules: readonly RoundSchedule[],
): string[] {
  const faults: string[] = [];
  const times = new Map<number, number>();
  for (const visit of [...plan.rounds.flat(), ...plan.unassigned]) times.set(visit, (times.get(visit) ?? 0) + 1);
  problem.visits.forEach((visit, v) => {
    const count = times.get(v) ?? 0;
    if (count !== 1) faults.push(`${visit.id} stands ${count} times`);
  });
  if (plan.rounds.length !== problem.crewDays.length) faults.push('not one round per crew-day');
  plan.rounds.forEach((stops, r) => {
    faults.push(...roundFaults(problem, r, stops, schedules[r] as RoundSchedule));
  });
  return faults;
}

function roundFaults(problem: RoundsProblem, r: number, stops: readonly number[], schedule: RoundSchedule): string[] {
  if (stops.length === 0) return [];
  const crewDay = problem.crewDays[r]!;
  const faults: string[] = [];
  const driving = (from: number, to: number) => problem.travel[from * problem.places + to] as number;
  const pause = schedule.pause;
  let at = crewDay.startPlace;
  let free = crewDay.hours.open;
  let load = 0;
  let sick = false;
  const needed = (from: number, to: number) =>
    driving(from, to) + (pause && pause.open >= free && pause.open < nextStart ? pause.close - pause.open : 0);
  let nextStart = 0;
  stops.forEach((v, i) => {
    const visit = problem.visits[v]!;
    const stop = schedule.stops[i]!;
    nextStart = stop.start;
    if (stop.visit !== v) faults.push('timetable in another order');
    if (stop.start < free + needed(at, visit.place) - 1e-6) faults.push(`${visit.id} before one can be there`);
    const end = stop.start + visit.service;
    const isInside = visit.windows.some(
      ({ open, close }) => stop.start >= open - 1e-6 && (visit.endsInside ? end : stop.start) <= close + 1e-6,
    );
    const fixed = visit.lock?.start;
    if (fixed === undefined ? !isInside : fixed !== stop.start) faults.push(`${visit.id} outside its windows`);
    if (pause && pause.open < end - 1e-6 && pause.close > stop.start + 1e-6) faults.push('pause during work');
    for (const skill of visit.lock ? [] : (visit.skills ?? [])) {
      if (!crewDay.skills?.includes(skill)) faults.push(`${visit.id} needs ${skill}`);
    }
    if (!visit.lock && (visit.crewSize ?? 1) > Math.max(1, crewDay.persons.length))
      faults.push(`${visit.id} needs more hands`);
    if (visit.lock && visit.lock.crewDay !== crewDay.id) faults.push(`${visit.id} left its lock`);
    const position = visit.lock?.position;
    if (position !== undefined && stops.slice(0, i).some((u) => problem.visits[u]!.lock?.position === undefined)) {
      faults.push(`${visit.id} is not in the head`);
    }
    if (sick && !visit.isLast) faults.push(`${visit.id} after a sick pond`);
    sick ||= visit.isLast ?? false;
    load += visit.load ?? 0;
    free = end;
    at = visit.place;
  });
  nextStart = Number.POSITIVE_INFINITY;
  if (schedule.home < free + needed(at, crewDay.endPlace) - 1e-6) faults.push(`${crewDay.id} home before it can be`);
  if (schedule.home > crewDay.hours.close + (crewDay.overtimeAllowed ?? 0) + 1e-6)
    faults.push(`${crewDay.id} home late`);
  if (load > (crewDay.capacity ?? Number.POSITIVE_INFINITY)) faults.push(`${crewDay.id} overloaded`);
  faults.push(...pauseFaults(crewDay, schedule));
  return faults;
}

function pauseFaults(crewDay: RoundsProblem['crewDays'][number], schedule: RoundSchedule): string[] {
  const wanted = crewDay.pause;
  const given = schedule.pause;
  if (!wanted || crewDay.hours.open > wanted.close) return [];
  if (!given) return schedule.home > wanted.close ? [`${crewDay.id} without its pause`] : [];
  const isRight = given.open >= wanted.open && given.open <= wanted.close && given.close - given.open === wanted.length;
  return isRight ? [] : [`${crewDay.id} pauses at ${given.open} for ${given.close - given.open}`];
}

/** The objective from a timetable, written down a second time. */
export function timetableCost(problem: RoundsProblem, plan: RoundsPlan, schedules: readonly RoundSchedule[]): number {
  const prices = {
    overtime: 3,
    preferenceMissed: 15,
    otherDay: 30,
    otherCrew: 15,
    otherTime: 20,
    unfairness: 0.05,
    round: 0.1,
  };
  Object.assign(prices, problem.prices);
  const worked = new Map<string, number>();
  const hours = new Map<string, number>();
  let cost = 0;
  problem.crewDays.forEach((crewDay, r) => {
    const stops = plan.rounds[r] as readonly number[];
    const places = [crewDay.startPlace, ...stops.map((v) => problem.visits[v]!.place), crewDay.endPlace];
    let driving = 0;
    for (let i = 1; i < places.length; i++) driving += problem.travel[places[i - 1]! * problem.places + places[i]!]!;
    const work = stops.reduce((sum, v) => sum + problem.visits[v]!.service, driving);
    for (const person of crewDay.persons) {
      worked.set(person, (worked.get(person) ?? 0) + (stops.length > 0 ? work : 0));
      hours.set(person, (hours.get(person) ?? 0) + crewDay.hours.close - crewDay.hours.open);
    }
    if (stops.length === 0) return;
    cost += driving + prices.round + prices.overtime * Math.max(0, schedules[r]!.home - crewDay.hours.close);
    for (const { visit: v, start } of schedules[r]!.stops) {
      const { preferredCrew, published } = problem.visits[v]!;
      if (preferredCrew !== undefined && preferredCrew !== crewDay.crew) cost += prices.preferenceMissed;
      if (!published) continue;
      const weight = published.weight ?? 1;
      if (published.day !== crewDay.day) cost += weight * prices.otherDay;
      else if (Math.abs(start - published.start) > published.span) cost += weight * prices.otherTime;
      if (published.crew !== crewDay.crew) cost += weight * prices.otherCrew;
    }
  });
  for (const [person, work] of worked)
    cost += (prices.unfairness * work * work) / Math.max(1, hours.get(person) as number);
  for (const v of plan.unassigned) cost += problem.visits[v]!.penalty ?? 100_000;
  return cost;
}
