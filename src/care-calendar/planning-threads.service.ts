import { existsSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { Inject, Injectable } from '@nestjs/common';
import type { Dechlorinators } from '../config/products.js';
import { CARE_RULES, DECHLORINATORS, STATIONS } from '../config/tokens.js';
import type { CareRule } from '../core/care/care-rule.js';
import type { Station } from '../core/climate/station.js';
import { PLANNING_SCRIPT, PlanningThreads } from './planning-threads.js';

/** Below it threads cost more than they save: measured, 400 ponds replanned slower with them, 1,500 faster (bench:plan). */
const FEWEST_PONDS = 1000;
/** More threads than these wait for the one that writes. */
const MOST_THREADS = 8;

/** Decides whether a replan is worth threads, and gives them the tables of the program. */
@Injectable()
export class PlanningThreadsService {
  constructor(
    @Inject(STATIONS) private readonly stations: readonly Station[],
    @Inject(CARE_RULES) private readonly rules: readonly CareRule[],
    @Inject(DECHLORINATORS) private readonly dechlorinators: Dechlorinators,
  ) {}

  /** Close them. Null where they would not pay: few ponds, one core, or a program that was not built. */
  forPonds(count: number): PlanningThreads | null {
    const cores = availableParallelism();
    if (count < FEWEST_PONDS || cores < 2 || !existsSync(PLANNING_SCRIPT)) return null;
    const { stations, rules, dechlorinators } = this;
    return PlanningThreads.start(Math.min(cores, MOST_THREADS), { stations, rules, dechlorinators });
  }
}
