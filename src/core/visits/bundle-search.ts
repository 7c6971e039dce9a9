import { type BundleTask, fitsVisit } from './bundle-task.js';
import { fewestVisitsBound } from './visit-bound.js';

export interface FoundBundles {
  readonly bundles: readonly Bundle[];
  /** Whether no plan can have fewer. */
  readonly isProven: boolean;
}
type Bundle = readonly BundleTask[];

/** The exact search gives up after so many partial plans and part-filled visits; a season of one pond needs fewer. */
const MOST_STEPS = 50_000;

/**
 * The fewest bundles: a greedy plan, mended, and where that misses the bound an exact search with a limit of effort.
 * Both serve the task whose window closes first. All other open windows close later, so whatever shares its visit can
 * be done on its last day, and it is enough to choose among the tasks already open then.
 * @param bound Fewest visits any plan needs.
 */
export function fewestBundles(tasks: readonly BundleTask[], minutesPerVisit: number, bound: number): FoundBundles {
  const order = [...tasks].sort((a, b) => a.latest - b.latest || b.minutes - a.minutes || (a.id < b.id ? -1 : 1));
  const greedy = closeBundles(fillGreedily(order, minutesPerVisit), minutesPerVisit);
  // With equal work times the limit is one of count, and filling by the window that closes first is optimal.
  const isCountLimit = order.every((task) => task.minutes === order[0]?.minutes && !task.notWith?.length);
  if (isCountLimit || greedy.length <= bound) return { bundles: greedy, isProven: true };
  return new BundleSearch(minutesPerVisit, bound, greedy).from(order);
}

/** Fill each visit by the window that closes first, of two alike by the longer work. */
function fillGreedily(order: Bundle, minutesPerVisit: number): BundleTask[][] {
  const bundles: BundleTask[][] = [];
  let open = [...order];
  for (let trigger = open[0]; trigger; trigger = open[0]) {
    const bundle: BundleTask[] = [];
    for (const task of open) {
      if (task.earliest <= trigger.latest && mayJoin(task, bundle, minutesPerVisit)) bundle.push(task);
    }
    bundles.push(bundle);
    open = open.filter((task) => !bundle.includes(task));
  }
  return bundles;
}

/** Tries to give every task of a bundle to the others; a bundle so emptied is a visit saved. */
function closeBundles(bundles: readonly BundleTask[][], minutesPerVisit: number): BundleTask[][] {
  let kept = [...bundles];
  let isSaved = true;
  while (isSaved) {
    isSaved = false;
    for (const candidate of [...kept].sort((a, b) => minutesOf(a) - minutesOf(b))) {
      const others = kept.filter((bundle) => bundle !== candidate).map((bundle) => [...bundle]);
      if (!placeAll(candidate, others, minutesPerVisit)) continue;
      kept = others;
      isSaved = true;
      break;
    }
  }
  return kept;
}

function placeAll(candidate: Bundle, others: readonly BundleTask[][], minutesPerVisit: number): boolean {
  const longestFirst = [...candidate].sort((a, b) => b.minutes - a.minutes);
  return longestFirst.every((task) => {
    const host = others.find((bundle) => shareADay(task, bundle) && mayJoin(task, bundle, minutesPerVisit));
    host?.push(task);
    return host !== undefined;
  });
}

/** Branch and bound over the visits in the order of the windows that trigger them. */
class BundleSearch {
  private steps = 0;
  private readonly fewestSeen = new Map<string, number>();

  constructor(
    private readonly minutesPerVisit: number,
    private readonly bound: number,
    private best: readonly Bundle[],
  ) {}

  from(order: Bundle): FoundBundles {
    this.branch(order, []);
    return { bundles: this.best, isProven: this.steps <= MOST_STEPS || this.best.length === this.bound };
  }

  private branch(open: Bundle, chosen: readonly Bundle[]): void {
    if (open.length === 0) {
      if (chosen.length < this.best.length) this.best = chosen;
      return;
    }
    if (this.steps++ > MOST_STEPS || this.best.length === this.bound) return;
    const key = open.map((task) => task.id).join('\n');
    if ((this.fewestSeen.get(key) ?? Number.POSITIVE_INFINITY) <= chosen.length) return;
    this.fewestSeen.set(key, chosen.length);
    if (chosen.length + fewestVisitsBound(open, this.minutesPerVisit) >= this.best.length) return;

    const [trigger, ...others] = open as [BundleTask, ...BundleTask[]];
    const eligible = others.filter((task) => task.earliest <= trigger.latest);
    this.fill([trigger], eligible, [], (filling) => {
      this.branch(
        open.filter((task) => !filling.includes(task)),
        [...chosen, filling],
      );
    });
  }

  /** Every way to fill the visit to which nothing more could be added: a fuller visit is never worse. */
  private fill(filling: Bundle, left: Bundle, passedOver: Bundle, then: (filling: Bundle) => void): void {
    if (this.steps++ > MOST_STEPS) return;
    const [task, ...rest] = left.filter((one) => this.mayJoin(one, filling));
    if (!task) {
      if (!passedOver.some((one) => this.mayJoin(one, filling))) then(filling);
      return;
    }
    this.fill([...filling, task], rest, passedOver, then);
    if (!this.fitsWhateverElse(task, filling, rest)) this.fill(filling, rest, [...passedOver, task], then);
  }

  /** Whether nothing that may still join could keep this task out: then leaving it out gains nothing. */
  private fitsWhateverElse(task: BundleTask, filling: Bundle, rest: Bundle): boolean {
    return this.mayJoin(task, [...filling, ...rest]);
  }

  private mayJoin(task: BundleTask, bundle: Bundle): boolean {
    return mayJoin(task, bundle, this.minutesPerVisit);
  }
}

function mayJoin(task: BundleTask, bundle: Bundle, minutesPerVisit: number): boolean {
  const isForbidden = bundle.some((other) => task.notWith?.includes(other.id) || other.notWith?.includes(task.id));
  return !isForbidden && fitsVisit(minutesOf(bundle) + task.minutes, minutesPerVisit);
}

function shareADay(task: BundleTask, bundle: Bundle): boolean {
  return bundle.every((other) => task.earliest <= other.latest && other.earliest <= task.latest);
}

function minutesOf(bundle: Bundle): number {
  return bundle.reduce((sum, task) => sum + task.minutes, 0);
}
