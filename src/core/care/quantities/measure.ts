/** Steps a person can make on a scale, a jug or a tape, largest first. */
const STEPS = [50_000, 10_000, 5_000, 1_000, 500, 250, 100, 50, 25, 10, 5, 1, 0.5, 0.25, 0.1, 0.05, 0.01] as const;
/** Never further off than this. [-] */
const LARGEST_ERROR_SHARE = 0.1;
const ROUNDING = 1e-9;

export type SafeSide = 'up' | 'down';

/**
 * An amount rounded to the safe side in the largest step that keeps it within a tenth, or null when even the smallest
 * step is too coarse. `roundedToMeasure(61.6, 'up', 1)` is 65; `roundedToMeasure(0.2, 'up', 1)` is null.
 * @param smallestStep The finest measure there is, in the unit of the amount.
 */
export function roundedToMeasure(amount: number, side: SafeSide, smallestStep: number): number | null {
  if (amount === 0) return 0;
  const step = STEPS.find((candidate) => candidate <= amount * LARGEST_ERROR_SHARE + ROUNDING);
  if (step === undefined || step < smallestStep - ROUNDING) return exactStep(amount, smallestStep);
  return toStep(amount, step, side);
}

/** What is a whole number of the smallest step already needs no rounding. */
function exactStep(amount: number, smallestStep: number): number | null {
  const steps = amount / smallestStep;
  return Math.abs(steps - Math.round(steps)) < ROUNDING && steps >= 1 ? Math.round(steps) * smallestStep : null;
}

function toStep(amount: number, step: number, side: SafeSide): number {
  const steps = amount / step;
  const whole = side === 'up' ? Math.ceil(steps - ROUNDING) : Math.floor(steps + ROUNDING);
  return Number((whole * step).toFixed(6));
}

/** An amount to two digits, rounded to the safe side: never a tenth off, for what no scale in a kitchen can weigh. */
export function roundedToTwoDigits(amount: number, side: SafeSide): number {
  if (amount === 0) return 0;
  const step = 10 ** (Math.floor(Math.log10(amount)) - 1);
  return toStep(amount, step, side);
}

/** Strengths of a solution to make up beforehand: product in a litre of water. [g/L] */
const SOLUTION_STRENGTHS_G_PER_L = [100, 10, 1] as const;
const SMALLEST_SOLUTION_ML = 10;

export interface MadeUpSolution {
  readonly strengthGPerL: number;
  readonly amountMl: number;
}

/** A small dose as millilitres of a made-up solution, strong enough to need at least ten of them. */
export function asSolution(doseG: number, side: SafeSide): MadeUpSolution {
  for (const strengthGPerL of SOLUTION_STRENGTHS_G_PER_L) {
    const amountMl = roundedToMeasure((doseG * 1000) / strengthGPerL, side, 1);
    if (amountMl !== null && amountMl >= SMALLEST_SOLUTION_ML) return { strengthGPerL, amountMl };
  }
  const weakest = SOLUTION_STRENGTHS_G_PER_L[SOLUTION_STRENGTHS_G_PER_L.length - 1] as number;
  return { strengthGPerL: weakest, amountMl: roundedToTwoDigits((doseG * 1000) / weakest, side) };
}
