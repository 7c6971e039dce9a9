import type { Station } from '../../core/climate/station.js';
import { addDays, yearOf } from '../../core/units/civil-day.js';
import { DAILY_AIR, type ForecastCase, handReadingC, readingDays, runCase } from './cases.js';
import type { LakeSet } from './lake-sets.js';
import { dayScores } from './scores.js';

const WRONG_BY_C = 10;
const READINGS_PER_YEAR = 6;
/** What a readings file may hold. [°C] */
const READING_RANGE_C = { min: -1, max: 45 } as const;

/** What wrong readings do: each reading in turn is made 10 °C too high, then 10 °C too low. */
export interface WrongReadingScores {
  readonly lake: string;
  readonly tried: number;
  readonly gated: number;
  /** Largest rise of the RMSE of the year it lies in, against the same readings all right. [°C] */
  readonly worstRiseC: number;
}

export function wrongReadingScores(set: LakeSet, stations: readonly Station[]): WrongReadingScores {
  const right: ForecastCase = { ...DAILY_AIR, readingsPerYear: READINGS_PER_YEAR };
  const rightC = runCase(set, right, stations).p50C;
  let tried = 0;
  let gated = 0;
  let worstRiseC = 0;
  for (const [index, at] of readingDays(set, READINGS_PER_YEAR).entries()) {
    const on = addDays(set.firstDay, at);
    for (const byC of [WRONG_BY_C, -WRONG_BY_C]) {
      const shownC = handReadingC(set.waterC[at] as number) + byC;
      if (shownC < READING_RANGE_C.min || shownC > READING_RANGE_C.max) continue;
      const forecast = runCase(set, { ...right, wrongReading: { index, byC } }, stations);
      const verdict = forecast.readings?.find(({ reading }) => reading.on === on)?.verdict;
      tried++;
      if (verdict === 'rejected') gated++;
      const season = ofYear(set, yearOf(on));
      const riseC = dayScores(season, forecast.p50C).rmseC - dayScores(season, rightC).rmseC;
      if (riseC > worstRiseC) worstRiseC = riseC;
    }
  }
  return { lake: set.site.key, tried, gated, worstRiseC };
}

function ofYear(set: LakeSet, year: number): LakeSet {
  const waterC = set.waterC.map((value, i) => (yearOf(addDays(set.firstDay, i)) === year ? value : Number.NaN));
  return { ...set, waterC };
}
