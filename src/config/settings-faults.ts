import { DomainError } from '../core/errors.js';

/** Settings that cannot be used: one sentence for each fault, never with a secret in it. */
export class SettingsError extends DomainError {
  readonly code = 'settings';

  constructor(readonly faults: readonly string[]) {
    super(faults.join('\n'));
  }
}

/** The known name that is closest in spelling, where one is close enough to be meant. */
export function nearestName(written: string, known: readonly string[]): string | null {
  const ranked = known
    .map((name) => ({ name, steps: editSteps(written.toLowerCase(), name.toLowerCase()) }))
    .sort((a, b) => a.steps - b.steps);
  const best = ranked[0];
  return best && best.steps <= Math.max(2, written.length / 4) ? best.name : null;
}

/** Levenshtein distance: the fewest letters to insert, delete or replace. */
function editSteps(from: string, to: string): number {
  let row = Array.from({ length: to.length + 1 }, (_, i) => i);
  for (let i = 1; i <= from.length; i++) {
    const next = [i];
    for (let j = 1; j <= to.length; j++) {
      const replaced = row[j - 1]! + (from[i - 1] === to[j - 1] ? 0 : 1);
      next.push(Math.min(replaced, row[j]! + 1, next[j - 1]! + 1));
    }
    row = next;
  }
  return row[to.length]!;
}
