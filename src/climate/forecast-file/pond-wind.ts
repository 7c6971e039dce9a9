import { windOverPond } from '../../core/thermal/shade.js';
import type { DailyAir } from '../../core/thermal/water-forecast.js';

/** Water as large as this lies open, whatever stands around it. [m2] */
const OPEN_WATER_M2 = 5000;
/** Mean wind over open inland water where nobody says: between the 2 of wooded and the 4 of prairie lakes. Derived. [m/s] */
const OPEN_WATER_WIND_M_PER_S = 2.8;
const RELATIVE_RANGE = { min: 0.3, max: 2 } as const;

/** Mean wind over the water: as told, else by the size of the water. [m/s] */
export function meanWindOver(site: { windMPerS?: number | undefined; areaM2: number }): number {
  if (site.windMPerS !== undefined) return site.windMPerS;
  return site.areaM2 >= OPEN_WATER_M2 ? OPEN_WATER_WIND_M_PER_S : windOverPond({ shelter: 'suburban' });
}

/**
 * Turns the wind of a weather file into wind over the water. Where the mean over this water is told, the file only says
 * how windy a day was against the days up to it (root mean square, so that the mean loss stays); else it is taken as wind
 * at 10 m in the open and reduced for height and shelter.
 */
export function withWindOverPond(
  air: readonly DailyAir[],
  site: { windMPerS?: number | undefined; areaM2: number },
): DailyAir[] {
  const shelter = site.areaM2 >= OPEN_WATER_M2 ? 'open' : 'suburban';
  let squares = 0;
  let days = 0;
  return air.map((day) => {
    if (day.windMPerS === null) return day;
    if (site.windMPerS === undefined) {
      return { ...day, windMPerS: windOverPond({ shelter, openWindMPerS: Math.min(30, day.windMPerS) }) };
    }
    squares += day.windMPerS ** 2;
    days++;
    const relative = squares > 0 ? day.windMPerS / Math.sqrt(squares / days) : 1;
    return {
      ...day,
      windMPerS: site.windMPerS * Math.min(RELATIVE_RANGE.max, Math.max(RELATIVE_RANGE.min, relative)),
    };
  });
}
