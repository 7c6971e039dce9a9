import { InvalidValueError, requireWithin } from '../errors.js';

/** Two readings of one evening, and the night still to come. */
export interface EveningReadings {
  /** At dusk or later, 0.1 to 25. [mg/L] */
  readonly firstMgPerL: number;
  /** Some hours after, no higher than the first. [mg/L] */
  readonly secondMgPerL: number;
  /** 1 to 8; three hours gave the published accuracy. [h] */
  readonly hoursBetween: number;
  /** From the first reading to dawn, no less than `hoursBetween` and at most 18. [h] */
  readonly hoursToDawn: number;
}

/**
 * Oxygen at dawn from two readings of the evening, by a straight line through their logarithms. [mg/L]
 *   D = D1 (D2 / D1)^(t / dt)
 * 8.0 at nine and 7.0 at midnight: 5.60 at five. Throws when the second is the higher: then nothing falls that could be
 * drawn on. An aerator switched on or off later spoils it.
 * @see Madenjian, Rogers & Fast (1987), Aquacult. Eng. 6, 191-208 (published source): clearly better than a straight line;
 *      with three hours between and a term for diffusion the mean error was 0.40 mg/L (part II, 209-225).
 */
export function dawnOxygenByReadingsMgPerL(evening: EveningReadings): number {
  const { firstMgPerL, secondMgPerL, hoursBetween, hoursToDawn } = evening;
  requireWithin('first oxygen reading, mg/L', firstMgPerL, { min: 0.1, max: 25 });
  requireWithin('second oxygen reading, mg/L', secondMgPerL, { min: 0.1, max: 25 });
  requireWithin('hours between the readings', hoursBetween, { min: 1, max: 8 });
  requireWithin('hours from the first reading to dawn', hoursToDawn, { min: hoursBetween, max: 18 });
  if (secondMgPerL > firstMgPerL) {
    throw new InvalidValueError(
      'second oxygen reading, mg/L',
      secondMgPerL,
      `It is above the first of ${firstMgPerL}: nothing falls yet. Read again later in the evening.`,
    );
  }
  return firstMgPerL * (secondMgPerL / firstMgPerL) ** (hoursToDawn / hoursBetween);
}
