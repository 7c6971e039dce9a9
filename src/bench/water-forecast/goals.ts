import type { MethodScores } from './method-scores.js';
import type { WrongReadingScores } from './wrong-readings.js';

/** One figure beside what it is to be. */
export interface Goal {
  readonly lake: string;
  readonly figure: string;
  readonly value: number;
  readonly unit: string;
  readonly goal: string;
  readonly isMet: boolean;
}

const MOST_RMSE_WITH_AIR_C: Readonly<Record<string, number>> = { PRPO: 1.2, SUGG: 1.4 };
const MOST_RMSE_WRONG_EXPOSURE_C = 1.5;
const LEAST_BELOW_AIR_MEAN = 0.3;
const MOST_RMSE_NORMALS_C = { mean: 2.5, any: 3.0 } as const;
const MOST_AUTUMN_DAYS = 2;
const BAND = { min: 0.7, max: 0.9 } as const;
const MOST_RISE_C = 0.3;

/**
 * The goals of the water forecast, each with the figure reached. A deep lake has none of its own for the RMSE: its water
 * hangs on ice; what it must do is beat the mean of the air.
 */
export function goalsOf(scores: readonly MethodScores[], wrong: readonly WrongReadingScores[]): Goal[] {
  const normals = scores.filter(({ key }) => key === 'normals');
  const withAir = scores.filter(({ key }) => key === 'daily-air');
  const corrected = scores.filter(({ key }) => key === 'wrong-exposure-six');
  const meanNormals = normals.reduce((sum, { rmseC }) => sum + rmseC, 0) / normals.length;
  return [
    ...withAir.flatMap(({ lake, rmseC }) => {
      const most = MOST_RMSE_WITH_AIR_C[lake];
      return most === undefined ? [] : [atMost(lake, 'RMSE, daily air', rmseC, most, '°C')];
    }),
    ...withAir.map(({ lake, belowAirMean }) => aThirdBelow(lake, 'daily air', belowAirMean)),
    ...withAir
      .filter(({ autumnTo15 }) => autumnTo15.events > 0)
      .map(({ lake, autumnTo15 }) =>
        atMost(lake, 'autumn dates to 15 °C, daily air', meanOrNone(autumnTo15), MOST_AUTUMN_DAYS, 'd'),
      ),
    ...corrected.map(({ lake, rmseC }) =>
      atMost(lake, 'RMSE, wrong wind, six readings', rmseC, MOST_RMSE_WRONG_EXPOSURE_C, '°C'),
    ),
    ...corrected.map(({ lake, belowAirMean }) => aThirdBelow(lake, 'wrong wind, six readings', belowAirMean)),
    atMost('mean', 'RMSE, normals only', meanNormals, MOST_RMSE_NORMALS_C.mean, '°C'),
    ...normals.map(({ lake, rmseC }) => atMost(lake, 'RMSE, normals only', rmseC, MOST_RMSE_NORMALS_C.any, '°C')),
    ...[...withAir, ...corrected, ...normals].map(inBand),
    ...wrong.map(({ lake, tried, gated }) => ({
      lake,
      figure: `readings 10 °C off gated, of ${tried}`,
      value: gated,
      unit: '',
      goal: `${tried}`,
      isMet: gated === tried,
    })),
    ...wrong.map(({ lake, worstRiseC }) => atMost(lake, 'worst rise by one of them', worstRiseC, MOST_RISE_C, '°C')),
  ];
}

/** An autumn that the method does not make at all is no small error. */
function meanOrNone({ meanDays, missed }: MethodScores['autumnTo15']): number {
  return meanDays === null || missed > 0 ? Number.POSITIVE_INFINITY : meanDays;
}

function atMost(lake: string, figure: string, value: number, most: number, unit: string): Goal {
  return { lake, figure, value, unit, goal: `at most ${most}`, isMet: value <= most };
}

function aThirdBelow(lake: string, name: string, share: number): Goal {
  const least = 100 * LEAST_BELOW_AIR_MEAN;
  return {
    lake,
    figure: `below 7-day mean of air, ${name}`,
    value: 100 * share,
    unit: '%',
    goal: `at least ${least}`,
    isMet: share >= LEAST_BELOW_AIR_MEAN,
  };
}

function inBand({ lake, method, daysInBand }: MethodScores): Goal {
  const share = daysInBand ?? Number.NaN;
  return {
    lake,
    figure: `days inside p10 to p90, ${method}`,
    value: 100 * share,
    unit: '%',
    goal: `${100 * BAND.min} to ${100 * BAND.max}`,
    isMet: share >= BAND.min && share <= BAND.max,
  };
}
