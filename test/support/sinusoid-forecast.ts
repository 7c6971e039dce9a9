import type { WaterForecast } from '../../src/core/thermal/water-forecast.js';
import { addDays, type CivilDay, dayOfYear } from '../../src/core/units/civil-day.js';

/** A pond's year as one cosine: mean, half the swing, warmest day of the year. */
export interface Sinusoid {
  readonly meanC: number;
  readonly amplitudeC: number;
  readonly warmestDayOfYear: number;
}

export interface SinusoidRequest extends Sinusoid {
  readonly firstDay: CivilDay;
  readonly days?: number;
  readonly traces?: number;
  /** The traces are shifted in time by up to so many days, earliest first. */
  readonly spreadDays?: number;
  /** Air over the water; 1 °C warmer than the cosine unless given. */
  readonly airC?: (day: CivilDay) => number;
}

/** Temperature of the cosine on a day, 365 days round. [°C] */
export function sinusoidC(pond: Sinusoid, day: number): number {
  const angle = (2 * Math.PI * (dayOfYear(day as CivilDay) - pond.warmestDayOfYear)) / 365;
  return pond.meanC + pond.amplitudeC * Math.cos(angle);
}

/**
 * A water forecast for date arithmetic, not for truth: every trace is the cosine, moved in time; ice lies wherever the
 * cosine is below 1 °C. The 7-day mean is that of the cosine itself, so that thresholds are met on its own days.
 */
export function sinusoidForecast(request: SinusoidRequest): WaterForecast {
  const { firstDay, days = 548, traces = 5, spreadDays = 0 } = request;
  const shifts = Array.from({ length: traces }, (_, trace) =>
    traces === 1 ? 0 : Math.round(-spreadDays + (2 * spreadDays * trace) / (traces - 1)),
  );
  const at = (day: number, shift: number) => sinusoidC(request, day - shift);
  const cells = traces * days;
  const waterC = new Float32Array(cells);
  const water7dMeanC = new Float32Array(cells);
  const iceCm = new Float32Array(cells);
  const airC = new Float32Array(cells);
  shifts.forEach((shift, trace) => {
    for (let index = 0; index < days; index++) {
      const day = firstDay + index;
      const cell = trace * days + index;
      waterC[cell] = at(day, shift);
      water7dMeanC[cell] = at(day, shift);
      iceCm[cell] = Math.max(0, 5 * (1 - at(day, shift)));
      airC[cell] = request.airC ? request.airC(addDays(firstDay, index)) : at(day, shift) + 1;
    }
  });
  const quantile = (share: number) =>
    Float64Array.from({ length: days }, (_, index) => {
      const values = shifts.map((shift) => at(firstDay + index, shift)).sort((a, b) => a - b);
      return values[Math.round(share * (traces - 1))] as number;
    });
  const p50C = quantile(0.5);
  return {
    firstDay,
    days,
    traces,
    waterC,
    water7dMeanC,
    iceCm,
    airC,
    p10C: quantile(0.1),
    p50C,
    p90C: quantile(0.9),
    median7dMeanC: p50C,
  };
}
