import { figures, showVolume, type UnitSystem } from '../../../../core/units/show.js';
import type { LeakVerdict } from '../../../../core/water-loss/leak-finder.js';
import type { LeakNextStep } from '../../../../core/water-loss/next-step.js';
import type { JudgedLeakTest } from '../../../../ponds/index.js';

const MM_PER_IN = 25.4;

/** A height of water: `12 mm`, `0.47 in`. */
export function showLevel(mm: number, units: UnitSystem): string {
  if (units === 'metric') return `${Math.abs(mm) < 10 ? Number(mm.toFixed(1)) : Math.round(mm)} mm`;
  return `${Number((mm / MM_PER_IN).toFixed(2))} in`;
}

/** The verdict in a few words, with what it rests on. */
export function verdictWords({ verdict }: JudgedLeakTest, units: UnitSystem): string {
  const lost = `${showVolume(Math.max(0, verdict.unexplainedLPerDay), units)} a day`;
  switch (verdict.verdict) {
    case 'leak':
      return `It leaks, about ${lost}`;
    case 'tight':
      return 'No leak found';
    case 'came-in':
      return 'Water came in that is not on the list';
    case 'undecided':
      return 'Not settled yet';
  }
}

/** How certain the verdict is, in one sentence. */
export function certaintyWords(verdict: LeakVerdict, units: UnitSystem): string {
  const limit = showLevel(2, units);
  const percent = (share: number) => (share > 0.995 ? 'more than 99 %' : `${Math.round(share * 100)} %`);
  switch (verdict.verdict) {
    case 'leak':
      return `Certain to ${percent(verdict.leakProbability)} that more than ${limit} a day is lost without a reason.`;
    case 'tight':
      return `Certain to ${percent(1 - verdict.leakProbability)} that no more than ${limit} a day is lost without a reason. A loss of ${showLevel(verdict.leastProvableMmPerDay, units)} a day would have shown.`;
    case 'came-in':
      return 'The level fell so much less than it must that rain, a hose or an automatic valve has added water.';
    case 'undecided':
      return `So far a leak is ${Math.round(verdict.leakProbability * 100)} % likely; a verdict needs 95 %, either way.`;
  }
}

const days = (count: number) => (count === 1 ? 'one day' : `${figures(count)} days`);

/** What to do next. */
export function nextWords(next: LeakNextStep, units: UnitSystem): string {
  switch (next.kind) {
    case 'search-height':
      return `The fall stopped ${showLevel(next.belowMarkMm, units)} below the mark: look for a hole or a low edge all around at that height.`;
    case 'search-pumped':
      return 'With the pumps off the pond holds, with the pumps on it does not: search the falls, the stream, the filter and the pipes. Look for wet ground beside them.';
    case 'search-basin':
      return 'The basin itself leaks: look at the edge for a low spot first. Then let the level fall, with enough water left for the fish, and see at which height it stops.';
    case 'repeat':
      return `Repeat it with the pumps ${next.pumps} for ${days(next.days)}, with air for the fish: it tells the basin from the falls, the filter and the pipes.`;
    case 'go-on':
      return `Go on: if it keeps falling like this, the test is settled after ${days(next.days)} in all. Add the next level below.`;
    case 'stand-a-bucket':
      return `In this weather evaporation is too uncertain for a ruler alone. Begin anew with a bucket: half full, standing in the pond with the water inside as high as outside. With it ${days(next.days)} are enough.`;
    case 'repeat-later':
      return 'The loss lies so near the limit that measuring on settles nothing. Test again next month, with the same mark.';
    case 'shut-the-inlet':
      return 'Shut the automatic valve and every hose, write down the rain, and begin anew.';
    case 'nothing':
      return 'Nothing to do. Test again when the top-ups grow.';
  }
}
