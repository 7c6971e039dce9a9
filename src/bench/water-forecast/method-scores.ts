import type { Station } from '../../core/climate/station.js';
import type { WaterForecast } from '../../core/thermal/water-forecast.js';
import { CASES, type ForecastCase, runCase } from './cases.js';
import type { LakeSet } from './lake-sets.js';
import {
  type CrossingScores,
  crossingScores,
  crossingsCovered,
  type DayScores,
  dayCoverage,
  dayScores,
  observedCrossings,
  summarised,
  trailingMean,
} from './scores.js';

/** How one method does on one lake. */
export interface MethodScores extends DayScores {
  readonly lake: string;
  readonly method: string;
  readonly key: ForecastCase['key'] | 'water-is-air' | 'air-7-day-mean';
  /** RMSE less than that of the 7-day mean of the air, as a share of it. */
  readonly belowAirMean: number;
  readonly daysInBand: number | null;
  readonly autumnTo15: CrossingScores;
  readonly autumn: CrossingScores;
  readonly spring: CrossingScores;
  readonly crossingsInBand: { readonly events: number; readonly covered: number } | null;
}

/** What anyone can do without a model, then every case through the forecast command. */
export function scoresOf(set: LakeSet, stations: readonly Station[]): MethodScores[] {
  const lake = set.site.key;
  const airMeans = trailingMean(set.airC);
  const baselineC = dayScores(set, airMeans).rmseC;
  const scores = (dailyC: ArrayLike<number>, means: ArrayLike<number>) => {
    const figures = seriesScores(set, dailyC, means);
    return { ...figures, belowAirMean: 1 - figures.rmseC / baselineC };
  };
  const noBand = { daysInBand: null, crossingsInBand: null };
  const hasSolar = set.solarMjPerM2.some((value) => !Number.isNaN(value));
  const events = observedCrossings(set);
  return [
    { lake, method: 'water = air', key: 'water-is-air', ...scores(set.airC, airMeans), ...noBand },
    { lake, method: '7-day mean of air', key: 'air-7-day-mean', ...scores(airMeans, airMeans), ...noBand },
    ...CASES.filter((kind) => hasSolar || !kind.withSolar).map((kind) => {
      const forecast: WaterForecast = runCase(set, kind, stations);
      return {
        lake,
        method: kind.name,
        key: kind.key,
        ...scores(forecast.p50C, trailingMean(forecast.p50C)),
        daysInBand: dayCoverage(set, forecast),
        crossingsInBand: { events: events.length, covered: crossingsCovered(set, forecast, events) },
      };
    }),
  ];
}

function seriesScores(set: LakeSet, dailyC: ArrayLike<number>, means: ArrayLike<number>) {
  const events = observedCrossings(set);
  const falling = events.filter((event) => event.direction === 'falling');
  const score = (some: typeof events) => summarised(crossingScores(set, means, some));
  return {
    ...dayScores(set, dailyC),
    autumnTo15: score(falling.filter((event) => event.thresholdC <= 15)),
    autumn: score(falling),
    spring: score(events.filter((event) => event.direction === 'rising')),
  };
}
