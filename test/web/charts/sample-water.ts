import { addDays, type CivilDay, dayOfYear } from '../../../src/core/units/civil-day.js';
import type { ChartMark, DailyWater } from '../../../src/web/charts/chart-figures.js';

/** A year that follows a cosine, warmest in late July (January south of the equator), with ice where it is coldest. */
export function sampleWater(
  today: CivilDay,
  given: { coldestC?: number; warmestC?: number; south?: boolean } = {},
): DailyWater {
  const { coldestC = 0, warmestC = 25, south = false } = given;
  const p50C: number[] = [];
  for (let ahead = 0; ahead < 540; ahead++) {
    const phase = (2 * Math.PI * (dayOfYear(addDays(today, ahead)) - 205)) / 365;
    const share = (1 + Math.cos(phase) * (south ? -1 : 1)) / 2;
    p50C.push(Math.round((coldestC + (warmestC - coldestC) * share) * 10) / 10);
  }
  return {
    firstDay: today,
    p50C,
    p10C: p50C.map((value) => Math.max(0, value - 2)),
    p90C: p50C.map((value) => value + 2),
    iceShare: p50C.map((value) => (value < 1.5 ? 0.9 : 0)),
  };
}

export function aMark(number: number, today: CivilDay, own: Partial<ChartMark> = {}): ChartMark {
  return {
    number,
    doneBy: 'technician',
    needsAction: false,
    title: `Task ${number}`,
    earliest: addDays(today, 10),
    due: addDays(today, 15),
    latest: addDays(today, 20),
    ...own,
  };
}
