import { addDays, type CivilDay, dayFromParts, dayOfYear, daysInYear, yearOf } from '../../core/units/civil-day.js';
import { px } from './chart-figures.js';

/** Centre of the drawing's box of 440 x 440. */
export const CENTRE = 220;
/** Half the width of a mark. */
export const MARK_HALF = 9.6;
const MARK_SPACING = 20.5;

export type AngleOfDay = (day: CivilDay) => number;

/**
 * The angle of a day, in degrees clockwise from 12 o'clock, growing without end from year to year.
 *   a = 360 (doy - 1) / N + 180, N = 365 or 366
 * so that 1 July stands on top. South of the equator the 180 are left out and 1 January stands there.
 */
export function angleOfDay(latitude: number): AngleOfDay {
  const turn = latitude < 0 ? 0 : 180;
  return (day) => {
    const year = yearOf(day);
    return 360 * (year - 2000) + (360 * (dayOfYear(day) - 1)) / daysInYear(year) + turn;
  };
}

/** First day of the month in which, or after which, the rolling year of `today` runs through it. */
export function monthSpan(month: number, today: CivilDay): { from: CivilDay; middle: CivilDay; sixteenth: CivilDay } {
  const year = yearOf(today);
  const inThisYear = dayFromParts(year, month, 16);
  const of = inThisYear >= today ? year : year + 1;
  const from = dayFromParts(of, month, 1);
  const days = dayFromParts(of, month + 1, 1) - from;
  return { from, middle: addDays(from, Math.floor(days / 2)), sixteenth: dayFromParts(of, month, 16) };
}

export function point(radius: number, angle: number): { x: number; y: number } {
  const radians = (angle * Math.PI) / 180;
  return { x: px(CENTRE + radius * Math.sin(radians)), y: px(CENTRE - radius * Math.cos(radians)) };
}

/** Path of an arc clockwise from one angle to a larger one. */
export function arc(radius: number, from: number, to: number): string {
  const start = point(radius, from);
  const end = point(radius, to);
  const large = to - from > 180 ? 1 : 0;
  return `M${start.x} ${start.y}A${radius} ${radius} 0 ${large} 1 ${end.x} ${end.y}`;
}

/**
 * Path under a text around an angle. In the lower half it runs the other way and lies `drop` further out, so that no
 * text stands on its head.
 */
export function textArc(radius: number, angle: number, half: number, drop: number): string {
  const turned = ((angle % 360) + 360) % 360;
  if (turned <= 90 || turned >= 270) return arc(radius, angle - half, angle + half);
  const outer = px(radius + drop);
  const start = point(outer, angle + half);
  const end = point(outer, angle - half);
  return `M${start.x} ${start.y}A${outer} ${outer} 0 0 0 ${end.x} ${end.y}`;
}

/** A closed strip between a fixed inner radius and an outer radius that changes with the angle. */
export function strip(inner: number, outline: readonly { angle: number; radius: number }[]): string {
  const outer = outline.map(({ angle, radius }) => point(radius, angle));
  const back = outline.map(({ angle }) => point(inner, angle)).reverse();
  return `M${[...outer, ...back].map(({ x, y }) => `${x},${y}`).join('L')}Z`;
}

export interface PlacedMark<T> {
  readonly of: T;
  readonly radius: number;
  readonly angle: number;
}

/**
 * Gives marks a lane, in time order: the first lane in which a mark keeps its distance from every other, else the second;
 * where both are full it is pushed on along the lane that has room first. Windows stay true.
 */
export function placeMarks<T>(
  marks: readonly { of: T; angle: number }[],
  lanes: readonly [number, number],
): PlacedMark<T>[] {
  const placed: PlacedMark<T>[] = [];
  const isFree = (radius: number, angle: number) =>
    placed.every((other) => other.radius !== radius || angleBetween(other.angle, angle) >= spacing(radius));

  for (const { of, angle } of marks) {
    let pushed = 0;
    let radius: number | undefined;
    for (; pushed <= 180; pushed += 1) {
      radius = lanes.find((lane) => isFree(lane, angle + pushed));
      if (radius !== undefined) break;
    }
    placed.push({ of, radius: radius ?? lanes[1], angle: angle + (radius === undefined ? 0 : pushed) });
  }
  return placed;
}

/** Smallest angle between two marks of one lane. [degrees] */
function spacing(radius: number): number {
  return (2 * Math.asin(MARK_SPACING / (2 * radius)) * 180) / Math.PI;
}

function angleBetween(a: number, b: number): number {
  const difference = Math.abs(a - b) % 360;
  return Math.min(difference, 360 - difference);
}
