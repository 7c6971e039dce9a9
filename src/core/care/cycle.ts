import type { Season } from './seasons.js';

/*
 * Names of occurrences. Identity of a task is (pond, rule, cycle): replanning finds the same name again, and a
 * finished name never comes back.
 */

/** `cooling-2026`: the autumn that follows the midsummer of 2026, also when it crosses New Year. */
export function seasonCycle(season: Season): string {
  return `${season.half}-${season.year}`;
}

/** The season a cycle names, or null for other cycles. */
export function seasonOfCycle(cycle: string): Season | null {
  const parts = /^(cooling|warming)-(\d{4})$/.exec(cycle);
  return parts ? { half: parts[1] as Season['half'], year: Number(parts[2]) } : null;
}

/** One more than the highest count ever finished, as text: `1` for the first. */
export function nextCountCycle(finishedCycles: Iterable<string>): string {
  let highest = 0;
  for (const cycle of finishedCycles) {
    const count = Number(cycle);
    if (Number.isInteger(count) && count > highest) highest = count;
  }
  return String(highest + 1);
}
