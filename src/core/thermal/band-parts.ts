import { InvalidValueError } from '../errors.js';
import type { WaterForecast } from './water-forecast.js';

/** Where the width of p10 to p90 comes from over some days; the three shares make 1. */
export interface BandParts {
  /** Mean distance from the median to p10 or p90. [°C] */
  readonly halfWidthC: number;
  /** Weather not yet known. [-] */
  readonly weatherShare: number;
  /** What the heat balance does not know of the pond: wind, shade, falls, ground, inflows. [-] */
  readonly modelShare: number;
  /** What readings left open because a thermometer in a hand is not exact. [-] */
  readonly thermometerShare: number;
}

/**
 * Splits the band of a forecast into weather, model and thermometer, by variance (derived). The weather's part is the
 * spread of the heat balance over the traces. Of the model's error, the thermometer's part is what the same readings
 * would have taken away besides, had they been exact; without readings it is 0.
 * @param span.fromIndex First day of the forecast, from 0; `days` of them, at least one inside the forecast.
 * @returns null where the forecast carries no parts or nothing is uncertain (ice from end to end).
 */
export function bandParts(
  forecast: WaterForecast,
  span: { readonly fromIndex: number; readonly days: number },
): BandParts | null {
  const { band } = forecast;
  const end = Math.min(forecast.days, span.fromIndex + span.days);
  if (!(span.fromIndex >= 0 && span.fromIndex < end)) {
    throw new InvalidValueError('days of the band', [span.fromIndex, span.days], 'Ask for days inside the forecast.');
  }
  if (!band) return null;
  let weather = 0;
  let model = 0;
  let thermometer = 0;
  let halfWidth = 0;
  for (let day = span.fromIndex; day < end; day++) {
    weather += band.weatherC2[day] as number;
    model += band.modelC2[day] as number;
    thermometer += band.thermometerC2[day] as number;
    halfWidth += ((forecast.p90C[day] as number) - (forecast.p10C[day] as number)) / 2;
  }
  const total = weather + model + thermometer;
  if (total <= 0) return null;
  return {
    halfWidthC: halfWidth / (end - span.fromIndex),
    weatherShare: weather / total,
    modelShare: model / total,
    thermometerShare: thermometer / total,
  };
}
