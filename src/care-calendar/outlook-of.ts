import type { PondFacts } from '../core/care/pond-facts.js';
import type { ClimateWarning, SiteClimate } from '../core/climate/station.js';
import { bandParts } from '../core/thermal/band-parts.js';
import type { WaterForecast } from '../core/thermal/water-forecast.js';
import { isoDateOf } from '../core/units/civil-day.js';
import type { BandOfDays, OutlookSummary } from './outlook-summary.js';

/** Ice that can be seen. [cm] */
const VISIBLE_ICE_CM = 0.5;
/** A fortnight, a season, a year. */
const BAND_SPANS_DAYS = [14, 90, 365] as const;
const KM_PER_MILE = 1.609344;
const M_PER_FT = 0.3048;

/** The forecast as pages need it: quantiles to 0.1 °C, ice as a share, and where the climate comes from. */
export function outlookOf(
  forecast: WaterForecast,
  climate: SiteClimate,
  winterClass: PondFacts['winterClass'],
): OutlookSummary {
  return {
    firstDay: isoDateOf(forecast.firstDay),
    p10C: tenths(forecast.p10C),
    p50C: tenths(forecast.p50C),
    p90C: tenths(forecast.p90C),
    median7dMeanC: tenths(forecast.median7dMeanC),
    iceShare: iceShare(forecast),
    koeppen: climate.koeppen,
    hardinessZone: climate.hardinessZone,
    winterClass,
    stations: climate.stations.map(({ id, name, period, distanceKm, weight }) => ({
      id,
      name,
      period,
      distanceKm: Math.round(distanceKm),
      weight: Math.round(weight * 100) / 100,
    })),
    warnings: climate.warnings.map(warningText),
    band: BAND_SPANS_DAYS.flatMap((days) => bandOf(forecast, days)),
    ...learnedOf(forecast),
  };
}

function bandOf(forecast: WaterForecast, days: number): BandOfDays[] {
  const parts = bandParts(forecast, { fromIndex: 0, days });
  if (!parts) return [];
  return [
    {
      days,
      halfWidthC: Math.round(parts.halfWidthC * 10) / 10,
      weatherShare: hundredths(parts.weatherShare),
      modelShare: hundredths(parts.modelShare),
      thermometerShare: hundredths(parts.thermometerShare),
    },
  ];
}

function learnedOf({ exposure }: WaterForecast): Pick<OutlookSummary, 'learned'> {
  if (!exposure?.isLearned) return {};
  return {
    learned: {
      windAt2mMPerS: Math.round(exposure.windAt2mMPerS * 10) / 10,
      shadeShare: hundredths(exposure.shadeShare),
    },
  };
}

function hundredths(share: number): number {
  return Math.round(share * 100) / 100;
}

export function warningText(warning: ClimateWarning): string {
  if (warning.code === 'station-far') {
    const { distanceKm } = warning;
    return (
      `The nearest weather station is ${Math.round(distanceKm)} km (${Math.round(distanceKm / KM_PER_MILE)} miles) away. ` +
      'Readings of the water make up for it.'
    );
  }
  const heightM = Math.abs(warning.elevationDifferenceM);
  const direction = warning.elevationDifferenceM > 0 ? 'lower' : 'higher';
  return (
    `The nearest weather station lies ${Math.round(heightM)} m (${Math.round(heightM / M_PER_FT)} ft) ${direction} than ` +
    'the pond. Its figures are moved to the height of the pond by rule of thumb.'
  );
}

function tenths(valuesC: Float64Array): number[] {
  return Array.from(valuesC, (value) => Math.round(value * 10) / 10);
}

function iceShare({ iceCm, days, traces }: WaterForecast): number[] {
  return Array.from({ length: days }, (_, day) => {
    let withIce = 0;
    for (let trace = 0; trace < traces; trace++) {
      if ((iceCm[trace * days + day] as number) >= VISIBLE_ICE_CM) withIce += 1;
    }
    return Math.round((withIce / traces) * 100) / 100;
  });
}
