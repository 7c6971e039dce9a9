import type { FlatProblem } from './flat-problem.js';
import { placeAsPlanned } from './place-as-planned.js';
import { PlainRounds } from './plain-rounds.js';
import { Random } from './random.js';
import { Recreate } from './recreate.js';
import { RichRounds } from './rich-rounds.js';
import { type RoundEvaluation, RoundLists } from './round-lists.js';
import type { RoundsPlan } from './rounds-problem.js';
import { Ruin, type RuinSettings, USUAL_RUIN } from './ruin.js';

export interface SearchSettings {
  readonly ruin: RuinSettings;
  readonly blink: number;
  /** Chance that an empty round may be taken although another has room. */
  readonly opening: number;
  /** Share of the steps that first exchange the ends of two rounds. */
  readonly tailSwaps: number;
  /** Temperatures at the start and the end, in mean legs of the start plan. */
  readonly hot: number;
  readonly cold: number;
}

export const USUAL_SEARCH: SearchSettings = {
  ruin: USUAL_RUIN,
  blink: 0.01,
  opening: 0.5,
  tailSwaps: 0.1,
  hot: 1,
  cold: 0.01,
};

const LARGER_RUIN: RuinSettings = { ...USUAL_RUIN, meanRemoved: 15, longestString: 20 };

/** The settings of one of several searches of the same problem: cooler and hotter ones in turn. */
export function searchSettings(thread: number): SearchSettings {
  return thread % 2 === 0 ? USUAL_SEARCH : { ...USUAL_SEARCH, hot: 3, ruin: LARGER_RUIN };
}

/** Ruin and recreate with simulated annealing on one problem. Every `step` is one trial; `best` is never infeasible. */
export class RoundsSearch {
  readonly lists: RoundLists;
  cost = 0;
  bestCost = Number.POSITIVE_INFINITY;
  steps = 0;
  temperature = 0;
  private readonly random: Random;
  private readonly rules: RoundEvaluation;
  private readonly ruin: Ruin;
  private readonly recreate: Recreate;
  private readonly out: Int32Array;
  private outCount = 0;
  private readonly pool: Int32Array;
  private readonly touchedIn: Int32Array;
  private readonly touched: Int32Array;
  private readonly savedAt: Int32Array;
  private readonly saved: Int32Array;
  private readonly savedCost: Float64Array;
  private touchedCount = 0;
  private savedCount = 0;
  private readonly savedOut: Int32Array;
  private readonly bestNext: Int32Array;
  private bestOut: Int32Array = new Int32Array(0);
  private shared = 0;
  private readonly meanLeg: number;
  /** Locked visits whose lock cannot be kept; they stay out. */
  private readonly fixedOut: readonly number[];

  constructor(
    private readonly flat: FlatProblem,
    seed: number,
    private readonly settings: SearchSettings = USUAL_SEARCH,
    start?: RoundsPlan,
  ) {
    const n = flat.visits;
    this.lists = new RoundLists(flat);
    this.random = new Random(seed);
    this.rules = flat.isPlain ? new PlainRounds(flat, this.lists) : new RichRounds(flat, this.lists);
    this.out = new Int32Array(n);
    this.savedOut = new Int32Array(n);
    this.pool = new Int32Array(n);
    this.touchedIn = new Int32Array(flat.crewDays).fill(-1);
    this.touched = new Int32Array(flat.crewDays);
    this.savedAt = new Int32Array(flat.crewDays + 1);
    this.saved = new Int32Array(n);
    this.savedCost = new Float64Array(flat.crewDays);
    this.bestNext = new Int32Array(this.lists.nodes);
    const touch = (round: number) => this.touch(round);
    this.ruin = new Ruin(flat, this.lists, this.random, settings.ruin, touch);
    this.recreate = new Recreate(flat, this.lists, this.rules, this.random, settings.blink, settings.opening, touch);
    for (let r = 0; r < flat.crewDays; r++) this.rules.refresh(r);
    this.fixedOut = this.place(start);
    this.meanLeg = meanLeg(flat, this.lists);
    this.keepBest();
    this.cool(0);
  }

  /** Goes on from another plan, for example the better one of a second search of the same problem. */
  adopt(plan: RoundsPlan): void {
    for (let v = 0; v < this.flat.visits; v++) if ((this.lists.roundOf[v] as number) >= 0) this.lists.remove(v);
    for (let r = 0; r < this.flat.crewDays; r++) this.rules.refresh(r);
    this.place(plan);
    if (this.cost < this.bestCost - 1e-7) this.keepBest();
  }

  private place(plan: RoundsPlan | undefined): number[] {
    const { flat, lists } = this;
    const fixedOut = placeAsPlanned(flat, lists, this.rules, plan?.rounds ?? []);
    let count = 0;
    for (let v = 0; v < flat.visits; v++) {
      if ((lists.roundOf[v] as number) < 0 && !fixedOut.includes(v)) this.pool[count++] = v;
    }
    // Every round counts as touched already: nothing of this is to be undone.
    this.touchedIn.fill(this.steps);
    this.outCount = this.recreate.run(this.pool, count);
    this.out.set(this.pool.subarray(0, this.outCount));
    this.shared = this.rules.shared();
    this.cost = this.total(fixedOut);
    return fixedOut;
  }

  /** Sets the temperature for a share (0 to 1) of the budget. */
  cool(share: number): void {
    const { hot, cold } = this.settings;
    this.temperature = this.meanLeg * hot * (cold / hot) ** share;
  }

  step(): void {
    const { ruin, lists, flat, pool } = this;
    this.steps++;
    this.touchedCount = 0;
    this.savedCount = 0;
    const outBefore = this.outCount;
    if (outBefore > 0) this.savedOut.set(this.out.subarray(0, outBefore));
    ruin.run(this.random.fraction() < this.settings.tailSwaps ? this.swapTails() : -1);
    for (let k = 0; k < this.touchedCount; k++) this.rules.refresh(this.touched[k] as number);
    const removed = ruin.removed;
    for (let i = 0; i < removed; i++) pool[i] = ruin.taken[i] as number;
    for (let i = 0; i < outBefore; i++) pool[removed + i] = this.out[i] as number;
    const out = this.recreate.run(pool, removed + outBefore);
    const shared = this.rules.shared();
    let change = shared - this.shared;
    for (let k = 0; k < this.touchedCount; k++) {
      change += (lists.cost[this.touched[k] as number] as number) - (this.savedCost[k] as number);
    }
    for (let i = 0; i < out; i++) change += flat.penalty[pool[i] as number] as number;
    for (let i = 0; i < outBefore; i++) change -= flat.penalty[this.savedOut[i] as number] as number;
    if (change <= 0 || change < -this.temperature * Math.log(this.random.fraction())) {
      this.cost += change;
      this.shared = shared;
      for (let i = 0; i < out; i++) this.out[i] = pool[i] as number;
      this.outCount = out;
      if (this.cost < this.bestCost - 1e-7) this.keepBest();
    } else {
      this.undo();
    }
  }

  /**
   * Joins a visit to a near one of another round and their rests the other way round (2-opt*: J.-Y. Potvin and
   * J.-M. Rousseau 1995, J. Oper. Res. Soc. 46(12), 1433-1446), if both rounds can then be driven. Returns the visit.
   */
  private swapTails(): number {
    const { flat, lists, random, rules } = this;
    const visit = random.below(flat.visits);
    if (!flat.hasLikeCrews || flat.visits < 3) return visit;
    const other = this.ruin.neighbour(visit, random.below(20));
    const [round, second] = [lists.roundOf[visit] as number, lists.roundOf[other] as number];
    if (round < 0 || second < 0 || round === second) return visit;
    this.touch(round);
    this.touch(second);
    let [after, afterOther] = [visit, lists.previous[other] as number];
    let [node, nodeOther] = [lists.next[visit] as number, other];
    while (nodeOther < flat.visits) {
      const following = lists.next[nodeOther] as number;
      lists.remove(nodeOther);
      lists.insert(nodeOther, after);
      after = nodeOther;
      nodeOther = following;
    }
    while (node < flat.visits) {
      const following = lists.next[node] as number;
      lists.remove(node);
      lists.insert(node, afterOther);
      afterOther = node;
      node = following;
    }
    rules.refresh(round);
    rules.refresh(second);
    const isDrivable =
      lists.cost[round]! + lists.cost[second]! < Number.POSITIVE_INFINITY &&
      lists.load[round]! <= flat.capacity[round]! &&
      lists.load[second]! <= flat.capacity[second]!;
    if (!isDrivable) {
      this.undo();
      this.touchedCount = 0;
      this.savedCount = 0;
      this.touchedIn[round] = -1;
      this.touchedIn[second] = -1;
    }
    return visit;
  }

  private total(fixedOut: readonly number[]): number {
    let cost = this.lists.cost.reduce((sum, own) => sum + own, 0) + this.shared;
    for (const visit of fixedOut) cost += this.flat.penalty[visit] as number;
    for (let i = 0; i < this.outCount; i++) cost += this.flat.penalty[this.out[i] as number] as number;
    return cost;
  }

  private touch(round: number): void {
    if (this.touchedIn[round] === this.steps) return;
    this.touchedIn[round] = this.steps;
    const { next, cost } = this.lists;
    const n = this.flat.visits;
    const k = this.touchedCount++;
    this.touched[k] = round;
    this.savedAt[k] = this.savedCount;
    this.savedCost[k] = cost[round] as number;
    let node = next[n + round] as number;
    while (node < n) {
      this.saved[this.savedCount++] = node;
      node = next[node] as number;
    }
    this.savedAt[k + 1] = this.savedCount;
  }

  private undo(): void {
    const { lists } = this;
    const n = this.flat.visits;
    for (let k = 0; k < this.touchedCount; k++) {
      let node = lists.next[n + (this.touched[k] as number)] as number;
      while (node < n) {
        const following = lists.next[node] as number;
        lists.remove(node);
        node = following;
      }
    }
    for (let k = 0; k < this.touchedCount; k++) {
      const round = this.touched[k] as number;
      let after = n + round;
      for (let i = this.savedAt[k] as number; i < (this.savedAt[k + 1] as number); i++) {
        const visit = this.saved[i] as number;
        lists.insert(visit, after);
        after = visit;
      }
      this.rules.refresh(round);
    }
  }

  private keepBest(): void {
    this.bestCost = this.cost;
    this.bestNext.set(this.lists.next);
    this.bestOut = this.out.slice(0, this.outCount);
  }

  bestPlan(): RoundsPlan {
    const n = this.flat.visits;
    const rounds = Array.from({ length: this.flat.crewDays }, (_, r) => {
      const stops: number[] = [];
      for (let node = this.bestNext[n + r] as number; node < n; node = this.bestNext[node] as number) stops.push(node);
      return stops;
    });
    return { rounds, unassigned: [...this.bestOut, ...this.fixedOut].sort((a, b) => a - b) };
  }
}

function meanLeg(flat: FlatProblem, lists: RoundLists): number {
  let driving = 0;
  let legs = 0;
  for (let k = 0; k < lists.used; k++) {
    const round = lists.byUse[k] as number;
    let row = flat.startRow[round] as number;
    for (const visit of lists.stops(round)) {
      driving += flat.travel[row * flat.size + visit] as number;
      row = visit;
      legs++;
    }
    driving += flat.travel[row * flat.size + (flat.endRow[round] as number)] as number;
    legs++;
  }
  return legs > 0 ? driving / legs : 1;
}
