import type { CivilDay } from '../units/civil-day.js';
import type { CareHistory, FinishedTask, PondEvent, PondReading } from './care-plan.js';
import type { CareEvent, ReadingQuantity } from './care-rule.js';
import { isCycleOf } from './cycle.js';

/** The history of a pond, ready to be asked. Independent of the order in which it was given. */
export interface HistoryIndex {
  finishedCycles(ruleId: string): ReadonlyMap<string, FinishedTask>;
  /** The latest of either state, or null; of one machine where it is named. */
  lastFinished(ruleId: string, machineId?: string | null): FinishedTask | null;
  lastCompleted(ruleId: string): FinishedTask | null;
  completed(ruleId: string): readonly FinishedTask[];
  /** Oldest first. */
  readings(quantity: ReadingQuantity): readonly PondReading[];
  events(kind: CareEvent): readonly PondEvent[];
}

export function historyIndex(history: CareHistory): HistoryIndex {
  const finished = groupBy([...history.finished].sort(byDayThenCycle), (task) => task.ruleId);
  const readings = groupBy([...history.readings].sort(byInstant), (reading) => reading.quantity);
  const events = groupBy([...history.events].sort(byDayThenId), (event) => event.kind);
  const completed = (ruleId: string) => (finished.get(ruleId) ?? []).filter((task) => task.state === 'COMPLETED');

  return {
    finishedCycles: (ruleId) => new Map((finished.get(ruleId) ?? []).map((task) => [task.cycle, task])),
    lastFinished: (ruleId, machineId = null) =>
      finished.get(ruleId)?.findLast((task) => machineId === null || isCycleOf(task.cycle, machineId)) ?? null,
    lastCompleted: (ruleId) => completed(ruleId).at(-1) ?? null,
    completed,
    readings: (quantity) => readings.get(quantity) ?? [],
    events: (kind) => events.get(kind) ?? [],
  };
}

/** The latest reading of a quantity taken on or before a day, or null. */
export function lastReading(history: HistoryIndex, quantity: ReadingQuantity, notAfter: CivilDay): PondReading | null {
  return history.readings(quantity).findLast((reading) => reading.on <= notAfter) ?? null;
}

function groupBy<T, K>(items: readonly T[], keyOf: (item: T) => K): Map<K, T[]> {
  const groups = new Map<K, T[]>();
  for (const item of items) {
    const key = keyOf(item);
    const group = groups.get(key);
    if (group) group.push(item);
    else groups.set(key, [item]);
  }
  return groups;
}

const byText = (a: string, b: string) => (a < b ? -1 : a > b ? 1 : 0);
const byInstant = (a: PondReading, b: PondReading) => a.atMs - b.atMs || byText(a.id, b.id);
const byDayThenId = (a: PondEvent, b: PondEvent) => a.on - b.on || byText(a.id, b.id);
const byDayThenCycle = (a: FinishedTask, b: FinishedTask) => a.on - b.on || byText(a.cycle, b.cycle);
