import { scaleLinear } from 'd3-scale';
import { area, curveMonotoneX, line } from 'd3-shape';
import { addDays, type CivilDay } from '../../core/units/civil-day.js';
import { type DailyWater, px } from './chart-figures.js';

export interface ForecastFrame {
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  /** First and last day drawn. */
  readonly from: CivilDay;
  readonly until: CivilDay;
  readonly rows: { readonly crew: number; readonly owner: number };
  readonly markHalf: number;
}

/** The wide drawing: three months back, twelve ahead. */
export function wideFrame(today: CivilDay): ForecastFrame {
  return {
    width: 1120,
    height: 340,
    left: 48,
    right: 1012,
    top: 36,
    bottom: 266,
    from: addDays(today, -91),
    until: addDays(today, 365),
    rows: { crew: 298, owner: 322 },
    markHalf: 8.6,
  };
}

/** The narrow one: a month back, five and a half ahead. */
export function narrowFrame(today: CivilDay): ForecastFrame {
  return {
    width: 358,
    height: 300,
    left: 30,
    right: 344,
    top: 36,
    bottom: 228,
    from: addDays(today, -30),
    until: addDays(today, 168),
    rows: { crew: 260, owner: 284 },
    markHalf: 8.6,
  };
}

/** 0 to 31 °C, that is 32 to 88 °F; more where the water gets warmer. */
const DOMAIN_C = { low: 0, high: 31 } as const;
/** Every third day is enough for a line that changes slowly. */
const STEP_DAYS = 3;

export interface ForecastScales {
  /** Upper end of the temperature axis. [°C] */
  readonly highC: number;
  x(day: number): number;
  y(temperatureC: number): number;
}

export function forecastScales(frame: ForecastFrame, water: DailyWater): ForecastScales {
  const warmestC = drawnDays(water, frame.from, frame.until).reduce<number>(
    (highest, day) => Math.max(highest, water.p90C[day - water.firstDay] ?? 0),
    DOMAIN_C.high,
  );
  const highC = Math.ceil(warmestC);
  const x = scaleLinear([frame.from, frame.until], [frame.left, frame.right]);
  const y = scaleLinear([DOMAIN_C.low, highC], [frame.bottom, frame.top]).clamp(true);
  return { highC, x: (day) => px(x(day)), y: (temperatureC) => px(y(temperatureC)) };
}

/** Days of the series that lie between two days, thinned, with both ends kept. */
export function drawnDays(water: DailyWater, from: CivilDay, until: CivilDay): CivilDay[] {
  const first = Math.max(from, water.firstDay);
  const last = Math.min(until, water.firstDay + water.p50C.length - 1);
  const days: CivilDay[] = [];
  for (let day = first; day < last; day += STEP_DAYS) days.push(day as CivilDay);
  if (last >= first) days.push(last as CivilDay);
  return days;
}

export function medianPath(water: DailyWater, days: readonly CivilDay[], scales: ForecastScales): string {
  const path = line<CivilDay>()
    .x((day) => scales.x(day))
    .y((day) => scales.y(water.p50C[day - water.firstDay] ?? 0))
    .curve(curveMonotoneX)
    .digits(1);
  return path([...days]) ?? '';
}

/** The likely band. Its edges are drawn as 7-day means: of forty traces the single day's edge is mostly chance. */
export function bandPath(water: DailyWater, days: readonly CivilDay[], scales: ForecastScales): string {
  const path = area<CivilDay>()
    .x((day) => scales.x(day))
    .y0((day) => scales.y(weekMean(water.p10C, day - water.firstDay)))
    .y1((day) => scales.y(weekMean(water.p90C, day - water.firstDay)))
    .curve(curveMonotoneX)
    .digits(1);
  return path([...days]) ?? '';
}

function weekMean(series: readonly number[], index: number): number {
  // Near the ends the window shrinks evenly on both sides, so that the band begins and ends where its figures do.
  const reach = Math.min(3, index, series.length - 1 - index);
  let sum = 0;
  for (let at = index - reach; at <= index + reach; at++) sum += series[at] ?? 0;
  return sum / (2 * reach + 1);
}

/** Runs of days on which ice is more likely than not, between two days. */
export function iceRuns(water: DailyWater, from: CivilDay, until: CivilDay): { from: CivilDay; until: CivilDay }[] {
  const runs: { from: CivilDay; until: CivilDay }[] = [];
  for (let day = Math.max(from, water.firstDay); day <= until; day++) {
    if ((water.iceShare[day - water.firstDay] ?? 0) < 0.5) continue;
    const last = runs.at(-1);
    if (last && day - last.until <= MERGE_DAYS) last.until = day as CivilDay;
    else runs.push({ from: day as CivilDay, until: day as CivilDay });
  }
  return runs.filter((run) => run.until - run.from >= 2);
}
const MERGE_DAYS = 7;

/** Marks of a row, in time order, the later pushed right where they would overlap. Their windows stay true. */
export function pushedApart<T>(marks: readonly { of: T; x: number }[], right: number): { of: T; x: number }[] {
  const placed: { of: T; x: number }[] = [];
  for (const { of, x } of marks) {
    const last = placed.at(-1);
    const to = last ? Math.max(x, last.x + MARK_SPACING_PX) : x;
    if (to <= right) placed.push({ of, x: px(to) });
  }
  return placed;
}
const MARK_SPACING_PX = 20;

/** A rectangle that is taken, in the drawing's coordinates. */
export interface Taken {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export interface PlacedLabel {
  readonly x: number;
  readonly y: number;
  readonly anchor: 'start' | 'end';
  readonly box: Taken;
}

/** Mean width of a letter of a bold label of 13 px, a little on the wide side. [px] */
const LETTER_PX = 7;
/** Baselines above and below the line that is labelled, the nearest first. [px] */
const LABEL_OFFSETS_PX = [-8, 17, -25, 34, -42, 51] as const;

/** A place for a label beside a whisker that covers nothing: to its right or left, above or below its line. */
export function placeLabel(
  words: string,
  whisker: { readonly from: number; readonly to: number; readonly y: number },
  taken: readonly Taken[],
  frame: ForecastFrame,
): PlacedLabel {
  const width = words.length * LETTER_PX;
  const places = LABEL_OFFSETS_PX.flatMap((offset) =>
    (['start', 'end'] as const).map((anchor) => {
      const x = anchor === 'start' ? whisker.to + 8 : whisker.from - 8;
      const y = whisker.y + offset;
      const left = anchor === 'start' ? x : x - width;
      return { x: px(x), y: px(y), anchor, box: { left, right: left + width, top: y - 12, bottom: y + 3 } };
    }),
  );
  const isInside = ({ box }: PlacedLabel) =>
    box.left >= frame.left && box.right <= frame.right && box.bottom <= frame.bottom;
  const free = places.find((place) => isInside(place) && taken.every((other) => !overlaps(place.box, other)));
  return free ?? places.find(isInside) ?? (places[0] as PlacedLabel);
}

function overlaps(a: Taken, b: Taken): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}
