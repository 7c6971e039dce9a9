import type { WaterForecast } from '../thermal/water-forecast.js';
import { addDays, type CivilDay, dayFromParts, yearOf } from '../units/civil-day.js';
import type { PondEvent } from './care-plan.js';
import { seasonOf } from './seasons.js';

/** Ice that can be seen, and ice that has stood for more than a mild night. [cm] */
const VISIBLE_ICE_CM = 0.5;
const STANDING_ICE_CM = 3;
/**
 * Daily mean of the water whose afternoon comes near 28 °C, where feed is halved: the day's course is about 2 °C up
 * and down (derived, as for `summer-heat-ready`; ruling 7). [°C]
 */
export const HOT_MEAN_C = 26;
/** Farther ahead a warning would be given too often for nothing. [days] */
const HEAT_AHEAD_DAYS = 2;
const WEEK_DAYS = 7;

/**
 * What a weather forecast laid over the water forecast warns of: young ice by tomorrow morning, once in a cooling season;
 * hot water within two days, once a week. Each is told by its median over the traces, and only for days whose air is
 * known; it stands for today or, for heat, the day before.
 * @param knownUntil The last day whose air is a forecast and not the climate's.
 */
export function weatherWarnings(
  forecast: WaterForecast,
  days: { readonly today: CivilDay; readonly knownUntil: CivilDay },
  latitude: number,
): readonly PondEvent[] {
  return [...iceWarning(forecast, days, latitude), ...heatWarning(forecast, days)];
}

type Days = Parameters<typeof weatherWarnings>[1];

function iceWarning(forecast: WaterForecast, { today, knownUntil }: Days, latitude: number): PondEvent[] {
  const tomorrow = addDays(today, 1);
  const index = tomorrow - forecast.firstDay;
  if (tomorrow > knownUntil || index >= forecast.days) return [];
  const todayCm = index === 0 ? 0 : medianIceCm(forecast, index - 1);
  if (todayCm >= STANDING_ICE_CM || medianIceCm(forecast, index) < VISIBLE_ICE_CM) return [];
  return [{ id: `ice-${seasonOf('cooling', today, latitude).year}`, kind: 'ice-forecast', on: today }];
}

function heatWarning({ firstDay, days, p50C }: WaterForecast, { today, knownUntil }: Days): PondEvent[] {
  for (let ahead = 0; ahead <= HEAT_AHEAD_DAYS; ahead++) {
    const day = addDays(today, ahead);
    const index = day - firstDay;
    if (day > knownUntil || index >= days) return [];
    if ((p50C[index] as number) < HOT_MEAN_C) continue;
    return [{ id: `heat-${weekName(day)}`, kind: 'heat-forecast', on: addDays(day, ahead === 0 ? 0 : -1) }];
  }
  return [];
}

function medianIceCm({ iceCm, days, traces }: WaterForecast, index: number): number {
  const sorted = Array.from({ length: traces }, (_, trace) => iceCm[trace * days + index] as number).sort(
    (a, b) => a - b,
  );
  return sorted[Math.floor(traces / 2)] as number;
}

/** Weeks counted from 1 January, so that a spell of some days has one name, or two. */
function weekName(day: CivilDay): string {
  const year = yearOf(day);
  return `${year}-${Math.floor((day - dayFromParts(year, 1, 1)) / WEEK_DAYS) + 1}`;
}
