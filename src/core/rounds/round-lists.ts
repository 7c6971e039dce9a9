import type { FlatProblem } from './flat-problem.js';

/**
 * What a search asks of the rules of a problem. `refresh` sets cost, work and mark of a round after its list changed; the
 * cost is Infinity if the round cannot be driven. `scan` returns what the cheapest insertion of a visit costs (Infinity
 * if there is none) and leaves its place in `after`. `shared` is what the rounds cost together (fairness).
 */
export interface RoundEvaluation {
  after: number;
  refresh(round: number): void;
  scan(visit: number, round: number, blindTo: number): number;
  shared(): number;
  sharedIfAdded(visit: number, round: number): number;
}

/**
 * Rounds as doubly linked lists over nodes: visits 0 to n-1, then a start node and then an end node for each crew-day.
 * `mark` is a hash of the order of a round: what was computed for a round holds again whenever the mark comes back.
 */
export class RoundLists {
  readonly nodes: number;
  readonly next: Int32Array;
  readonly previous: Int32Array;
  /** -1 for a visit that is out. */
  readonly roundOf: Int32Array;
  readonly count: Int32Array;
  readonly load: Float64Array;
  readonly cost: Float64Array;
  readonly work: Float64Array;
  readonly mark: Int32Array;
  readonly salt: Int32Array;
  /** All crew-days, those with stops first. */
  readonly byUse: Int32Array;
  used = 0;
  private readonly useAt: Int32Array;

  constructor(private readonly flat: FlatProblem) {
    const { visits, crewDays } = flat;
    this.nodes = visits + 2 * crewDays;
    this.next = new Int32Array(this.nodes).fill(-1);
    this.previous = new Int32Array(this.nodes).fill(-1);
    this.roundOf = new Int32Array(this.nodes).fill(-1);
    this.count = new Int32Array(crewDays);
    this.load = new Float64Array(crewDays);
    this.cost = new Float64Array(crewDays);
    this.work = new Float64Array(crewDays);
    this.mark = new Int32Array(crewDays);
    this.byUse = Int32Array.from({ length: crewDays }, (_, r) => r);
    this.useAt = Int32Array.from(this.byUse);
    this.salt = Int32Array.from({ length: visits }, (_, v) => Math.imul(v + 1, 0x9e3779b1) ^ (v << 7));
    for (let r = 0; r < crewDays; r++) {
      const start = visits + r;
      const end = start + crewDays;
      this.next[start] = end;
      this.previous[end] = start;
      this.roundOf[start] = r;
      this.roundOf[end] = r;
    }
  }

  insert(visit: number, after: number): void {
    const round = this.roundOf[after] as number;
    const before = this.next[after] as number;
    this.next[after] = visit;
    this.previous[visit] = after;
    this.next[visit] = before;
    this.previous[before] = visit;
    this.roundOf[visit] = round;
    this.load[round]! += this.flat.load[visit] as number;
    if (this.count[round]!++ === 0) this.changeUse(round, this.used++);
  }

  remove(visit: number): void {
    const round = this.roundOf[visit] as number;
    const after = this.previous[visit] as number;
    const before = this.next[visit] as number;
    this.next[after] = before;
    this.previous[before] = after;
    this.roundOf[visit] = -1;
    this.load[round]! -= this.flat.load[visit] as number;
    if (--this.count[round]! === 0) {
      this.load[round] = 0;
      this.changeUse(round, --this.used);
    }
  }

  /** Visits of a round in order. */
  stops(round: number): number[] {
    const stops: number[] = [];
    let node = this.next[this.flat.visits + round] as number;
    while (node < this.flat.visits) {
      stops.push(node);
      node = this.next[node] as number;
    }
    return stops;
  }

  private changeUse(round: number, to: number): void {
    const from = this.useAt[round] as number;
    const other = this.byUse[to] as number;
    this.byUse[to] = round;
    this.byUse[from] = other;
    this.useAt[round] = to;
    this.useAt[other] = from;
  }
}
