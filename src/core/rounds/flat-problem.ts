import { InvalidValueError, requireWithin } from '../errors.js';
import {
  type CrewDay,
  type RoundPrices,
  type RoundsProblem,
  type RoundVisit,
  USUAL_PENALTY,
  USUAL_PRICES,
} from './rounds-problem.js';

export type Numbers = Int32Array | Float64Array;

/**
 * A problem laid out for the search. Visits are nodes 0 to n-1; the matrix has one row per visit and one per distinct
 * start or end place, so that driving is one read. `isPlain`: one window per visit, like vehicles, nothing but driving
 * counts, which a faster evaluation may assume.
 */
export interface FlatProblem {
  readonly problem: RoundsProblem;
  readonly prices: RoundPrices;
  readonly isPlain: boolean;
  /** Crew-days differ in nothing: one empty one stands for all. */
  readonly hasLikeCrews: boolean;
  readonly visits: number;
  readonly crewDays: number;
  readonly size: number;
  readonly travel: Numbers;
  /** The matrix with rows and columns changed over; the same array when driving is symmetric. */
  readonly travelBack: Numbers;
  readonly service: Numbers;
  readonly load: Float64Array;
  readonly penalty: Float64Array;
  readonly startRow: Int32Array;
  readonly endRow: Int32Array;
  readonly begin: Numbers;
  readonly latestEnd: Numbers;
  readonly capacity: Float64Array;
  /** First and last window; all a plain problem needs. */
  readonly open: Numbers;
  readonly close: Numbers;
  /** All windows one after the other; those of visit v are `windowAt[v]` to `windowAt[v + 1] - 1`. Closes are of the START. */
  readonly windowAt: Int32Array;
  readonly windowOpen: Float64Array;
  readonly windowClose: Float64Array;
  /** At [v * crewDays + r]: first window of v not over when crew-day r begins. */
  readonly firstWindow: Int32Array;
  /** Crew-days that may serve visit v: `mayServe[mayServeAt[v]]` to `mayServe[mayServeAt[v + 1] - 1]`. */
  readonly mayServeAt: Int32Array;
  readonly mayServe: Int32Array;
  /** Price of crew-day r for visit v at [v * crewDays + r]: preference and broken promises. */
  readonly fitPrice: Float64Array;
  readonly isLast: Uint8Array;
  readonly isLocked: Uint8Array;
  /** Locked to a position: part of the fixed head of its round. */
  readonly isHead: Uint8Array;
  /** Persons of each crew-day by number, and the hours each person has. */
  readonly personsOf: readonly (readonly number[])[];
  readonly personHours: Float64Array;
}

/** Lays the problem out. Refuses negative or non-finite figures, unknown crew-days in locks, and doubled names. */
export function flatProblem(problem: RoundsProblem): FlatProblem {
  requireSound(problem);
  const prices = { ...USUAL_PRICES, ...problem.prices };
  const { visits, crewDays } = problem;
  const n = visits.length;
  const terminals = [...new Set(crewDays.flatMap((crewDay) => [crewDay.startPlace, crewDay.endPlace]))];
  const places = [...visits.map((visit) => visit.place), ...terminals];
  const size = places.length;
  const Kind = isWhole(problem) ? Int32Array : Float64Array;
  const numbers = (list: readonly number[]): Numbers => new Kind(list);
  const travel: Numbers = new Kind(size * size);
  for (let i = 0; i < size; i++) {
    const row = (places[i] as number) * problem.places;
    for (let j = 0; j < size; j++) travel[i * size + j] = problem.travel[row + (places[j] as number)] as number;
  }
  const rowOf = (place: number) => n + terminals.indexOf(place);
  const windows = visits.map((visit) => windowsOf(visit));
  const windowAt = offsets(windows.map((list) => list.length));
  const mayServe = visits.map((visit, v) => crewDaysFor(problem, visit, windows[v] as [number, number][]));
  const persons = [...new Set(crewDays.flatMap((crewDay) => crewDay.persons))];
  const personNumber = new Map(persons.map((person, i) => [person, i]));
  const personHours = new Float64Array(persons.length);
  for (const crewDay of crewDays) {
    for (const person of crewDay.persons) {
      personHours[personNumber.get(person) as number]! += crewDay.hours.close - crewDay.hours.open;
    }
  }
  const isPlain = isPlainProblem(problem, prices);
  return {
    problem,
    prices,
    isPlain,
    hasLikeCrews: isPlain,
    visits: n,
    crewDays: crewDays.length,
    size,
    travel,
    travelBack: transposed(travel, size),
    service: numbers(visits.map((visit) => visit.service)),
    load: Float64Array.from(visits, (visit) => visit.load ?? 0),
    penalty: Float64Array.from(visits, (visit) => visit.penalty ?? USUAL_PENALTY),
    startRow: Int32Array.from(crewDays, (crewDay) => rowOf(crewDay.startPlace)),
    endRow: Int32Array.from(crewDays, (crewDay) => rowOf(crewDay.endPlace)),
    begin: numbers(crewDays.map((crewDay) => crewDay.hours.open)),
    latestEnd: numbers(crewDays.map(latestEndOf)),
    capacity: Float64Array.from(crewDays, (crewDay) => crewDay.capacity ?? Number.POSITIVE_INFINITY),
    open: numbers(windows.map((list) => list[0]?.[0] ?? 0)),
    close: numbers(windows.map((list) => list.at(-1)?.[1] ?? -1)),
    windowAt,
    windowOpen: Float64Array.from(windows.flat(), (window) => window[0]),
    windowClose: Float64Array.from(windows.flat(), (window) => window[1]),
    mayServeAt: offsets(mayServe.map((list) => list.length)),
    mayServe: Int32Array.from(mayServe.flat()),
    fitPrice: fitPrices(problem, prices),
    firstWindow: firstWindows(problem, windows),
    isLast: Uint8Array.from(visits, (visit) => (visit.isLast ? 1 : 0)),
    isLocked: Uint8Array.from(visits, (visit) => (visit.lock ? 1 : 0)),
    isHead: Uint8Array.from(visits, (visit) => (visit.lock?.position === undefined ? 0 : 1)),
    personsOf: crewDays.map((crewDay) => crewDay.persons.map((person) => personNumber.get(person) as number)),
    personHours,
  };
}

/** Windows of the start, [open, close]; a lock with an hour leaves one moment. */
function windowsOf(visit: RoundVisit): [number, number][] {
  if (visit.lock?.start !== undefined) return [[visit.lock.start, visit.lock.start]];
  return visit.windows
    .map((window): [number, number] => [window.open, window.close - (visit.endsInside ? visit.service : 0)])
    .filter(([open, close]) => open <= close);
}

/** Whether crew, size, day and hours suit, leaving aside what else stands in the round. */
function crewDaysFor(problem: RoundsProblem, visit: RoundVisit, windows: readonly [number, number][]): number[] {
  const suiting: number[] = [];
  problem.crewDays.forEach((crewDay, r) => {
    if (visit.lock ? visit.lock.crewDay === crewDay.id : suits(visit, crewDay)) {
      const latest = latestEndOf(crewDay);
      if (
        visit.lock ||
        windows.some(([open, close]) => close >= crewDay.hours.open && open + visit.service <= latest)
      ) {
        suiting.push(r);
      }
    }
  });
  return suiting;
}

/** Whether a crew has the skills and the hands for a visit, its hours aside. */
export function suits(visit: RoundVisit, crewDay: CrewDay): boolean {
  const skills = crewDay.skills ?? [];
  return (visit.skills ?? []).every((skill) => skills.includes(skill)) && (visit.crewSize ?? 1) <= crewSizeOf(crewDay);
}

function latestEndOf(crewDay: CrewDay): number {
  return crewDay.hours.close + (crewDay.overtimeAllowed ?? 0);
}

function crewSizeOf(crewDay: CrewDay): number {
  return Math.max(1, crewDay.persons.length);
}

/** Price of a crew-day for a visit before its hour is known: preference, promised day and crew. */
export function fitPriceOf(visit: RoundVisit, crewDay: CrewDay, prices: RoundPrices): number {
  const { published, preferredCrew } = visit;
  let price = preferredCrew !== undefined && preferredCrew !== crewDay.crew ? prices.preferenceMissed : 0;
  const weight = published?.weight ?? 1;
  if (published && published.day !== crewDay.day) price += prices.otherDay * weight;
  if (published && published.crew !== crewDay.crew) price += prices.otherCrew * weight;
  return price;
}

function fitPrices(problem: RoundsProblem, prices: RoundPrices): Float64Array {
  const { visits, crewDays } = problem;
  const fit = new Float64Array(visits.length * crewDays.length);
  visits.forEach((visit, v) => {
    crewDays.forEach((crewDay, r) => {
      fit[v * crewDays.length + r] = fitPriceOf(visit, crewDay, prices);
    });
  });
  return fit;
}

function firstWindows(problem: RoundsProblem, windows: readonly [number, number][][]): Int32Array {
  const { crewDays } = problem;
  const first = new Int32Array(windows.length * crewDays.length);
  let at = 0;
  windows.forEach((own, v) => {
    crewDays.forEach((crewDay, r) => {
      const index = own.findIndex(([, close]) => close >= crewDay.hours.open);
      first[v * crewDays.length + r] = at + (index < 0 ? own.length : index);
    });
    at += own.length;
  });
  return first;
}

function isPlainProblem(problem: RoundsProblem, prices: RoundPrices): boolean {
  const first = problem.crewDays[0];
  if (!first || prices.unfairness > 0 || prices.round > 0) return false;
  const areLike = problem.crewDays.every(
    (crewDay) =>
      crewDay.startPlace === first.startPlace &&
      crewDay.endPlace === first.endPlace &&
      crewDay.hours.open === first.hours.open &&
      crewDay.hours.close === first.hours.close &&
      crewDay.capacity === first.capacity &&
      crewDay.persons.length === first.persons.length &&
      !crewDay.overtimeAllowed &&
      !crewDay.pause &&
      !crewDay.skills?.length,
  );
  const isBare = (visit: RoundVisit) =>
    visit.windows.length === 1 &&
    !visit.skills?.length &&
    (visit.crewSize ?? 1) <= crewSizeOf(first) &&
    visit.preferredCrew === undefined &&
    !(visit.isLast || visit.published || visit.lock);
  return areLike && problem.visits.every(isBare);
}

function offsets(lengths: readonly number[]): Int32Array {
  const at = new Int32Array(lengths.length + 1);
  lengths.forEach((length, i) => {
    at[i + 1] = (at[i] as number) + length;
  });
  return at;
}

function transposed(travel: Numbers, size: number): Numbers {
  const back = travel.slice();
  let isSymmetric = true;
  for (let i = 0; i < size; i++) {
    for (let j = 0; j < size; j++) {
      back[j * size + i] = travel[i * size + j] as number;
      if (travel[i * size + j] !== travel[j * size + i]) isSymmetric = false;
    }
  }
  return isSymmetric ? travel : back;
}

/** Whether all times are whole, so that 32-bit integers may hold them. */
function isWhole(problem: RoundsProblem): boolean {
  const times = [
    ...problem.crewDays.flatMap(({ hours, overtimeAllowed }) => [hours.open, hours.close, overtimeAllowed ?? 0]),
    ...problem.visits.flatMap(({ service, windows }) => [service, ...windows.flatMap((w) => [w.open, w.close])]),
    ...problem.visits.map(({ lock }) => lock?.start ?? 0),
  ];
  return problem.travel instanceof Int32Array && times.every((time) => time === (time | 0));
}

function requireSound(problem: RoundsProblem): void {
  const { places, travel, visits, crewDays } = problem;
  if (travel.length !== places * places) {
    throw new InvalidValueError('travel', travel.length, `It needs ${places} times ${places} figures.`);
  }
  for (const driving of travel) requireWithin('travel', driving, { min: 0, max: 1e9 });
  const anyPlace = { min: 0, max: places - 1 };
  const anyTime = { min: -1e9, max: 1e9 };
  const names = new Set(crewDays.map((crewDay) => crewDay.id));
  if (names.size < crewDays.length) throw new InvalidValueError('crewDays', 'id', 'Name every crew-day differently.');
  for (const { startPlace, endPlace, hours, capacity } of crewDays) {
    requireWithin('startPlace', startPlace, anyPlace);
    requireWithin('endPlace', endPlace, anyPlace);
    requireWithin('hours.open', hours.open, anyTime);
    requireWithin('hours.close', hours.close, { min: hours.open, max: anyTime.max });
    requireWithin('capacity', capacity ?? 0, { min: 0, max: 1e12 });
  }
  for (const visit of visits) {
    requireWithin('place', visit.place, anyPlace);
    requireWithin('service', visit.service, { min: 0, max: 1e9 });
    requireWithin('penalty', visit.penalty ?? 0, { min: 0, max: 1e12 });
    let last = anyTime.min;
    for (const { open, close } of visit.windows) {
      requireWithin('windows.open', open, { min: last, max: anyTime.max });
      requireWithin('windows.close', close, { min: open, max: anyTime.max });
      last = close;
    }
    if (visit.lock && !names.has(visit.lock.crewDay)) {
      throw new InvalidValueError('lock.crewDay', visit.lock.crewDay, 'Lock a visit to one of the crew-days given.');
    }
  }
}
