import type { FlatProblem, Numbers } from './flat-problem.js';
import type { RoundEvaluation, RoundLists } from './round-lists.js';

/**
 * Evaluation of rounds where only driving counts and each visit has one window. Earliest departures and latest starts
 * are kept per node, so that an insertion is tested in constant time (forward time slack: M. W. P. Savelsbergh 1992,
 * ORSA J. Comput. 4(2), 146-154).
 */
export class PlainRounds implements RoundEvaluation {
  after = -1;
  private readonly travel: Numbers;
  private readonly travelBack: Numbers;
  private readonly size: number;
  private readonly service: Numbers;
  private readonly open: Numbers;
  private readonly close: Numbers;
  /** Earliest departure from a node, latest start at it, and driving into it. */
  private readonly departure: Numbers;
  private readonly latest: Numbers;
  private readonly into: Numbers;
  private readonly salt: Int32Array;

  constructor(
    private readonly flat: FlatProblem,
    private readonly lists: RoundLists,
  ) {
    this.travel = flat.travel;
    this.travelBack = flat.travelBack;
    this.size = flat.size;
    this.service = flat.service;
    this.open = flat.open;
    this.close = flat.close;
    const Kind = flat.travel instanceof Int32Array ? Int32Array : Float64Array;
    this.departure = new Kind(lists.nodes);
    this.latest = new Kind(lists.nodes);
    this.into = new Kind(lists.nodes);
    this.salt = lists.salt;
  }

  shared(): number {
    return 0;
  }

  sharedIfAdded(): number {
    return 0;
  }

  refresh(round: number): void {
    const { travel, size, service, open, close, departure, latest, into, salt } = this;
    const { next, previous } = this.lists;
    const n = this.flat.visits;
    let time = this.flat.begin[round] as number;
    let row = (this.flat.startRow[round] as number) * size;
    let cost = 0;
    let mark = round;
    let isLate = false;
    const start = n + round;
    const end = start + this.flat.crewDays;
    departure[start] = time;
    let node = next[start] as number;
    while (node < n) {
      const driving = travel[row + node] as number;
      into[node] = driving;
      cost += driving;
      time += driving;
      const opens = open[node] as number;
      if (time < opens) time = opens;
      if (time > (close[node] as number)) isLate = true;
      time += service[node] as number;
      departure[node] = time;
      mark = Math.imul(mark ^ (salt[node] as number), 0x2c1b3c6d) + ((mark >>> 15) | 0);
      row = node * size;
      node = next[node] as number;
    }
    let driving = travel[row + (this.flat.endRow[round] as number)] as number;
    into[end] = driving;
    if (time + driving > (this.flat.latestEnd[round] as number)) isLate = true;
    this.lists.cost[round] = next[start] === end ? 0 : isLate ? Number.POSITIVE_INFINITY : cost + driving;
    this.lists.mark[round] = mark | 1;
    let late = this.flat.latestEnd[round] as number;
    latest[end] = late;
    node = previous[end] as number;
    while (node < n) {
      late -= driving + (service[node] as number);
      const closes = close[node] as number;
      if (late > closes) late = closes;
      latest[node] = late;
      driving = into[node] as number;
      node = previous[node] as number;
    }
  }

  scan(visit: number, round: number, blindTo: number): number {
    const { travel, travelBack, departure, latest, into } = this;
    const next = this.lists.next;
    const n = this.flat.visits;
    const row = visit * this.size;
    const opens = this.open[visit] as number;
    const closes = this.close[visit] as number;
    const work = this.service[visit] as number;
    let best = Number.POSITIVE_INFINITY;
    let after = -1;
    let before = n + round;
    let there = travelBack[row + (this.flat.startRow[round] as number)] as number;
    let node = next[before] as number;
    while (node < n) {
      let start = departure[before] as number;
      if (start > closes) break;
      const onward = travel[row + node] as number;
      const cost = there + onward - (into[node] as number);
      if (cost < best && before !== blindTo) {
        start += there;
        if (start < opens) start = opens;
        if (start <= closes && start + work + onward <= (latest[node] as number)) {
          best = cost;
          after = before;
        }
      }
      there = travelBack[row + node] as number;
      before = node;
      node = next[node] as number;
    }
    if (node >= n) {
      const onward = travel[row + (this.flat.endRow[round] as number)] as number;
      const isEmpty = before >= n;
      const cost = there + onward - (isEmpty ? 0 : (into[node] as number));
      if (cost < best && before !== blindTo) {
        let start = (departure[before] as number) + there;
        if (start < opens) start = opens;
        if (start <= closes && start + work + onward <= (latest[node] as number)) {
          best = cost;
          after = before;
        }
      }
    }
    this.after = after;
    return best;
  }
}
