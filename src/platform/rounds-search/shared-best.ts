import type { RoundsPlan } from '../../core/rounds/rounds-problem.js';
import type { SearchExchange } from '../../core/rounds/run-search.js';

const HEADER_BYTES = 16;

/**
 * The best plan of each of several threads in shared memory. A slot holds a version (odd while it is written), a cost and
 * the rounds as one row of numbers; a reader that meets a writer simply comes again next time.
 */
export class SharedBest implements SearchExchange {
  private offered = Number.POSITIVE_INFINITY;

  constructor(
    private readonly memory: SharedArrayBuffer,
    private readonly threads: number,
    private readonly own: number,
    private readonly crewDays: number,
    private readonly visits: number,
  ) {}

  static memoryFor(threads: number, crewDays: number, visits: number): SharedArrayBuffer {
    const memory = new SharedArrayBuffer(threads * slotBytes(crewDays, visits));
    for (let thread = 0; thread < threads; thread++) {
      new Float64Array(memory, thread * slotBytes(crewDays, visits) + 8, 1)[0] = Number.POSITIVE_INFINITY;
    }
    return memory;
  }

  offer(cost: number, plan: () => RoundsPlan): void {
    if (cost >= this.offered) return;
    this.offered = cost;
    const { version, costs, row } = this.slot(this.own);
    Atomics.add(version, 0, 1);
    costs[0] = cost;
    let at = 0;
    for (const stops of plan().rounds) {
      for (const visit of stops) row[at++] = visit;
      row[at++] = -1;
    }
    Atomics.add(version, 0, 1);
  }

  better(cost: number): RoundsPlan | undefined {
    let best: number[] | undefined;
    let bestCost = cost;
    for (let thread = 0; thread < this.threads; thread++) {
      if (thread === this.own) continue;
      const { version, costs, row } = this.slot(thread);
      const before = Atomics.load(version, 0);
      if (before % 2 === 1 || (costs[0] as number) >= bestCost) continue;
      const read = Array.from(row);
      const readCost = costs[0] as number;
      if (Atomics.load(version, 0) !== before) continue;
      best = read;
      bestCost = readCost;
    }
    return best && { rounds: this.roundsOf(best), unassigned: [] };
  }

  private roundsOf(row: readonly number[]): number[][] {
    const rounds: number[][] = [];
    let stops: number[] = [];
    for (let at = 0; rounds.length < this.crewDays; at++) {
      const visit = row[at] as number;
      if (visit >= 0) stops.push(visit);
      else {
        rounds.push(stops);
        stops = [];
      }
    }
    return rounds;
  }

  private slot(thread: number) {
    const at = thread * slotBytes(this.crewDays, this.visits);
    return {
      version: new Int32Array(this.memory, at, 1),
      costs: new Float64Array(this.memory, at + 8, 1),
      row: new Int32Array(this.memory, at + HEADER_BYTES, this.crewDays + this.visits),
    };
  }
}

function slotBytes(crewDays: number, visits: number): number {
  return Math.ceil((HEADER_BYTES + 4 * (crewDays + visits)) / 8) * 8;
}
