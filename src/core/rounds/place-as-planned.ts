import type { FlatProblem } from './flat-problem.js';
import type { RoundEvaluation, RoundLists } from './round-lists.js';

/**
 * Puts the visits of a plan into empty rounds as they stand there: locked ones first, then each other visit behind the
 * one it followed, if that can still be driven. Locked visits are placed whether the plan has them or not.
 * Returns the locked visits whose lock cannot be kept.
 */
export function placeAsPlanned(
  flat: FlatProblem,
  lists: RoundLists,
  rules: RoundEvaluation,
  rounds: readonly (readonly number[])[],
): number[] {
  const conflicts = placeLocked(flat, lists, rules, rounds);
  rounds.forEach((stops, round) => {
    let after = flat.visits + round;
    for (const visit of stops) {
      if ((lists.roundOf[visit] as number) === round) {
        after = visit;
      } else if (!flat.isLocked[visit] && (lists.roundOf[visit] as number) < 0) {
        while (isHead(flat, lists.next[after] as number)) after = lists.next[after] as number;
        if (isInserted(flat, lists, rules, visit, after)) after = visit;
      }
    }
  });
  return conflicts;
}

function placeLocked(
  flat: FlatProblem,
  lists: RoundLists,
  rules: RoundEvaluation,
  rounds: readonly (readonly number[])[],
): number[] {
  const { visits, crewDays } = flat.problem;
  const planned = new Map(rounds.flatMap((stops) => stops.map((visit, i): [number, number] => [visit, i])));
  const rank = (visit: number) => {
    const lock = visits[visit]!.lock!;
    return [
      lock.position ?? Number.POSITIVE_INFINITY,
      lock.start ?? Number.POSITIVE_INFINITY,
      planned.get(visit) ?? 1e9,
    ] as const;
  };
  const conflicts: number[] = [];
  for (let round = 0; round < crewDays.length; round++) {
    const own = visits.flatMap((visit, v) => (visit.lock?.crewDay === crewDays[round]!.id ? [v] : []));
    own.sort((a, b) => {
      const [first, second] = [rank(a), rank(b)];
      const i = first.findIndex((value, k) => value !== second[k]);
      return i < 0 ? a - b : (first[i] as number) < (second[i] as number) ? -1 : 1;
    });
    let head = flat.visits + round;
    for (const visit of own) {
      if (flat.isHead[visit]) {
        if (isInserted(flat, lists, rules, visit, head)) head = visit;
        else conflicts.push(visit);
      } else {
        const isPossible = rules.scan(visit, round, -1) < Number.POSITIVE_INFINITY;
        if (!isPossible || !isInserted(flat, lists, rules, visit, rules.after)) conflicts.push(visit);
      }
    }
  }
  return conflicts;
}

function isHead(flat: FlatProblem, node: number): boolean {
  return node < flat.visits && flat.isHead[node] === 1;
}

/** Inserts a visit if the rules allow it there, and tells. */
function isInserted(
  flat: FlatProblem,
  lists: RoundLists,
  rules: RoundEvaluation,
  visit: number,
  after: number,
): boolean {
  const round = lists.roundOf[after] as number;
  const before = lists.next[after] as number;
  const from = flat.mayServeAt[visit] as number;
  const to = flat.mayServeAt[visit + 1] as number;
  const isAllowed =
    flat.mayServe.subarray(from, to).includes(round) &&
    (lists.load[round] as number) + (flat.load[visit] as number) <= (flat.capacity[round] as number) &&
    !(after < flat.visits && flat.isLast[after] === 1 && flat.isLast[visit] === 0) &&
    !(before < flat.visits && flat.isLast[before] === 0 && flat.isLast[visit] === 1);
  if (!isAllowed) return false;
  lists.insert(visit, after);
  rules.refresh(round);
  if ((lists.cost[round] as number) < Number.POSITIVE_INFINITY) return true;
  lists.remove(visit);
  rules.refresh(round);
  return false;
}
