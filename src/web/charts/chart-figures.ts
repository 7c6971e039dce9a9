import type { CivilDay } from '../../core/units/civil-day.js';

/** A care task as the drawings need it. The same number stands on the wheel, on the chart and in the calendar. */
export interface ChartMark {
  readonly number: number;
  readonly doneBy: 'technician' | 'homeowner';
  readonly needsAction: boolean;
  readonly title: string;
  readonly earliest: CivilDay;
  readonly due: CivilDay;
  readonly latest: CivilDay;
}

/** A later time as it is expected today: no task yet, so it has no number. */
export interface LaterMark {
  readonly due: CivilDay;
  readonly doneBy: ChartMark['doneBy'];
}

export type FeedKind = 'none' | 'light' | 'staple' | 'early';

/** Days of one kind of feed; both ends belong to it. */
export interface FeedSpan {
  readonly kind: FeedKind;
  readonly from: CivilDay;
  readonly until: CivilDay;
}

/** Daily water of a pond, index 0 being `firstDay`. */
export interface DailyWater {
  readonly firstDay: CivilDay;
  readonly p10C: readonly number[];
  readonly p50C: readonly number[];
  readonly p90C: readonly number[];
  /** Share of the traces with ice, 0 to 1. */
  readonly iceShare: readonly number[];
}

export interface WaterReading {
  readonly on: CivilDay;
  readonly temperatureC: number;
}

/** When the 7-day mean passes a threshold, with the dates between which it does so 8 years in 10. */
export interface Crossing {
  readonly thresholdC: number;
  readonly earliest: CivilDay;
  readonly likely: CivilDay;
  readonly latest: CivilDay;
  /** Label of the wide drawing, and of the narrow one (empty: no label there). */
  readonly label: string;
  readonly shortLabel: string;
}

/** Upper ends of the temperature bands 0 to 4: ice likely, no feed, light feed, cool, warm; above the last it is hot. [°C] */
export const TEMPERATURE_BANDS_C = [2, 10, 15, 20, 26] as const;

/** Number of the band, 0 to 5, that a temperature falls into. */
export function temperatureBand(temperatureC: number): number {
  const index = TEMPERATURE_BANDS_C.findIndex((endC) => temperatureC < endC);
  return index === -1 ? TEMPERATURE_BANDS_C.length : index;
}

/** Value of a daily series on a day, or null outside it. */
export function onDay(series: readonly number[], firstDay: CivilDay, day: CivilDay): number | null {
  return series[day - firstDay] ?? null;
}

/** A coordinate with at most one decimal; anything that is no number is a slip of the caller. */
export function px(value: number): number {
  if (!Number.isFinite(value)) throw new RangeError(`coordinate: ${value} is not a number that can be drawn.`);
  const rounded = Math.round(value * 10) / 10;
  return rounded === 0 ? 0 : rounded;
}
