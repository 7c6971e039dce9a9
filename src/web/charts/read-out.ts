import { type CivilDay, isoDateOf } from '../../core/units/civil-day.js';
import { showTemperature, type UnitSystem } from '../../core/units/show.js';
import type { ChartMark, DailyWater } from './chart-figures.js';

/** What the script of a drawing needs to say the figures of a day, as small as it can be said. */
export interface ReadOutData {
  readonly units: UnitSystem;
  readonly today: string;
  readonly first: string;
  /** Median. [tenths of a °C] */
  readonly p50: readonly number[];
  /** Ends of the likely band, in whole degrees as they are shown. */
  readonly p10: readonly number[];
  readonly p90: readonly number[];
  /** Years of ten with ice. */
  readonly ice: readonly number[];
  /** Number, first and last day of the window, counted from today. */
  readonly marks: readonly (readonly [number: number, from: number, until: number])[];
}

/** Where the days lie in a drawing of the forecast. Days are counted from today. */
export interface ReadOutFrame {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  readonly from: number;
  readonly until: number;
  readonly highC: number;
}

/** Today and the year ahead; more is on no drawing. */
const DRAWN_DAYS = 366;
/** Ice in fewer years is not worth a word. [-] */
const LEAST_ICE_SHARE = 0.05;

/** The value of `data-read-out`: with it a drawing can be read day by day where scripts run. */
export function readOutData(figures: {
  readonly today: CivilDay;
  readonly units: UnitSystem;
  readonly water: DailyWater;
  readonly marks: readonly ChartMark[];
}): string {
  const { today, units, water, marks } = figures;
  const drawn = <T>(values: readonly T[]) => values.slice(0, today - water.firstDay + DRAWN_DAYS);
  const degrees = (values: readonly number[]) => drawn(values).map((valueC) => wholeDegrees(valueC, units));
  const data: ReadOutData = {
    units,
    today: isoDateOf(today),
    first: isoDateOf(water.firstDay),
    p50: drawn(water.p50C).map((valueC) => Math.round(valueC * 10)),
    p10: degrees(water.p10C),
    p90: degrees(water.p90C),
    ice: drawn(water.iceShare).map(yearsOfTen),
    marks: marks.map(({ number, earliest, latest }) => [number, earliest - today, latest - today]),
  };
  return JSON.stringify(data);
}

function wholeDegrees(temperatureC: number, units: UnitSystem): number {
  return Number(showTemperature(temperatureC, units).split(' ')[0]);
}

function yearsOfTen(share: number): number {
  return share < LEAST_ICE_SHARE ? 0 : Math.max(1, Math.round(share * 10));
}
