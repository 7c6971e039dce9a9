import type { RoundsPlan } from './rounds-problem.js';
import type { RoundsSearch } from './search.js';

/**
 * When a search ends. `share` is how much of the budget is used (1 and more: all), by whatever clock the caller has;
 * `steps` counts trials, the same on every machine. Give one of the two.
 */
export interface SearchBudget {
  readonly steps?: number;
  readonly share?: () => number;
  readonly isCancelled?: () => boolean;
  readonly exchange?: SearchExchange;
}

/** Where searches of one problem meet: each offers its best and takes over what is better by more than its temperature. */
export interface SearchExchange {
  offer(cost: number, plan: () => RoundsPlan): void;
  better(cost: number): RoundsPlan | undefined;
}

const STEPS_BETWEEN_LOOKS = 64;
/** Earlier, taking over the best would make one search of two. */
const FIRST_EXCHANGE = 0.8;
const EXCHANGE_EVERY = 0.02;

/** Runs a search to the end of its budget; what it found is in `search.bestPlan()`, at any time. */
export function runSearch(search: RoundsSearch, budget: SearchBudget): void {
  const first = search.steps;
  let nextExchange = FIRST_EXCHANGE;
  for (;;) {
    const done = search.steps - first;
    const share = Math.max(budget.share?.() ?? 0, budget.steps === undefined ? 0 : done / budget.steps);
    if (share >= 1 || budget.isCancelled?.()) return;
    search.cool(share);
    if (budget.exchange && share >= nextExchange) {
      nextExchange = share + EXCHANGE_EVERY;
      exchangeBest(search, budget.exchange);
    }
    const steps = budget.steps === undefined ? STEPS_BETWEEN_LOOKS : Math.min(STEPS_BETWEEN_LOOKS, budget.steps - done);
    for (let i = 0; i < steps; i++) search.step();
  }
}

function exchangeBest(search: RoundsSearch, exchange: SearchExchange): void {
  exchange.offer(search.bestCost, () => search.bestPlan());
  const plan = exchange.better(search.bestCost);
  if (plan) search.adopt(plan);
}
