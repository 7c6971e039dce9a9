import { z } from 'zod';
import { checkedDays, MOST_DAYS, WeatherAnswerError, type WeatherFormat } from './weather-provider.js';

const series = z.array(z.number().nullable()).max(60);
const Answer = z.object({
  daily_units: z.record(z.string(), z.string()),
  daily: z.object({
    time: z.array(z.string()).max(60),
    temperature_2m_mean: series.optional(),
    temperature_2m_min: series,
    temperature_2m_max: series,
    shortwave_radiation_sum: series.optional(),
  }),
});
type Daily = z.output<typeof Answer>['daily'];

const ASKED = ['temperature_2m_mean', 'temperature_2m_min', 'temperature_2m_max', 'shortwave_radiation_sum'] as const;
const UNITS: Readonly<Record<(typeof ASKED)[number], string>> = {
  temperature_2m_mean: '°C',
  temperature_2m_min: '°C',
  temperature_2m_max: '°C',
  shortwave_radiation_sum: 'MJ/m²',
};

/**
 * One array for each quantity beside an array of dates, with the units told: the form in which many public forecasts
 * come. A day without a mean gets the middle of its lowest and highest temperature (FAO-56, equation 9).
 */
export const DAILY_ARRAYS: WeatherFormat = {
  url(address, { latitude, longitude }) {
    const url = new URL(address);
    url.searchParams.set('latitude', String(latitude));
    url.searchParams.set('longitude', String(longitude));
    url.searchParams.set('daily', ASKED.join(','));
    url.searchParams.set('timezone', 'auto');
    url.searchParams.set('forecast_days', String(MOST_DAYS));
    return url;
  },
  read(body) {
    const parsed = Answer.safeParse(body);
    if (!parsed.success) throw new WeatherAnswerError('The answer is not of the form "arrays".');
    const { daily, daily_units: units } = parsed.data;
    for (const name of ASKED) {
      if (daily[name] !== undefined && units[name] !== UNITS[name]) {
        throw new WeatherAnswerError(`${name} comes in ${units[name] ?? 'no unit'}, not in ${UNITS[name]}.`);
      }
    }
    return checkedDays(daysOf(daily));
  },
};

/** The days up to the first whose temperature is not told. */
function daysOf(daily: Daily) {
  const days = daily.time.map((date, index) => {
    const [min, max] = [daily.temperature_2m_min[index] ?? null, daily.temperature_2m_max[index] ?? null];
    const middle = min === null || max === null ? null : (min + max) / 2;
    return {
      date,
      airTemperatureC: daily.temperature_2m_mean?.[index] ?? middle,
      airTemperatureMinC: min,
      airTemperatureMaxC: max,
      solarMjPerM2: daily.shortwave_radiation_sum?.[index] ?? null,
      relativeHumidityPct: null,
    };
  });
  const end = days.findIndex(({ airTemperatureC }) => airTemperatureC === null);
  return (end === -1 ? days : days.slice(0, end)).map((day) => ({ ...day, airTemperatureC: day.airTemperatureC! }));
}
