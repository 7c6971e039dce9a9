import { InvalidValueError } from '../errors.js';
import type { FlatProblem } from './flat-problem.js';
import { costOfPlan, type PlanCost } from './objective.js';
import type { RoundsPlan } from './rounds-problem.js';
import { type BrokenPlanRule, brokenRules, scheduleOf } from './schedule.js';

/** A change by hand. `position` counts from 0 in the round as it is without the visit; without it the cheapest is taken. */
export type RoundMove =
  | { readonly kind: 'move'; readonly visit: number; readonly crewDay: number; readonly position?: number }
  | { readonly kind: 'swap'; readonly visit: number; readonly other: number }
  | { readonly kind: 'unassign'; readonly visit: number };

export interface MovedStart {
  readonly visit: number;
  /** Undefined where the visit stands in no round. */
  readonly from: { readonly crewDay: number; readonly start: number } | undefined;
  readonly to: { readonly crewDay: number; readonly start: number } | undefined;
}

export interface MoveCost {
  readonly plan: RoundsPlan;
  readonly before: PlanCost;
  readonly after: PlanCost;
  /** After less before: driving, overtime and the whole objective. */
  readonly driving: number;
  readonly overtime: number;
  readonly total: number;
  /** Hard rules broken after the move that were not broken before, or not by so much. */
  readonly broken: readonly BrokenPlanRule[];
  /** Every visit whose crew, day or start changes. */
  readonly moved: readonly MovedStart[];
  /** Those of them that leave their published day, crew or promised span. */
  readonly brokenPromises: readonly number[];
}

/** What a move, swap or unassignment by hand would cost, in driving and in broken windows and promises; changes nothing. */
export function costOfMove(flat: FlatProblem, plan: RoundsPlan, move: RoundMove): MoveCost {
  const moved = afterMove(flat, plan, move);
  const before = costOfPlan(flat, plan);
  const after = costOfPlan(flat, moved);
  const starts = movedStarts(flat, plan, moved);
  const known = new Map(brokenRules(flat, plan).map((broken) => [ruleKey(broken), broken.by ?? 0]));
  return {
    plan: moved,
    before,
    after,
    driving: after.driving - before.driving,
    overtime: after.overtime - before.overtime,
    total: after.total - before.total,
    broken: brokenRules(flat, moved).filter((broken) => {
      const earlier = known.get(ruleKey(broken));
      return earlier === undefined || (broken.by ?? 0) > earlier;
    }),
    moved: starts,
    brokenPromises: starts.filter(({ visit, to }) => breaksPromise(flat, visit, to)).map(({ visit }) => visit),
  };
}

/** The plan with the move done. Refuses a visit that is not there and a place that does not exist. */
export function afterMove(flat: FlatProblem, plan: RoundsPlan, move: RoundMove): RoundsPlan {
  requireIndex('visit', move.visit, flat.visits);
  const without = withoutVisit(plan, move.visit);
  if (move.kind === 'unassign') {
    return { rounds: without.rounds, unassigned: [...without.unassigned, move.visit].sort((a, b) => a - b) };
  }
  if (move.kind === 'swap') {
    requireIndex('other', move.other, flat.visits);
    const exchanged = (visit: number) =>
      visit === move.visit ? move.other : visit === move.other ? move.visit : visit;
    return {
      rounds: plan.rounds.map((stops) => stops.map(exchanged)),
      unassigned: plan.unassigned.map(exchanged).sort((a, b) => a - b),
    };
  }
  requireIndex('crewDay', move.crewDay, flat.crewDays);
  const stops = without.rounds[move.crewDay] ?? [];
  const { position } = move;
  if (position !== undefined) requireIndex('position', position, stops.length + 1);
  const candidates = position === undefined ? stops.map((_, i) => i).concat(stops.length) : [position];
  const plans = candidates.map((at) => ({
    rounds: without.rounds.with(move.crewDay, [...stops.slice(0, at), move.visit, ...stops.slice(at)]),
    unassigned: without.unassigned,
  }));
  if (plans.length === 1) return plans[0]!;
  return cheapest(flat, plans);
}

/** Fewest broken rules first, then least cost. */
function cheapest(flat: FlatProblem, plans: readonly RoundsPlan[]): RoundsPlan {
  const scored = plans.map((plan) => {
    const broken = brokenRules(flat, plan);
    return {
      plan,
      count: broken.length,
      by: broken.reduce((sum, b) => sum + (b.by ?? 0), 0),
      cost: costOfPlan(flat, plan).total,
    };
  });
  return scored.reduce((best, own) => {
    const order = own.count - best.count || own.by - best.by || own.cost - best.cost;
    return order < 0 ? own : best;
  }).plan;
}

function withoutVisit(plan: RoundsPlan, visit: number): RoundsPlan {
  return {
    rounds: plan.rounds.map((stops) => (stops.includes(visit) ? stops.filter((own) => own !== visit) : stops)),
    unassigned: plan.unassigned.filter((own) => own !== visit),
  };
}

/** Where each visit of a plan is and when it starts. */
export function startsOf(flat: FlatProblem, plan: RoundsPlan): Map<number, { crewDay: number; start: number }> {
  const starts = new Map<number, { crewDay: number; start: number }>();
  plan.rounds.forEach((stops, crewDay) => {
    for (const { visit, start } of scheduleOf(flat, crewDay, stops).stops) starts.set(visit, { crewDay, start });
  });
  return starts;
}

function movedStarts(flat: FlatProblem, before: RoundsPlan, after: RoundsPlan): MovedStart[] {
  const [from, to] = [startsOf(flat, before), startsOf(flat, after)];
  return flat.problem.visits
    .map((_, visit) => ({ visit, from: from.get(visit), to: to.get(visit) }))
    .filter((own) => own.from?.crewDay !== own.to?.crewDay || own.from?.start !== own.to?.start);
}

/** Whether a visit at a place and hour (or in no round) is not what was published. The unpublished promise nothing. */
export function breaksPromise(
  flat: FlatProblem,
  visit: number,
  at: { readonly crewDay: number; readonly start: number } | undefined,
): boolean {
  const { published } = flat.problem.visits[visit]!;
  if (!published || published.weight === 0) return false;
  if (!at) return true;
  const { day } = flat.problem.crewDays[at.crewDay]!;
  return day !== published.day || Math.abs(at.start - published.start) > published.span;
}

function ruleKey({ rule, crewDay, visit }: BrokenPlanRule): string {
  return `${rule} ${crewDay ?? ''} ${visit ?? ''}`;
}

function requireIndex(field: string, index: number, count: number): void {
  if (!Number.isInteger(index) || index < 0 || index >= count) {
    throw new InvalidValueError(field, index, `Give a whole number from 0 to ${count - 1}.`);
  }
}
