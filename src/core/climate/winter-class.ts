import type { WinterClass } from '../care/pond-facts.js';
import { requireWithin } from '../errors.js';
import { forecastWater } from '../thermal/forecast-water.js';
import { iceThicknessCm } from '../thermal/ice.js';
import type { PondHeat, WaterForecast } from '../thermal/water-forecast.js';
import { type CivilDay, dayFromParts, monthOf } from '../units/civil-day.js';
import { freezingDegreeDaysBySeason, freezingDegreeDaysC } from './freezing-degree-days.js';
import { hardinessZoneMinC } from './hardiness.js';
import type { SiteClimate } from './station.js';

/** Cut-offs of the equipment handbook 7.1. Common practice. */
const WARM_WATER_C = 10;
const MILD_BELOW_AFDD_C = 20;
const SEVERE_ABOVE_AFDD_C = 250;
const SEVERE_ICE_SHARE_OF_DEPTH = 0.4;
const SHORTEST_HISTORY_WINTERS = 10;
/** Winters simulated; also the traces of the run. */
const SIMULATED_WINTERS = 40;
/** The simulated year begins two months after midsummer, the shortest spin-up there is, and well before any ice. */
const YEAR_STARTS_IN_MONTH = { north: 10, south: 4 } as const;

export interface WinterOutlook {
  readonly winterClass: WinterClass;
  /** Mean over the winters of the season's largest running sum of cold. [°C d] */
  readonly freezingDegreeDaysC: number;
  /** Ice of such a mean winter. [cm] */
  readonly iceThicknessCm: number;
  /** Ice to keep a refuge under: from the mean of the three coldest of 30 winters, or the coldest of ten (ruling 34). [cm] */
  readonly designIceThicknessCm: number;
  /** Mean water of the coldest month. [°C] */
  readonly coldestMonthWaterC: number;
}

/**
 * Class of a winter: W0 warm (coldest month's water at least 10 °C), W1 mild (under 20 °C d), W2 cold (20 to 250),
 * W3 severe (over 250, or ice deeper than 40 % of the deepest point).
 * @param winter.freezingDegreeDaysC Mean over at least ten winters of daily data, never from monthly normals.
 */
export function winterClassOf(winter: {
  freezingDegreeDaysC: number;
  coldestMonthWaterC: number;
  maxDepthM: number;
}): WinterClass {
  requireWithin('freezing degree-days, °C d', winter.freezingDegreeDaysC, { min: 0, max: 8000 });
  requireWithin('coldest month of the water, °C', winter.coldestMonthWaterC, { min: -2, max: 40 });
  requireWithin('deepest point, m', winter.maxDepthM, { min: 0.1, max: 30 });
  if (winter.coldestMonthWaterC >= WARM_WATER_C) return 'W0';
  // Mild comes first: a film of ice on a shallow bowl does not make a severe winter.
  if (winter.freezingDegreeDaysC < MILD_BELOW_AFDD_C) return 'W1';
  const iceM = iceThicknessCm(winter) / 100;
  const isSevere =
    winter.freezingDegreeDaysC > SEVERE_ABOVE_AFDD_C || iceM > SEVERE_ICE_SHARE_OF_DEPTH * winter.maxDepthM;
  return isSevere ? 'W3' : 'W2';
}

/**
 * Winter class of a pond from 40 simulated winters of daily air and water at its site (ruling 31). The same whatever the
 * day it is asked on.
 */
export function winterClassFor(site: {
  climate: SiteClimate;
  pond: PondHeat;
  maxDepthM: number;
  seed: number;
}): WinterOutlook {
  const forecast = forecastWater({
    pond: site.pond,
    climate: site.climate,
    firstDay: dayFromParts(2025, YEAR_STARTS_IN_MONTH[site.climate.latitude >= 0 ? 'north' : 'south'], 1),
    days: 365,
    seed: site.seed,
    traces: SIMULATED_WINTERS,
  });
  const cold = Array.from({ length: forecast.traces }, (_, trace) =>
    freezingDegreeDaysC(forecast.airC.subarray(trace * forecast.days, (trace + 1) * forecast.days)),
  );
  return outlookOf(cold, coldestMonthWaterC(forecast), site.maxDepthM);
}

/**
 * The same from a real series of daily mean air temperatures of at least ten whole winters.
 * @throws OutOfRangeError with fewer winters.
 */
export function winterClassFromDailyAir(site: {
  firstDay: CivilDay;
  dailyMeanC: ArrayLike<number>;
  latitude: number;
  maxDepthM: number;
  coldestMonthWaterC: number;
}): WinterOutlook {
  const cold = freezingDegreeDaysBySeason(site).map((season) => season.freezingDegreeDaysC);
  requireWithin('winters of daily air', cold.length, { min: SHORTEST_HISTORY_WINTERS, max: 1000 });
  return outlookOf(cold, site.coldestMonthWaterC, site.maxDepthM);
}

/**
 * Last resort, where nothing but the hardiness zone is known (ruling 31): up to 6 W3, 7 and 8 W2, 9 W1, from 10 on W0 if
 * the coldest month's water stays at 10 °C. A zone is one night, not a winter.
 */
export function winterClassFromZone(site: { hardinessZone: string; coldestMonthWaterC: number }): WinterClass {
  hardinessZoneMinC(site.hardinessZone);
  requireWithin('coldest month of the water, °C', site.coldestMonthWaterC, { min: -2, max: 40 });
  const zone = Number.parseInt(site.hardinessZone, 10);
  if (zone <= 6) return 'W3';
  if (zone <= 8) return 'W2';
  return zone >= 10 && site.coldestMonthWaterC >= WARM_WATER_C ? 'W0' : 'W1';
}

function outlookOf(coldOfWinters: readonly number[], coldestMonth: number, maxDepthM: number): WinterOutlook {
  const mean = coldOfWinters.reduce((sum, cold) => sum + cold, 0) / coldOfWinters.length;
  const severest = [...coldOfWinters]
    .sort((a, b) => b - a)
    .slice(0, Math.max(1, Math.floor(coldOfWinters.length / 10)));
  const design = severest.reduce((sum, cold) => sum + cold, 0) / severest.length;
  return {
    winterClass: winterClassOf({ freezingDegreeDaysC: mean, coldestMonthWaterC: coldestMonth, maxDepthM }),
    freezingDegreeDaysC: mean,
    iceThicknessCm: iceThicknessCm({ freezingDegreeDaysC: mean }),
    designIceThicknessCm: iceThicknessCm({ freezingDegreeDaysC: design }),
    coldestMonthWaterC: coldestMonth,
  };
}

/** Mean over days and traces of the coldest calendar month's median water. [°C] */
function coldestMonthWaterC(forecast: WaterForecast): number {
  const sums = new Array<number>(12).fill(0);
  const counts = new Array<number>(12).fill(0);
  for (let day = 0; day < forecast.days; day++) {
    const month = monthOf((forecast.firstDay + day) as CivilDay) - 1;
    sums[month]! += forecast.p50C[day] as number;
    counts[month]! += 1;
  }
  return Math.min(...sums.map((sum, month) => sum / Math.max(1, counts[month] as number)));
}
