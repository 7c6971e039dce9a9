import type { FlatProblem } from './flat-problem.js';
import { roundPrice, startPrice, unfairnessOf } from './prices.js';
import type { RoundsPlan } from './rounds-problem.js';
import { scheduleOf } from './schedule.js';

/** What a plan costs, part by part, in units of driving; `total` is what the search minimises (formula: `prices.ts`). */
export interface PlanCost {
  readonly total: number;
  readonly driving: number;
  /** Minutes of overtime, before their price. */
  readonly overtime: number;
  readonly overtimeAndRounds: number;
  readonly preferenceAndPromises: number;
  readonly unfairness: number;
  readonly unassigned: number;
}

/** Cost of any plan, also of one that breaks hard rules (those are told by `brokenRules`). */
export function costOfPlan(flat: FlatProblem, plan: RoundsPlan): PlanCost {
  const personWork = new Float64Array(flat.personHours.length);
  let [driving, overtime, overtimeAndRounds, preferenceAndPromises] = [0, 0, 0, 0];
  plan.rounds.forEach((visits, crewDay) => {
    if (visits.length === 0) return;
    const schedule = scheduleOf(flat, crewDay, visits);
    driving += schedule.driving;
    overtime += schedule.overtime;
    overtimeAndRounds += roundPrice(flat, crewDay, schedule.home);
    for (const { visit, start } of schedule.stops) {
      preferenceAndPromises += flat.fitPrice[visit * flat.crewDays + crewDay] as number;
      preferenceAndPromises += startPrice(flat, visit, crewDay, start);
    }
    for (const p of flat.personsOf[crewDay] as readonly number[]) personWork[p]! += schedule.driving + schedule.service;
  });
  const unfairness = unfairnessOf(flat, personWork);
  const unassigned = plan.unassigned.reduce((sum, visit) => sum + (flat.penalty[visit] as number), 0);
  const total = driving + overtimeAndRounds + preferenceAndPromises + unfairness + unassigned;
  return { total, driving, overtime, overtimeAndRounds, preferenceAndPromises, unfairness, unassigned };
}
