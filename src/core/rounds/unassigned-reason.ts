import { type FlatProblem, suits } from './flat-problem.js';
import { scheduleOf } from './schedule.js';

/** Why a visit is left out: nobody with the skill or the hands, no such crew on a day of its windows, or no time left. */
export type UnassignedReason = 'no-skill' | 'no-day' | 'no-time' | 'lock-cannot-hold';

export function unassignedReason(flat: FlatProblem, visit: number): UnassignedReason {
  const wanted = flat.problem.visits[visit]!;
  if (wanted.lock) return 'lock-cannot-hold';
  if (!flat.problem.crewDays.some((crewDay) => suits(wanted, crewDay))) return 'no-skill';
  const possible = Array.from(flat.mayServe.subarray(flat.mayServeAt[visit], flat.mayServeAt[visit + 1]));
  const isAloneInTime = possible.some((crewDay) => {
    const schedule = scheduleOf(flat, crewDay, [visit]);
    return schedule.stops[0]!.late === 0 && schedule.home <= (flat.latestEnd[crewDay] as number);
  });
  return isAloneInTime ? 'no-time' : 'no-day';
}
