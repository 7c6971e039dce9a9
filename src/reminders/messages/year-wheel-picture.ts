import sharp from 'sharp';
import {
  addDays,
  type CivilDay,
  civilDay,
  dayFromParts,
  dayOfYear,
  daysInYear,
  yearOf,
} from '../../core/units/civil-day.js';
import { dayAndMonth } from '../spoken-dates.js';

/** Water of a year, from a day on. */
export interface WheelWater {
  readonly firstDay: CivilDay;
  /** Daily median. [°C] */
  readonly p50C: readonly number[];
}

/** Shown at half of its pixels, so that it is sharp on every screen. [px] */
export const WHEEL_SHOWN_PX = 240;
const PIXELS = 2 * WHEEL_SHOWN_PX;
const CENTRE = 120;
const RING = { inner: 62, outer: 92 } as const;
const LETTERS = 106;
const YEAR_DAYS = 364;
const STEP_DAYS = 7;
/** Upper ends of the temperature bands and their colours: those of the design tokens, light. [°C] */
const BANDS_C = [2, 10, 15, 20, 26] as const;
const COLOURS = ['#E3E9E8', '#B9D0D3', '#86B3B6', '#529394', '#2F6F66', '#4A4A1E'] as const;
const GROUND = '#FBF8F2';
const INK = '#1D2726';
const LINE = '#9A927F';
const HAND = '#9C6509';

/**
 * Strokes of the first letters of the months, on a field 6 wide and 8 high: a server need not have any font, and a
 * letter that is missing there would be a box here.
 */
const STROKES: Readonly<Record<string, string>> = {
  J: 'M5 0V6Q5 8 3 8Q1 8 1 6',
  F: 'M1 8V0H5M1 4H4',
  M: 'M0 8V0L3 5L6 0V8',
  A: 'M0 8L3 0L6 8M1 5.4H5',
  S: 'M5 1.2Q4.4 0 3 0Q1 0 1 2Q1 3.6 3 4Q5 4.4 5 6Q5 8 3 8Q1.4 8 1 6.8',
  O: 'M3 0Q6 0 6 4Q6 8 3 8Q0 8 0 4Q0 0 3 0',
  N: 'M0.6 8V0L5.4 8V0',
  D: 'M1 0V8H2.6Q5.6 8 5.6 4Q5.6 0 2.6 0Z',
};
const MONTHS = 'JFMAMJJASOND';

/** The year as a ring of water temperatures, today as its hand, as a picture for a mail. PNG, about 10 kB. */
export async function yearWheelPicture(water: WheelWater, today: CivilDay, latitude: number): Promise<Buffer> {
  const svg = yearWheelSvg(water, today, latitude);
  return sharp(Buffer.from(svg)).resize(PIXELS, PIXELS).png({ palette: true, colours: 32 }).toBuffer();
}

/** The same as a drawing of 240 x 240. North of the equator 1 July stands on top, south of it 1 January. */
export function yearWheelSvg(water: WheelWater, today: CivilDay, latitude: number): string {
  const at = (day: CivilDay) => {
    const year = yearOf(day);
    return 360 * (year - 2000) + (360 * (dayOfYear(day) - 1)) / daysInYear(year) + (latitude < 0 ? 0 : 180);
  };
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${PIXELS}" height="${PIXELS}" viewBox="0 0 240 240">`,
    // A disc of its own ground, so that letters are read on a dark mail too.
    `<circle cx="${CENTRE}" cy="${CENTRE}" r="${CENTRE}" fill="${GROUND}"/>`,
    ...weeks(water, today).map(
      ({ from, until, colour }) => `<path fill="${colour}" d="${strip(at(from), at(until))}"/>`,
    ),
    ring(RING.inner),
    ring(RING.outer),
    ...Array.from({ length: 12 }, (_, index) => month(index + 1, today, at)),
    hand(at(today)),
    '</svg>',
  ].join('');
}

/** The coming year in weeks, each in the colour of its middle; neighbours of one colour are one strip. */
function weeks({ firstDay, p50C }: WheelWater, today: CivilDay): { from: CivilDay; until: CivilDay; colour: string }[] {
  const found: { from: CivilDay; until: CivilDay; colour: string }[] = [];
  for (let ahead = 0; ahead < YEAR_DAYS; ahead += STEP_DAYS) {
    const from = addDays(today, ahead);
    const middleC = p50C[from - firstDay + Math.floor(STEP_DAYS / 2)];
    if (middleC === undefined) continue;
    const band = BANDS_C.findIndex((endC) => middleC < endC);
    const colour = COLOURS[band === -1 ? BANDS_C.length : band] as string;
    const until = addDays(from, STEP_DAYS);
    const last = found.at(-1);
    if (last && last.colour === colour && last.until === from) last.until = until;
    else found.push({ from, until, colour });
  }
  return found;
}

/** The line at the start of a month, and its letter in the middle. */
function month(number: number, today: CivilDay, at: (day: CivilDay) => number): string {
  const first = dayFromParts(yearOf(today), number, 1);
  const next = number === 12 ? dayFromParts(yearOf(today) + 1, 1, 1) : dayFromParts(yearOf(today), number + 1, 1);
  const from = point(RING.inner, at(first));
  const to = point(RING.outer + 4, at(first));
  const place = point(LETTERS, (at(first) + at(next)) / 2);
  const strokes = STROKES[MONTHS[number - 1] as string];
  return (
    `<path d="M${from}L${to}" stroke="${LINE}" stroke-width="0.7" fill="none"/>` +
    `<path d="${strokes}" transform="translate(${place}) scale(1.15) translate(-3 -4)" stroke="${INK}" stroke-width="1.1" stroke-linecap="round" stroke-linejoin="round" fill="none"/>`
  );
}

function hand(angle: number): string {
  const [from, to] = [point(8, angle), point(RING.outer + 6, angle)];
  return (
    `<path d="M${from}L${to}" stroke="${HAND}" stroke-width="3" stroke-linecap="round" fill="none"/>` +
    `<circle cx="${CENTRE}" cy="${CENTRE}" r="8" fill="${HAND}"/>`
  );
}

function ring(radius: number): string {
  return `<circle cx="${CENTRE}" cy="${CENTRE}" r="${radius}" fill="none" stroke="${LINE}" stroke-width="0.7"/>`;
}

function strip(from: number, until: number): string {
  const large = until - from > 180 ? 1 : 0;
  const [a, b] = [point(RING.outer, from), point(RING.outer, until)];
  const [c, d] = [point(RING.inner, until), point(RING.inner, from)];
  return `M${a}A${RING.outer} ${RING.outer} 0 ${large} 1 ${b}L${c}A${RING.inner} ${RING.inner} 0 ${large} 0 ${d}Z`;
}

function point(radius: number, angle: number): string {
  const radians = (angle * Math.PI) / 180;
  const round = (value: number) => Math.round(value * 100) / 100;
  return `${round(CENTRE + radius * Math.sin(radians))} ${round(CENTRE - radius * Math.cos(radians))}`;
}

/** What the picture shows, for whoever does not see it. */
export function wheelInWords({ firstDay, p50C }: WheelWater, today: CivilDay, shown: (c: number) => string): string {
  const year = p50C.slice(Math.max(0, today - firstDay), Math.max(0, today - firstDay) + YEAR_DAYS);
  const [lowest, highest] = [Math.min(...year), Math.max(...year)];
  return `The year as a ring of water temperatures, from ${shown(lowest)} to ${shown(highest)}; the hand stands at ${dayAndMonth(today)}.`;
}

export function wheelWater(outlook: { readonly firstDay: string; readonly p50C: readonly number[] }): WheelWater {
  return { firstDay: civilDay(outlook.firstDay), p50C: outlook.p50C };
}
