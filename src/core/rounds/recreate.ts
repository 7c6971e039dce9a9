import type { FlatProblem } from './flat-problem.js';
import type { Random } from './random.js';
import type { RoundEvaluation, RoundLists } from './round-lists.js';

/** Orders in which visits are put back, and how often each is drawn (published weights for time windows). */
const ORDERS = ['random', 'load', 'far', 'near', 'narrow', 'opens', 'closes'] as const;
const WEIGHTS = [4, 4, 2, 1, 2, 2, 2] as const;
const WEIGHT_SUM = WEIGHTS.reduce<number>((sum, weight) => sum + weight, 0);

/**
 * Puts visits back one by one where each costs least, now and then blind to a round ("greedy insertion with blinks":
 * J. Christiaens and G. Vanden Berghe 2020, Transp. Sci. 54(2), 417-433). The cheapest place of a visit in
 * a round is remembered with the round's mark and only sought again when the round is another.
 */
export class Recreate {
  private readonly cached: Int32Array;
  private readonly cachedCost: Float64Array;
  private readonly cachedAfter: Int32Array;
  private readonly keys: readonly Float64Array[];

  constructor(
    private readonly flat: FlatProblem,
    private readonly lists: RoundLists,
    private readonly rules: RoundEvaluation,
    private readonly random: Random,
    private readonly blink: number,
    private readonly opening: number,
    private readonly touch: (round: number) => void,
  ) {
    const pairs = flat.visits * flat.crewDays;
    this.cached = new Int32Array(pairs);
    this.cachedCost = new Float64Array(pairs);
    this.cachedAfter = new Int32Array(pairs);
    this.keys = ORDERS.map((order) => sortKeys(flat, order));
  }

  /** Puts back the first `count` of `visits`; those without any place stand in front afterwards, their number is returned. */
  run(visits: Int32Array, count: number): number {
    this.sort(visits, count);
    let out = 0;
    for (let i = 0; i < count; i++) {
      const visit = visits[i] as number;
      const after = this.flat.hasLikeCrews ? this.placeAmongLike(visit) : this.place(visit);
      if (after < 0) {
        visits[out++] = visit;
        continue;
      }
      const round = this.lists.roundOf[after] as number;
      this.touch(round);
      this.lists.insert(visit, after);
      this.rules.refresh(round);
    }
    return out;
  }

  private placeAmongLike(visit: number): number {
    const { lists, flat, random, cached, cachedCost, cachedAfter, rules } = this;
    const load = flat.load[visit] as number;
    const rounds = Math.min(lists.used + 1, flat.crewDays);
    const mayOpen = random.fraction() < this.opening;
    let best = Number.POSITIVE_INFINITY;
    let after = -1;
    for (let k = 0; k < rounds; k++) {
      const round = lists.byUse[k] as number;
      if (k === lists.used && after >= 0 && !mayOpen) break;
      if ((lists.load[round] as number) + load > (flat.capacity[round] as number)) continue;
      const pair = visit * flat.crewDays + round;
      if (cached[pair] !== lists.mark[round]) {
        cachedCost[pair] = rules.scan(visit, round, -1);
        cachedAfter[pair] = rules.after;
        cached[pair] = lists.mark[round] as number;
      }
      const cost = cachedCost[pair] as number;
      if (cost < best) {
        if (random.fraction() < this.blink) {
          const second = rules.scan(visit, round, cachedAfter[pair] as number);
          if (second >= best) continue;
          best = second;
          after = rules.after;
          continue;
        }
        best = cost;
        after = cachedAfter[pair] as number;
      }
    }
    return after;
  }

  private place(visit: number): number {
    const { lists, flat, random, cached, cachedCost, cachedAfter, rules } = this;
    const load = flat.load[visit] as number;
    const last = flat.mayServeAt[visit + 1] as number;
    let best = flat.penalty[visit] as number;
    let after = -1;
    for (let k = flat.mayServeAt[visit] as number; k < last; k++) {
      const round = flat.mayServe[k] as number;
      if ((lists.load[round] as number) + load > (flat.capacity[round] as number)) continue;
      const pair = visit * flat.crewDays + round;
      if (cached[pair] !== lists.mark[round]) {
        cachedCost[pair] = rules.scan(visit, round, -1);
        cachedAfter[pair] = rules.after;
        cached[pair] = lists.mark[round] as number;
      }
      let cost = cachedCost[pair] as number;
      if (cost >= best) continue;
      const shared = rules.sharedIfAdded(visit, round);
      cost += shared;
      if (cost < best) {
        if (random.fraction() < this.blink) {
          const second = rules.scan(visit, round, cachedAfter[pair] as number) + shared;
          if (second >= best) continue;
          best = second;
          after = rules.after;
          continue;
        }
        best = cost;
        after = cachedAfter[pair] as number;
      }
    }
    return after;
  }

  private sort(visits: Int32Array, count: number): void {
    let draw = this.random.below(WEIGHT_SUM);
    let order = 0;
    while (draw >= (WEIGHTS[order] as number)) draw -= WEIGHTS[order++] as number;
    const key = this.keys[order] as Float64Array;
    if (order === 0) for (let i = 0; i < count; i++) key[visits[i] as number] = this.random.fraction();
    if (count > 60) {
      visits.subarray(0, count).sort((a, b) => (key[a] as number) - (key[b] as number));
      return;
    }
    for (let i = 1; i < count; i++) {
      const visit = visits[i] as number;
      const own = key[visit] as number;
      let j = i - 1;
      while (j >= 0 && (key[visits[j] as number] as number) > own) {
        visits[j + 1] = visits[j] as number;
        j--;
      }
      visits[j + 1] = visit;
    }
  }
}

function sortKeys(flat: FlatProblem, order: (typeof ORDERS)[number]): Float64Array {
  const home = flat.startRow[0] ?? 0;
  return Float64Array.from({ length: flat.visits }, (_, v) => {
    const open = flat.open[v] as number;
    const close = flat.close[v] as number;
    if (order === 'load') return -((flat.load[v] as number) || (flat.service[v] as number));
    if (order === 'far') return -(flat.travel[v * flat.size + home] as number);
    if (order === 'near') return flat.travel[v * flat.size + home] as number;
    if (order === 'narrow') return close - open;
    if (order === 'opens') return open;
    return -close;
  });
}
