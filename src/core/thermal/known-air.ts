import type { CivilDay } from '../units/civil-day.js';
import type { DailyAir } from './water-forecast.js';

const W_PER_M2_PER_MJ_PER_M2_DAY = 1e6 / 86_400;

/** Measured air laid out by day of the run; NaN where nothing was measured. The last entry of a day counts. */
export class KnownAir {
  /** Daily mean. [°C] */
  readonly airC: Float64Array;
  private readonly solar: Float64Array;
  private readonly wind: Float64Array;
  private readonly humidity: Float64Array;

  constructor(start: CivilDay, days: number, air: readonly DailyAir[]) {
    const empty = () => new Float64Array(days).fill(Number.NaN);
    this.airC = empty();
    this.solar = empty();
    this.wind = empty();
    this.humidity = empty();
    for (const day of air) {
      const index = day.on - start;
      if (index < 0 || index >= days) continue;
      this.airC[index] = day.airTemperatureC;
      this.solar[index] = (day.solarMjPerM2 ?? Number.NaN) * W_PER_M2_PER_MJ_PER_M2_DAY;
      this.wind[index] = day.windMPerS ?? Number.NaN;
      this.humidity[index] = (day.relativeHumidityPct ?? Number.NaN) / 100;
    }
  }

  /** Mean solar radiation of the day; null where not measured. [W/m2] */
  solarWPerM2(index: number): number | null {
    return numberOrNull(this.solar[index] as number);
  }

  /** Mean wind over the water. [m/s] */
  windMPerS(index: number): number | null {
    return numberOrNull(this.wind[index] as number);
  }

  /** 0 to 1. */
  relativeHumidity(index: number): number | null {
    return numberOrNull(this.humidity[index] as number);
  }
}

function numberOrNull(value: number): number | null {
  return Number.isNaN(value) ? null : value;
}
