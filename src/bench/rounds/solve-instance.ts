import { searchInThreads } from '../../platform/rounds-search/search-in-threads.js';
import { knownDistance } from './known-distances.js';
import { checkRoutes } from './vrptw-check.js';
import { type Convention, problemOf, routesOf } from './vrptw-problem.js';
import type { VrptwInstance } from './vrptw-text.js';

export interface Answer {
  readonly instance: string;
  readonly convention: Convention;
  /** Search time as measured, thread start and reading left away. */
  readonly seconds: number;
  readonly vehicles: number;
  readonly distance: number;
  /** By the independent check, not by the search. */
  readonly feasible: boolean;
  /** Percent above the published optimum; only under trunc1, only where one is published. */
  readonly gapToBestKnown?: number;
}

const THREADS = 2;

/** Solves an instance on both cores and checks the answer. */
export async function solveInstance(
  instance: VrptwInstance,
  convention: Convention,
  seconds: number,
  seed: number,
): Promise<{ routes: number[][]; answer: Answer }> {
  const found = await searchInThreads(problemOf(instance, convention), {
    searchMs: seconds * 1000,
    seed,
    threads: THREADS,
  });
  const routes = routesOf(instance, found.plan);
  const { distance, faults } = checkRoutes(instance, routes, convention);
  if (faults.length > 0) process.stderr.write(`${instance.name}: ${faults.join('; ')}\n`);
  const known = convention === 'trunc1' && isWhole(instance) ? knownDistance(instance.name) : undefined;
  return {
    routes,
    answer: {
      instance: instance.name,
      convention,
      seconds: Math.round(found.tookMs / 10) / 100,
      vehicles: routes.length,
      distance: Number(distance.toFixed(convention === 'trunc1' ? 1 : 4)),
      feasible: faults.length === 0,
      ...(known === undefined ? {} : { gapToBestKnown: Number(((100 * (distance - known)) / known).toFixed(4)) }),
    },
  };
}

/** The published optima are of all hundred customers. */
function isWhole(instance: VrptwInstance): boolean {
  return instance.customers.length === 101;
}
