import type { FlatProblem } from './flat-problem.js';
import type { Random } from './random.js';
import type { RoundLists } from './round-lists.js';

/** How much is taken out in one step; published values except `keepMore`, see README. */
export interface RuinSettings {
  readonly meanRemoved: number;
  readonly longestString: number;
  /** Share of the strings of which a middle part stays. */
  readonly splitShare: number;
  /** Chance that the part that stays is one stop longer. */
  readonly keepMore: number;
}

export const USUAL_RUIN: RuinSettings = { meanRemoved: 10, longestString: 10, splitShare: 0.5, keepMore: 0.5 };

const MOST_NEIGHBOURS = 400;

/**
 * Takes strings of neighbouring stops out of rounds near a random visit: "adjacent string removal" (J. Christiaens and
 * G. Vanden Berghe 2020, Transp. Sci. 54(2), 417-433). Locked visits stay where they are.
 */
export class Ruin {
  /** What the last call took out; only the first `removed` count. */
  readonly taken: Int32Array;
  removed = 0;
  private readonly neighbours: Int32Array;
  private readonly width: number;
  private readonly cutInStep: Int32Array;
  private step = 0;

  constructor(
    private readonly flat: FlatProblem,
    private readonly lists: RoundLists,
    private readonly random: Random,
    private readonly settings: RuinSettings,
    private readonly touch: (round: number) => void,
  ) {
    this.taken = new Int32Array(flat.visits);
    this.cutInStep = new Int32Array(flat.crewDays);
    this.width = Math.min(flat.visits - 1, MOST_NEIGHBOURS);
    this.neighbours = nearest(flat, this.width);
  }

  /** Neighbour of a visit by rank, 0 the nearest. */
  neighbour(visit: number, rank: number): number {
    return this.neighbours[visit * this.width + Math.min(rank, this.width - 1)] as number;
  }

  /** Takes strings out around a visit, a random one if none is given. */
  run(around = -1): void {
    const { lists, random, settings, flat, cutInStep, neighbours, width } = this;
    this.removed = 0;
    this.step++;
    const inRounds = meanLength(lists);
    const longest = Math.min(settings.longestString, inRounds);
    const mostStrings = (4 * settings.meanRemoved) / (1 + longest) - 1;
    const strings = Math.floor(random.fraction() * mostStrings + 1);
    const seed = around >= 0 ? around : random.below(flat.visits);
    let cut = 0;
    for (let i = -1; i < width && cut < strings; i++) {
      const visit = i < 0 ? seed : (neighbours[seed * width + i] as number);
      const round = lists.roundOf[visit] as number;
      if (round < 0 || cutInStep[round] === this.step || flat.isLocked[visit]) continue;
      cutInStep[round] = this.step;
      cut++;
      this.touch(round);
      const most = Math.min(lists.count[round] as number, longest);
      this.cut(visit, round, Math.floor(random.fraction() * most + 1));
    }
  }

  private cut(visit: number, round: number, length: number): void {
    const { random, settings, lists, flat } = this;
    const count = lists.count[round] as number;
    let kept = 0;
    if (length > 1 && random.fraction() < settings.splitShare) {
      kept = 1;
      while (length + kept < count && random.fraction() < settings.keepMore) kept++;
      if (length + kept > count) kept = count - length;
    }
    const span = length + kept;
    let node = visit;
    let back = random.below(span);
    while (back > 0 && (lists.previous[node] as number) < flat.visits) {
      node = lists.previous[node] as number;
      back--;
    }
    // A string that would run over the end of the round begins earlier.
    let ahead = 1;
    let last = node;
    while (ahead < span && (lists.next[last] as number) < flat.visits) {
      last = lists.next[last] as number;
      ahead++;
    }
    while (ahead < span && (lists.previous[node] as number) < flat.visits) {
      node = lists.previous[node] as number;
      ahead++;
    }
    const keepFrom = kept > 0 ? 1 + random.below(Math.max(1, length - 1)) : span;
    for (let i = 0; i < span && node < flat.visits; i++) {
      const following = lists.next[node] as number;
      const stays = (i >= keepFrom && i < keepFrom + kept) || flat.isLocked[node] === 1;
      if (!stays) {
        lists.remove(node);
        this.taken[this.removed++] = node;
      }
      node = following;
    }
  }
}

function meanLength(lists: RoundLists): number {
  let stops = 0;
  for (let k = 0; k < lists.used; k++) stops += lists.count[lists.byUse[k] as number] as number;
  return lists.used > 0 ? stops / lists.used : 1;
}

function nearest(flat: FlatProblem, width: number): Int32Array {
  const { visits, size, travel } = flat;
  const neighbours = new Int32Array(visits * Math.max(0, width));
  const driving = new Float64Array(visits);
  for (let v = 0; v < visits; v++) {
    const others: number[] = [];
    for (let u = 0; u < visits; u++) {
      driving[u] = (travel[v * size + u] as number) + (travel[u * size + v] as number);
      if (u !== v) others.push(u);
    }
    others.sort((a, b) => (driving[a] as number) - (driving[b] as number));
    neighbours.set(others.slice(0, width), v * width);
  }
  return neighbours;
}
