import type { SiteClimate, TwelveMonths } from '../../src/core/climate/station.js';
import type { PondHeat } from '../../src/core/thermal/water-forecast.js';

export const twelve = (...values: number[]) =>
  (values.length === 1 ? Array.from({ length: 12 }, () => values[0]) : values) as unknown as TwelveMonths;

const saturationHPa = (meanC: number) => 6.108 * Math.exp((17.27 * meanC) / (meanC + 237.3));

/** A climate of twelve monthly means, with maxima and minima 5 °C off and middling spread. */
export function aClimate(meanC: TwelveMonths, changes: Partial<SiteClimate> = {}): SiteClimate {
  return {
    latitude: 45,
    elevationM: 100,
    meanC,
    maxC: meanC.map((value) => value + 5) as unknown as TwelveMonths,
    minC: meanC.map((value) => value - 5) as unknown as TwelveMonths,
    vapourPressureHPa: meanC.map((value) => 0.7 * saturationHPa(value)) as unknown as TwelveMonths,
    sunShare: twelve(0.5),
    precipitationMm: twelve(80),
    betweenYearsSdC: twelve(2.5, 2.5, 2, 1.6, 1.5, 1.4, 1.3, 1.3, 1.4, 1.6, 1.9, 2.4),
    dailySdC: twelve(5, 4.6, 4.4, 3.8, 3.5, 3, 2.6, 2.6, 3.3, 3.8, 4.2, 4.7),
    koeppen: 'Dfa',
    hardinessZone: '5b',
    stations: [],
    warnings: [],
    ...changes,
  };
}

/** Cold winters, warm summers. */
export const CONTINENTAL = aClimate(twelve(-6, -4, 2, 9, 15, 20, 23, 22, 17, 11, 3, -4));
/** The same half a year later, south. */
export const CONTINENTAL_SOUTH = aClimate(twelve(23, 22, 17, 11, 3, -4, -6, -4, 2, 9, 15, 20), {
  latitude: -45,
  betweenYearsSdC: twelve(1.3, 1.3, 1.4, 1.6, 1.9, 2.4, 2.5, 2.5, 2, 1.6, 1.5, 1.4),
  dailySdC: twelve(2.6, 2.6, 3.3, 3.8, 4.2, 4.7, 5, 4.6, 4.4, 3.8, 3.5, 3),
});
export const TROPICAL = aClimate(twelve(26, 26, 27, 28, 28, 28, 28, 28, 28, 27, 27, 26), {
  latitude: 5,
  betweenYearsSdC: twelve(0.5),
  dailySdC: twelve(0.9),
  koeppen: 'Af',
  hardinessZone: '13a',
});

export function aGardenPond(changes: Partial<PondHeat> = {}): PondHeat {
  return {
    latitude: 45,
    elevationM: 100,
    surfaceAreaM2: 20,
    meanDepthM: 0.9,
    shadeShare: 0.3,
    windAt2mMPerS: 1.5,
    waterfallFlowLPerH: 0,
    ...changes,
  };
}
