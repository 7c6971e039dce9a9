import type { CivilDay } from '../units/civil-day.js';
import type { DailyAir } from './water-forecast.js';

const W_PER_M2_PER_MJ_PER_M2_DAY = 1e6 / 86_400;

/** Measured air laid out by day of the run; NaN where nothing was measured. The last entry of a day counts. */
export class KnownAir {
  /** Daily mean. [°C] */
  readonly airC: Float64Array;
  /** Mean solar radiation. [W/m2] */
  readonly solarWPerM2: Float64Array;
  /** Mean wind over the water. [m/s] */
  readonly windMPerS: Float64Array;
  /** 0 to 1. */
  readonly relativeHumidity: Float64Array;
  /** Rain, or snow as water; 0 where nothing was measured: the balance was proved without it. [mm] */
  readonly precipitationMm: Float64Array;

  constructor(start: CivilDay, days: number, air: readonly DailyAir[]) {
    const unknown = () => new Float64Array(days).fill(Number.NaN);
    this.airC = unknown();
    this.solarWPerM2 = unknown();
    this.windMPerS = unknown();
    this.relativeHumidity = unknown();
    this.precipitationMm = new Float64Array(days);
    for (const day of air) {
      const index = day.on - start;
      if (index < 0 || index >= days) continue;
      this.airC[index] = day.airTemperatureC;
      this.solarWPerM2[index] = (day.solarMjPerM2 ?? Number.NaN) * W_PER_M2_PER_MJ_PER_M2_DAY;
      this.windMPerS[index] = day.windMPerS ?? Number.NaN;
      this.relativeHumidity[index] = (day.relativeHumidityPct ?? Number.NaN) / 100;
      this.precipitationMm[index] = day.precipitationMm ?? 0;
    }
  }
}
