import { requireWithin } from '../../core/errors.js';
import { addDays, civilDay } from '../../core/units/civil-day.js';

/** A place to a tenth of a degree: near enough for weather, too coarse for an address. */
export interface WeatherPlace {
  /** Degrees, north positive. */
  readonly latitude: number;
  /** Degrees, east positive. */
  readonly longitude: number;
}

/** One day of forecast air. What a provider does not say is null. */
export interface ForecastDay {
  /** Civil date at the place. */
  readonly date: string;
  /** [°C] */
  readonly airTemperatureC: number;
  readonly airTemperatureMinC: number | null;
  readonly airTemperatureMaxC: number | null;
  readonly solarMjPerM2: number | null;
  readonly relativeHumidityPct: number | null;
}

/** One form in which forecasts come over HTTP. */
export interface WeatherFormat {
  /** The address to ask, with the place in its query. */
  url(address: string, place: WeatherPlace): URL;
  /** Reads an answer. @throws WeatherAnswerError when it is not of this form, or says what cannot be */
  read(body: unknown): ForecastDay[];
}

/** An answer that cannot be used, in words for a log. */
export class WeatherAnswerError extends Error {}

/** Farther ahead a forecast is no better than the climate. [days] */
export const MOST_DAYS = 10;
const AIR_RANGE_C = { min: -60, max: 55 } as const;
const SOLAR_RANGE_MJ_PER_M2 = { min: 0, max: 45 } as const;
const HUMIDITY_RANGE_PCT = { min: 0, max: 100 } as const;
/** A mean of a day that is warmer than this everywhere came in another unit, whatever the answer says. */
const HOTTEST_MEAN_C = 45;

/**
 * Checks the days of an answer: dates that follow each other, figures that can be. A wrong unit shows here.
 * @throws WeatherAnswerError
 */
export function checkedDays(days: readonly ForecastDay[]): ForecastDay[] {
  if (days.length === 0) throw new WeatherAnswerError('The answer holds no days.');
  try {
    const first = civilDay(days[0]!.date);
    for (const [index, day] of days.entries()) {
      if (civilDay(day.date) !== addDays(first, index))
        throw new WeatherAnswerError('The days do not follow each other.');
      checkDay(day);
    }
  } catch (error) {
    if (error instanceof WeatherAnswerError) throw error;
    throw new WeatherAnswerError((error as Error).message);
  }
  return days.slice(0, MOST_DAYS);
}

function checkDay(day: ForecastDay): void {
  const { airTemperatureC, airTemperatureMinC, airTemperatureMaxC, solarMjPerM2, relativeHumidityPct } = day;
  requireWithin(`air temperature of ${day.date}, °C`, airTemperatureC, { ...AIR_RANGE_C, max: HOTTEST_MEAN_C });
  if (airTemperatureMinC !== null) requireWithin('lowest air temperature, °C', airTemperatureMinC, AIR_RANGE_C);
  if (airTemperatureMaxC !== null) requireWithin('highest air temperature, °C', airTemperatureMaxC, AIR_RANGE_C);
  if (solarMjPerM2 !== null) requireWithin('sun, MJ/m2 a day', solarMjPerM2, SOLAR_RANGE_MJ_PER_M2);
  if (relativeHumidityPct !== null) requireWithin('relative humidity, %', relativeHumidityPct, HUMIDITY_RANGE_PCT);
  const [low, high] = [airTemperatureMinC ?? airTemperatureC, airTemperatureMaxC ?? airTemperatureC];
  if (low > airTemperatureC || high < airTemperatureC) {
    throw new WeatherAnswerError(`The mean of ${day.date} does not lie between its lowest and highest temperature.`);
  }
}
