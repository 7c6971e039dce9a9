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

/**
 * One more than the highest count ever finished, as text: `1` for the first, `pump-2:1` for the first of a machine.
 * Plain counts are older than the names of machines and count for each of them.
 */
export function nextCountCycle(finishedCycles: Iterable<string>, machineId: string | null = null): string {
  let highest = 0;
  for (const cycle of finishedCycles) {
    const counted = countOfCycle(cycle);
    if (!counted || (counted.machineId !== null && counted.machineId !== machineId)) continue;
    highest = Math.max(highest, counted.count);
  }
  return machineId === null ? String(highest + 1) : `${machineId}:${highest + 1}`;
}

/** Name of a task told by an event; a rule that answers it more than once numbers its later answers. */
export function eventCycle(happeningId: string, triggerIndex: number): string {
  return triggerIndex === 0 ? happeningId : `${happeningId}+${triggerIndex}`;
}

/** The running number in a cycle and the machine it is of, or null for cycles of other kinds. */
export function countOfCycle(cycle: string): { readonly machineId: string | null; readonly count: number } | null {
  const parts = /^(?:(.+):)?(\d+)$/.exec(cycle);
  return parts ? { machineId: parts[1] ?? null, count: Number(parts[2]) } : null;
}

/** Whether a running number comes after another one of the same machine. */
export function isLaterCount(cycle: string, than: string): boolean {
  const [count, other] = [countOfCycle(cycle), countOfCycle(than)];
  return count !== null && other !== null && count.machineId === other.machineId && count.count > other.count;
}

/** Whether a finished cycle was of a machine; a plain count was of every machine of its kind. */
export function isCycleOf(cycle: string, machineId: string): boolean {
  return (countOfCycle(cycle)?.machineId ?? machineId) === machineId;
}
