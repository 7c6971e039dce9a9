import type { FlatProblem } from './flat-problem.js';
import { roundPrice, startPrice, unfairnessOf } from './prices.js';
import { RoundClock } from './round-clock.js';
import type { RoundEvaluation, RoundLists } from './round-lists.js';

/**
 * Evaluation of rounds with everything a company asks: several windows, pauses, overtime, promises, fairness. An
 * insertion is priced by walking on from it until the clock shows what it showed before; rounds of a working day are short.
 */
export class RichRounds implements RoundEvaluation {
  after = -1;
  readonly personWork: Float64Array;
  private readonly clock: RoundClock;
  private readonly departure: Float64Array;
  private readonly pauseDue: Uint8Array;
  private readonly into: Float64Array;
  /** Price of the start at each visit, and the sum of it from each visit to the end of its round. */
  private readonly startPaid: Float64Array;
  private readonly paidFrom: Float64Array;
  private readonly endPaid: Float64Array;
  private readonly hasStartPrice: Uint8Array;

  constructor(
    private readonly flat: FlatProblem,
    private readonly lists: RoundLists,
  ) {
    this.clock = new RoundClock(flat);
    this.personWork = new Float64Array(flat.personHours.length);
    this.departure = new Float64Array(lists.nodes);
    this.pauseDue = new Uint8Array(lists.nodes);
    this.into = new Float64Array(lists.nodes);
    this.startPaid = new Float64Array(lists.nodes);
    this.paidFrom = new Float64Array(lists.nodes);
    this.endPaid = new Float64Array(flat.crewDays);
    this.hasStartPrice = Uint8Array.from(flat.problem.visits, (visit) => (visit.published ? 1 : 0));
  }

  shared(): number {
    return unfairnessOf(this.flat, this.personWork);
  }

  /** What the work of one more visit adds to `shared`. */
  sharedIfAdded(visit: number, round: number): number {
    const { flat } = this;
    const work = flat.service[visit] as number;
    let added = 0;
    for (const p of flat.personsOf[round] as readonly number[]) {
      const own = this.personWork[p] as number;
      added += (work * (2 * own + work)) / Math.max(1, flat.personHours[p] as number);
    }
    return flat.prices.unfairness * added;
  }

  refresh(round: number): void {
    const { flat, lists, clock, departure, pauseDue, into, startPaid, paidFrom } = this;
    const { next, previous, salt } = lists;
    const n = flat.visits;
    const start = n + round;
    const end = start + flat.crewDays;
    let mark = round;
    let service = 0;
    let cost = 0;
    let isSound = true;
    clock.begin(round);
    departure[start] = clock.time;
    pauseDue[start] = clock.isPauseDue ? 1 : 0;
    let driven = 0;
    for (let node = next[start] as number; node < n; node = next[node] as number) {
      if (!clock.visit(node)) isSound = false;
      into[node] = clock.driving - driven;
      driven = clock.driving;
      departure[node] = clock.time;
      pauseDue[node] = clock.isPauseDue ? 1 : 0;
      startPaid[node] = this.hasStartPrice[node] ? startPrice(flat, node, round, clock.start) : 0;
      cost += (startPaid[node] as number) + (flat.fitPrice[node * flat.crewDays + round] as number);
      service += flat.service[node] as number;
      mark = Math.imul(mark ^ (salt[node] as number), 0x2c1b3c6d) + (mark >>> 15);
    }
    if (!clock.home()) isSound = false;
    into[end] = clock.driving - driven;
    const isEmpty = next[start] === end;
    this.endPaid[round] = isEmpty ? 0 : roundPrice(flat, round, clock.time);
    paidFrom[end] = 0;
    for (let node = previous[end] as number, following = end; node < n; node = previous[node] as number) {
      paidFrom[node] = (paidFrom[following] as number) + (startPaid[node] as number);
      following = node;
    }
    const work = isEmpty ? 0 : clock.driving + service;
    const more = work - (lists.work[round] as number);
    lists.work[round] = work;
    for (const p of flat.personsOf[round] as readonly number[]) this.personWork[p]! += more;
    lists.cost[round] = isEmpty
      ? 0
      : isSound
        ? cost + clock.driving + (this.endPaid[round] as number)
        : Number.POSITIVE_INFINITY;
    lists.mark[round] = mark | 1;
  }

  scan(visit: number, round: number, blindTo: number): number {
    const { flat, lists, into } = this;
    const { next } = lists;
    const n = flat.visits;
    const { size, travel, travelBack, isLast } = flat;
    const row = visit * size;
    const fit = flat.fitPrice[visit * flat.crewDays + round] as number;
    let before = this.headOf(round);
    let best = Number.POSITIVE_INFINITY;
    this.after = -1;
    for (;;) {
      const node = next[before] as number;
      const isEnd = node >= n;
      const isAllowed = isLast[visit] === 1 ? isEnd || isLast[node] === 1 : before >= n || isLast[before] === 0;
      if (isAllowed && before !== blindTo) {
        const there = travelBack[row + (before < n ? before : (flat.startRow[round] as number))] as number;
        const onward = travel[row + (isEnd ? (flat.endRow[round] as number) : node)] as number;
        const isEmpty = isEnd && before >= n;
        const detour = there + onward - (isEmpty ? 0 : (into[node] as number)) + fit;
        const least = detour - (isEnd ? 0 : (this.paidFrom[node] as number));
        if (least < best) {
          const cost = detour + this.tailPrice(visit, before, node, round);
          if (cost < best) {
            best = cost;
            this.after = before;
          }
        }
      }
      if (isEnd) return best;
      before = node;
    }
  }

  /** What a visit put between two nodes changes in prices of starts and overtime; Infinity if the round then fails. */
  private tailPrice(visit: number, before: number, node: number, round: number): number {
    const { flat, lists, clock, departure, pauseDue, hasStartPrice } = this;
    const n = flat.visits;
    clock.begin(round);
    clock.resume(before, departure[before] as number, pauseDue[before] === 1);
    if (!clock.visit(visit)) return Number.POSITIVE_INFINITY;
    let price = hasStartPrice[visit] ? startPrice(flat, visit, round, clock.start) : 0;
    let following = node;
    while (following < n) {
      if (!clock.visit(following)) return Number.POSITIVE_INFINITY;
      if (hasStartPrice[following]) {
        price += startPrice(flat, following, round, clock.start) - (this.startPaid[following] as number);
      }
      if (clock.time === departure[following] && clock.isPauseDue === (pauseDue[following] === 1)) return price;
      following = lists.next[following] as number;
    }
    if (!clock.home()) return Number.POSITIVE_INFINITY;
    return price + roundPrice(flat, round, clock.time) - (this.endPaid[round] as number);
  }

  /** Last node of the fixed head of a round, or its start node. */
  private headOf(round: number): number {
    const { flat, lists } = this;
    let head = flat.visits + round;
    for (;;) {
      const node = lists.next[head] as number;
      if (node >= flat.visits || flat.isHead[node] === 0) return head;
      head = node;
    }
  }
}
