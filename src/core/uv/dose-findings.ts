import { requireWithin } from '../errors.js';

/** What somebody measured at a dose of one pass or of one exposure. */
export interface UvFinding {
  readonly target: 'fish-bacteria-clear' | 'blue-green-algae' | 'green-algae-inhibited' | 'green-algae-suppressed';
  /** Doses that were tried. [mJ/cm²] */
  readonly fromMjPerCm2: number;
  readonly toMjPerCm2: number;
  /** Whether the effect was seen at these doses. */
  readonly isSeen: boolean;
  readonly source: string;
}

/** The findings differ: doses that kill bacteria in clear water hardly trouble green algae in one pass. */
export const UV_FINDINGS: readonly UvFinding[] = [
  {
    target: 'fish-bacteria-clear',
    fromMjPerCm2: 13.1,
    toMjPerCm2: 29.4,
    isSeen: true,
    source: 'Bullock & Stuckey (1977), J. Fish. Res. Board Can. 34, 1244-1249: 99.98 % or more in filtered water',
  },
  {
    target: 'blue-green-algae',
    fromMjPerCm2: 20,
    toMjPerCm2: 200,
    isSeen: true,
    source: 'Tao et al. (2010), Chemosphere: Microcystis held back for 3 to 13 days',
  },
  {
    target: 'green-algae-inhibited',
    fromMjPerCm2: 50,
    toMjPerCm2: 200,
    isSeen: true,
    source: 'Li et al. (2020), Sci. Total Environ.: Chlorella held back for 1 to 3 days',
  },
  {
    target: 'green-algae-suppressed',
    fromMjPerCm2: 20,
    toMjPerCm2: 200,
    isSeen: false,
    source: 'Tao et al. (2010), Chemosphere: Chlorella and Scenedesmus not held back',
  },
];

/**
 * What has been seen at a dose of one pass: the findings whose lower dose it reaches. Below 13 mJ/cm² none; a clarifier
 * is no steriliser, and what it does to green water it does through many passes, clumping and the filter.
 * @param doseMjPerCm2 0 to 100,000. [mJ/cm²]
 * @see Each finding names its paper (published source, read as abstract).
 */
export function seenAtDose(doseMjPerCm2: number): readonly UvFinding[] {
  requireWithin('UV dose, mJ/cm²', doseMjPerCm2, { min: 0, max: 100_000 });
  return UV_FINDINGS.filter(({ isSeen, fromMjPerCm2 }) => isSeen && doseMjPerCm2 >= fromMjPerCm2);
}
