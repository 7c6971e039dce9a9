import { addDays, type CivilDay } from '../../units/civil-day.js';
import type { WaterOutlook } from '../water-outlook.js';

/** A machine that runs by season: by the temperature it is switched at, and by what people really did. */
export interface SeasonalSwitch {
  readonly onAboveC: number;
  readonly offBelowC: number;
  /** Never switched off by season. */
  readonly runsAllYear: boolean;
  /** What was really done, oldest first. */
  readonly done: readonly { readonly on: CivilDay; readonly isOn: boolean }[];
}

/** For each day of a span, whether the machine runs. */
export interface SwitchedDays {
  readonly from: CivilDay;
  readonly isOn: Uint8Array;
}

/**
 * Walks the median water through a span. The machine runs from the first day at or above `onAboveC` to the day before
 * the first below `offBelowC`. A switch made by a person counts from its day on, until the water agrees with it.
 */
export function switchedDays(
  seasonal: SeasonalSwitch,
  outlook: WaterOutlook,
  span: { readonly from: CivilDay; readonly until: CivilDay },
): SwitchedDays {
  const isOn = new Uint8Array(span.until - span.from + 1);
  if (seasonal.runsAllYear) return { from: span.from, isOn: isOn.fill(1) };

  let runs = outlook.median7dMeanC(span.from) >= seasonal.onAboveC;
  let isHeld = false;
  let nextSwitch = seasonal.done.findIndex((done) => done.on >= span.from);
  for (let i = 0; i < isOn.length; i++) {
    const day = addDays(span.from, i);
    const wantsOn = byWater(outlook.median7dMeanC(day), runs, seasonal);
    const done = nextSwitch < 0 ? undefined : seasonal.done[nextSwitch];
    if (done && done.on <= day) {
      runs = done.isOn;
      isHeld = byWater(outlook.median7dMeanC(day), runs, seasonal) !== runs;
      nextSwitch++;
    } else if (isHeld) {
      isHeld = byWater(outlook.median7dMeanC(day), !runs, seasonal) !== runs;
    } else {
      runs = wantsOn;
    }
    isOn[i] = runs ? 1 : 0;
  }
  return { from: span.from, isOn };
}

function byWater(waterC: number, runs: boolean, seasonal: SeasonalSwitch): boolean {
  return runs ? waterC >= seasonal.offBelowC : waterC >= seasonal.onAboveC;
}

export function runsOn(days: SwitchedDays, day: CivilDay): boolean {
  const index = Math.min(Math.max(day - days.from, 0), days.isOn.length - 1);
  return days.isOn[index] === 1;
}
