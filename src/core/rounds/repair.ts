import { type FlatProblem, flatProblem } from './flat-problem.js';
import { breaksPromise, startsOf } from './moves.js';
import { costOfPlan, type PlanCost } from './objective.js';
import type { RoundsPlan, RoundsProblem, RoundVisit } from './rounds-problem.js';
import { runSearch, type SearchBudget } from './run-search.js';
import { RoundsSearch, USUAL_SEARCH } from './search.js';

/** A round as it stood before something happened; it may be of a crew-day that is no longer there. */
export interface PreviousRound {
  readonly crewDay: string;
  readonly crew: string;
  readonly day: number;
  readonly stops: readonly { readonly visit: string; readonly start: number }[];
}

export interface RepairSettings {
  readonly seed?: number;
  /** 20 000 steps if not given. */
  readonly budget?: SearchBudget;
  /** Published starts are kept wherever somebody can keep them. True if not given. */
  readonly holdPublished?: boolean;
  /** How far an hour that nobody was told may move free of charge; 60 if not given. */
  readonly openSpan?: number;
  /** A change that nobody needs must save this much of the objective; 1 if not given. */
  readonly leastGain?: number;
}

export interface RepairChange {
  readonly visit: number;
  readonly kinds: readonly ('day' | 'crew' | 'time' | 'left-out' | 'added')[];
  readonly from: { readonly crew: string; readonly day: number; readonly start: number } | undefined;
  readonly to: { readonly crewDay: number; readonly start: number } | undefined;
}

export interface RoundsRepair {
  readonly plan: RoundsPlan;
  /** Of the problem as given, without the prices that repair puts on hours not yet published. */
  readonly cost: PlanCost;
  readonly changes: readonly RepairChange[];
  readonly brokenPromises: readonly number[];
  /** Visits changed, of the visits that stood in the previous rounds and are still wanted (0 to 1). */
  readonly disruption: number;
}

const USUAL_STEPS = 20_000;
/** A planned hour that nobody was told is changed at half price (own choice). */
const OPEN_WEIGHT = 0.5;

/**
 * Plan again from what stands, after an illness, a storm or a new visit: what cannot stay is taken out, what is missing
 * is put in where it costs least, and anything else moves only if that saves more than the prices of change.
 * With nothing to repair the same plan comes back.
 */
export function repairRounds(
  problem: RoundsProblem,
  previous: readonly PreviousRound[],
  settings: RepairSettings = {},
): RoundsRepair {
  const asked = flatProblem(problem);
  const start = planOf(problem, previous);
  const remembered = rememberPlanned(problem, previous, settings.openSpan ?? 60);
  const held = settings.holdPublished === false ? new Set<number>() : holdable(problem);
  let flat = flatProblem({ ...remembered, visits: remembered.visits.map((v, i) => (held.has(i) ? heldVisit(v) : v)) });
  let search = searchFrom(flat, settings, start);
  const released = search.bestPlan().unassigned.filter((visit) => held.has(visit));
  if (released.length > 0) {
    for (const visit of released) held.delete(visit);
    const kept = search.bestPlan();
    flat = flatProblem({ ...remembered, visits: remembered.visits.map((v, i) => (held.has(i) ? heldVisit(v) : v)) });
    search = searchFrom(flat, settings, kept);
  }
  const repaired = search.bestPlan();
  const repairedCost = search.bestCost;
  runSearch(search, settings.budget ?? { steps: USUAL_STEPS });
  const isWorthIt = repairedCost - search.bestCost >= (settings.leastGain ?? 1);
  const plan = isWorthIt ? search.bestPlan() : repaired;
  return report(asked, remembered, previous, plan);
}

function searchFrom(flat: FlatProblem, settings: RepairSettings, start: RoundsPlan): RoundsSearch {
  return new RoundsSearch(flat, settings.seed ?? 1, { ...USUAL_SEARCH, hot: 0.3 }, start);
}

/** The previous rounds by index, as far as crew-days and visits are still there. */
export function planOf(problem: RoundsProblem, previous: readonly PreviousRound[]): RoundsPlan {
  const number = new Map(problem.visits.map((visit, i) => [visit.id, i]));
  const before = new Map(previous.map((round) => [round.crewDay, round]));
  const rounds = problem.crewDays.map(({ id }) =>
    (before.get(id)?.stops ?? []).flatMap(({ visit }) => number.get(visit) ?? []),
  );
  const placed = new Set(rounds.flat());
  return { rounds, unassigned: problem.visits.flatMap((_, i) => (placed.has(i) ? [] : [i])) };
}

function rememberPlanned(problem: RoundsProblem, previous: readonly PreviousRound[], span: number): RoundsProblem {
  const planned = new Map(
    previous.flatMap(({ crew, day, stops }) => stops.map((stop) => [stop.visit, { crew, day, start: stop.start }])),
  );
  const remember = (visit: RoundVisit): RoundVisit => {
    const own = planned.get(visit.id);
    return visit.published || !own ? visit : { ...visit, published: { ...own, span, weight: OPEN_WEIGHT } };
  };
  return { ...problem, visits: problem.visits.map(remember) };
}

/** Published visits whose promised span still meets a window. */
function holdable(problem: RoundsProblem): Set<number> {
  return new Set(
    problem.visits.flatMap((visit, i) =>
      visit.published && (visit.published.weight ?? 1) >= 1 && heldVisit(visit).windows.length > 0 ? [i] : [],
    ),
  );
}

function heldVisit(visit: RoundVisit): RoundVisit {
  const { start, span } = visit.published!;
  const rest = visit.endsInside ? visit.service : 0;
  const windows = visit.windows
    .map(({ open, close }) => ({ open: Math.max(open, start - span), close: Math.min(close, start + span + rest) }))
    .filter(({ open, close }) => open + rest <= close);
  return { ...visit, windows };
}

function report(
  flat: FlatProblem,
  remembered: RoundsProblem,
  previous: readonly PreviousRound[],
  plan: RoundsPlan,
): RoundsRepair {
  const { crewDays, visits } = flat.problem;
  const before = new Map(
    previous.flatMap(({ crew, day, stops }) => stops.map((stop) => [stop.visit, { crew, day, start: stop.start }])),
  );
  const after = startsOf(flat, plan);
  const changes = visits.flatMap(({ id }, visit): RepairChange[] => {
    const [from, to] = [before.get(id), after.get(visit)];
    if (!from || !to) {
      if (!from && !to) return [];
      return [{ visit, kinds: [to ? 'added' : 'left-out'], from, to }];
    }
    const { day, crew } = crewDays[to.crewDay]!;
    const { span } = remembered.visits[visit]!.published!;
    const kinds = [
      ...(day === from.day ? [] : (['day'] as const)),
      ...(crew === from.crew ? [] : (['crew'] as const)),
      ...(day === from.day && Math.abs(to.start - from.start) > span ? (['time'] as const) : []),
    ];
    return kinds.length > 0 ? [{ visit, kinds, from, to }] : [];
  });
  const present = visits.filter(({ id }) => before.has(id)).length;
  const disturbed = changes.filter(({ kinds }) => kinds[0] !== 'added').length;
  return {
    plan,
    cost: costOfPlan(flat, plan),
    changes,
    brokenPromises: visits.flatMap((_, visit) => (breaksPromise(flat, visit, after.get(visit)) ? [visit] : [])),
    disruption: present === 0 ? 0 : disturbed / present,
  };
}
