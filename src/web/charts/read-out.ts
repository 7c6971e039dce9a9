import { type CivilDay, isoDateOf } from '../../core/units/civil-day.js';
import type { UnitSystem } from '../../core/units/show.js';
import type { ChartMark, DailyWater } from './chart-figures.js';

/** What the script of a drawing needs to say the figures of a day. Temperatures in tenths of a degree, ice in hundredths. */
export interface ReadOutData {
  readonly name: string;
  readonly units: UnitSystem;
  readonly today: string;
  readonly first: string;
  readonly p10: readonly number[];
  readonly p50: readonly number[];
  readonly p90: readonly number[];
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

/** The value of `data-read-out`: with it a drawing can be read day by day where scripts run. */
export function readOutData(figures: {
  readonly name: string;
  readonly today: CivilDay;
  readonly units: UnitSystem;
  readonly water: DailyWater;
  readonly marks: readonly ChartMark[];
}): string {
  const { name, today, units, water, marks } = figures;
  const tenths = (values: readonly number[]) => values.map((value) => Math.round(value * 10));
  const data: ReadOutData = {
    name,
    units,
    today: isoDateOf(today),
    first: isoDateOf(water.firstDay),
    p10: tenths(water.p10C),
    p50: tenths(water.p50C),
    p90: tenths(water.p90C),
    ice: water.iceShare.map((share) => Math.round(share * 100)),
    marks: marks.map(({ number, earliest, latest }) => [number, earliest - today, latest - today]),
  };
  return JSON.stringify(data);
}
