import { type BundleTask, mayShareAVisit } from './bundle-task.js';

type Bundle = readonly BundleTask[];

/** Rounds of mending; each makes at least one pair more meet, and a pond has few. */
const MOST_ROUNDS = 200;

/**
 * Brings tasks together that are better done on one visit, without a visit more and without breaking a limit: one task
 * is moved, or two change places, as long as that makes more of them meet. Never fewer meet than before; that it is the
 * most is not proved.
 * @see Local search; derived.
 */
export function alignBundles(bundles: readonly Bundle[], minutesPerVisit: number): Bundle[] {
  let standing = [...bundles];
  for (let round = 0; round < MOST_ROUNDS; round += 1) {
    const better = firstBetter(standing, minutesPerVisit);
    if (!better) return standing;
    standing = better;
  }
  return standing;
}

/** Pairs that should meet and do. */
export function alignedPairs(bundles: readonly Bundle[]): number {
  return bundles.reduce((sum, bundle) => {
    const pairs = bundle.flatMap((task, i) => bundle.slice(i + 1).filter((other) => shouldMeet(task, other)));
    return sum + pairs.length;
  }, 0);
}

function firstBetter(bundles: readonly Bundle[], minutesPerVisit: number): Bundle[] | null {
  const before = alignedPairs(bundles);
  for (const [from, source] of bundles.entries()) {
    for (const task of source) {
      for (const [to, target] of bundles.entries()) {
        if (to === from || !target.some((other) => shouldMeet(task, other))) continue;
        // Null stands for a move: nothing comes back. A visit is never left empty, for then it was one too many.
        for (const back of [...(source.length > 1 ? [null] : []), ...target]) {
          const left = [...source.filter((one) => one !== task), ...(back ? [back] : [])];
          const joined = [...target.filter((one) => one !== back), task];
          if (!mayShareAVisit(left, minutesPerVisit) || !mayShareAVisit(joined, minutesPerVisit)) continue;
          const changed = bundles.map((one, i) => (i === from ? left : i === to ? joined : one));
          if (alignedPairs(changed) > before) return changed;
        }
      }
    }
  }
  return null;
}

function shouldMeet(a: BundleTask, b: BundleTask): boolean {
  return a.alignWith?.includes(b.id) === true || b.alignWith?.includes(a.id) === true;
}
