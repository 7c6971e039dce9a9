import type { FlatProblem } from './flat-problem.js';

/*
 * The objective, in one place:
 *
 *   cost = driving
 *        + overtime price x overtime
 *        + preference missed, other day, other crew          (price of a crew-day for a visit: `fitPriceOf`)
 *        + other time                                         (`startPrice`)
 *        + round price for each round with a stop             (`roundPrice`)
 *        + unfairness x sum over persons of work^2 / hours    (`unfairnessOf`)
 *        + penalty of each visit left out
 *
 * all in units of driving. What is hard (windows, hours, skills, crew size, locks, sick ponds last, loads) has no price:
 * a visit that would break it is left out.
 */

/** Price of a start on the promised day but outside the promised span; halved or weighed by the promise. */
export function startPrice(flat: FlatProblem, visit: number, round: number, start: number): number {
  const { published } = flat.problem.visits[visit]!;
  if (!published || published.day !== flat.problem.crewDays[round]!.day) return 0;
  return Math.abs(start - published.start) > published.span ? flat.prices.otherTime * (published.weight ?? 1) : 0;
}

/** Price of a round beside its visits. */
export function roundPrice(flat: FlatProblem, round: number, home: number): number {
  const overtime = home - flat.problem.crewDays[round]!.hours.close;
  return flat.prices.round + (overtime > 0 ? flat.prices.overtime * overtime : 0);
}

/**
 * Unequal or needless work. The sum of squares falls whenever somebody works less or two people's shares come nearer to
 * each other, so it cannot be bettered by detours (monotone; why range and deviation are not: P. Matl, R. F. Hartl and
 * T. Vidal 2018, Transp. Sci. 52(2), 239-260, from memory).
 */
export function unfairnessOf(flat: FlatProblem, personWork: Float64Array): number {
  if (flat.prices.unfairness === 0) return 0;
  let sum = 0;
  for (let p = 0; p < personWork.length; p++) {
    const work = personWork[p] as number;
    sum += (work * work) / Math.max(1, flat.personHours[p] as number);
  }
  return flat.prices.unfairness * sum;
}
