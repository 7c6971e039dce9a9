import { z } from 'zod';
import { checkedDays, MOST_DAYS, WeatherAnswerError, type WeatherFormat } from './weather-provider.js';

const figure = z.number().nullable().default(null);
/** The open form: one object a day, each figure named with its unit. Other keys are allowed and not read. */
const Answer = z.object({
  days: z
    .array(
      z.object({
        date: z.string(),
        airTemperatureC: z.number(),
        airTemperatureMinC: figure,
        airTemperatureMaxC: figure,
        solarMjPerM2: figure,
        relativeHumidityPct: figure,
      }),
    )
    .max(60),
});

/**
 * `{ "days": [{ "date": "2026-11-25", "airTemperatureC": -2.5, "airTemperatureMinC": -6, "airTemperatureMaxC": 1,
 * "solarMjPerM2": 6.1, "relativeHumidityPct": 80 }] }`, asked with `?latitude=43.1&longitude=-89.4&days=10`. Dates are
 * civil dates at the place; everything but date and mean may be missing.
 */
export const DAILY_DAYS: WeatherFormat = {
  url(address, { latitude, longitude }) {
    const url = new URL(address);
    url.searchParams.set('latitude', String(latitude));
    url.searchParams.set('longitude', String(longitude));
    url.searchParams.set('days', String(MOST_DAYS));
    return url;
  },
  read(body) {
    const parsed = Answer.safeParse(body);
    if (!parsed.success) throw new WeatherAnswerError('The answer is not of the form "days".');
    return checkedDays(parsed.data.days);
  },
};
