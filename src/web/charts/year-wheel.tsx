import { addDays, type CivilDay } from '../../core/units/civil-day.js';
import { showTemperature, type UnitSystem } from '../../core/units/show.js';
import {
  type ChartMark,
  type DailyWater,
  type FeedKind,
  type FeedSpan,
  type LaterMark,
  onDay,
  px,
  TEMPERATURE_BANDS_C,
  temperatureBand,
} from './chart-figures.js';
import { readOutData } from './read-out.js';
import { longDate, monthName, shortMonth, weekdayDate } from './show-date.js';
import { markAt } from './task-mark.js';
import {
  type AngleOfDay,
  angleOfDay,
  arc,
  CENTRE,
  MARK_HALF,
  monthSpan,
  placeMarks,
  point,
  strip,
  textArc,
} from './wheel-geometry.js';

const HUB = 58;
const HOMEOWNER_LANES = [93, 73] as const;
const TECHNICIAN_LANES = [191, 209] as const;
/** Between the marks and the rings, where no lane is. */
const LATER_RADIUS = { technician: 183.5, homeowner: 103.5 } as const;
const RING = { inner: 106, outer: 144 } as const;
const FEED = { arc: 158, label: 146.5, gapDegrees: 1.2 } as const;
const MONTHS = { inner: 163, outer: 180, text: 167.6 } as const;
/** The profile's scale: 26 to 84 °F over the ring. [°C] */
const PROFILE_C = { low: (26 - 32) / 1.8, high: (84 - 32) / 1.8 } as const;
const ISO_LINES_C = [10, 20] as const;
const ISO_LABEL_DEGREES = 197;
/** Days drawn clockwise from the hand; one stays open before it. */
const YEAR_DAYS = 364;
/** How far before the hand a window may begin, so that it does not run into next year's end. [days] */
const BEFORE_DAYS = 14;
const FEED_WORDS: Readonly<Record<FeedKind, string>> = {
  none: 'no feed',
  light: 'light feed',
  staple: 'staple feed',
  early: 'feed early',
};

export interface YearWheelFigures {
  /** Prefix of the ids inside the drawing; unique on its page. */
  readonly id: string;
  readonly pondName: string;
  readonly today: CivilDay;
  readonly latitude: number;
  readonly units: UnitSystem;
  readonly water: DailyWater;
  /** Empty where the pond has no fish. */
  readonly feed: readonly FeedSpan[];
  /** In time order. */
  readonly marks: readonly ChartMark[];
  /** Last line of the hub: `and falling`, or `likely` in a preview. */
  readonly hubWords: string;
  /** What is expected after the tasks: a dot between the lanes. */
  readonly later?: readonly LaterMark[];
  /** For a script that reads it day by day: its figures stand at the drawing itself, or at that forecast's figure. */
  readonly readOut?: 'own' | { readonly ofForecast: string };
}

/** The year of a pond as a ring: water, feed, the crew's tasks outside, the homeowner's inside, today as a hand. */
export function yearWheel(figures: YearWheelFigures): JSX.Element {
  const { id, today } = figures;
  const at = angleOfDay(figures.latitude);
  const crew = placeMarks(facing(figures, 'technician', at), TECHNICIAN_LANES);
  const owner = placeMarks(facing(figures, 'homeowner', at), HOMEOWNER_LANES);
  const half = crew.some(({ radius }) => radius === TECHNICIAN_LANES[1]) ? 220 : 203;
  return (
    <svg
      class="wheel"
      viewBox={`${CENTRE - half} ${CENTRE - half} ${2 * half} ${2 * half}`}
      role="img"
      aria-labelledby={`${id}t ${id}d`}
      data-read-out={figures.readOut === 'own' ? readOutData(figures) : undefined}
      data-read-out-of={typeof figures.readOut === 'object' ? `${figures.readOut.ofForecast}-figure` : undefined}
      data-latitude={figures.readOut ? String(figures.latitude) : undefined}
    >
      <title id={`${id}t`} safe>
        {`Year wheel of ${figures.pondName}`}
      </title>
      <desc id={`${id}d`} safe>
        {wheelInWords(figures)}
      </desc>
      {patterns(id)}
      {monthRing(figures, at)}
      {waterRing(figures, at)}
      {figures.feed.map((span, index) => feedArc(span, `${id}f${index}`, today, at))}
      {[...crew, ...owner].map(({ of, radius }) => (
        <path class={of.needsAction ? 'win win-act' : 'win'} d={windowArc(of, radius, today, at)} />
      ))}
      {laterDots(figures, at)}
      {hand(at(today))}
      {[...crew, ...owner].map(({ of, radius, angle }) => {
        const { x, y } = point(radius, angle);
        return markAt(of, x, y, MARK_HALF);
      })}
      {hub(figures)}
    </svg>
  );
}

/** Small and without a number: they are not tasks yet. */
function laterDots({ later = [], today }: YearWheelFigures, at: AngleOfDay): JSX.Element {
  const drawn = later.filter(({ due }) => due > today && due < today + YEAR_DAYS - 4);
  return (
    <>
      {drawn.map(({ due, doneBy }) => {
        const { x, y } = point(LATER_RADIUS[doneBy], at(due));
        return <circle class="later-dot" cx={String(x)} cy={String(y)} r="1.8" />;
      })}
    </>
  );
}

/** What the drawing shows, for people who do not see it. */
function wheelInWords({ water, today, units, latitude, marks, later = [] }: YearWheelFigures): string {
  const medians = Array.from({ length: 12 }, (_, index) => {
    const medianC = onDay(water.p50C, water.firstDay, monthSpan(index + 1, today).sixteenth);
    return medianC === null ? null : `${monthName(index + 1).slice(0, 3)} ${degrees(medianC, units)}`;
  }).filter((words) => words !== null);
  const top = latitude < 0 ? 'January' : 'July';
  return (
    `Twelve months as a ring, ${top} at the top. Water median in the middle of the month, in ${units === 'us' ? '°F' : '°C'}: ${medians.join(', ')}. ` +
    `The hand stands at ${longDate(today)}. ${marks.length === 0 ? 'No tasks.' : 'The tasks are listed under the same numbers beside the drawing.'}${later.length === 0 ? '' : ` Dots: ${later.length} later times, as expected today; they are listed under the calendar.`}`
  );
}

function facing(figures: YearWheelFigures, doneBy: ChartMark['doneBy'], at: AngleOfDay) {
  const { today } = figures;
  return figures.marks
    .filter((mark) => mark.doneBy === doneBy && mark.due < addDays(today, YEAR_DAYS - 4))
    .map((mark) => ({ of: mark, angle: at(Math.max(mark.due, today - BEFORE_DAYS) as CivilDay) }));
}

function windowArc(mark: ChartMark, radius: number, today: CivilDay, at: AngleOfDay): string {
  const from = Math.max(mark.earliest, today - BEFORE_DAYS) as CivilDay;
  const until = Math.min(Math.max(mark.latest, from + 1), today + YEAR_DAYS - BEFORE_DAYS) as CivilDay;
  return arc(radius, at(from), Math.max(at(until), at(from) + 0.5));
}

function patterns(id: string): JSX.Element {
  return (
    <defs>
      <pattern id={`${id}h`} width="4.5" height="4.5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
        <path class="hx" d="M0 0V4.5" stroke-width="1.1" />
      </pattern>
      <pattern id={`${id}o`} width="6" height="6" patternUnits="userSpaceOnUse">
        <circle class="dx" cx="2" cy="2" r="1" />
      </pattern>
    </defs>
  );
}

function monthRing({ id, today, water, units }: YearWheelFigures, at: AngleOfDay): JSX.Element {
  return (
    <>
      {Array.from({ length: 12 }, (_, index) => {
        const { from, middle, sixteenth } = monthSpan(index + 1, today);
        const inner = point(MONTHS.inner, at(from));
        const outer = point(MONTHS.outer, at(from));
        const medianC = onDay(water.p50C, water.firstDay, sixteenth);
        const pathId = `${id}m${index + 1}`;
        return (
          <>
            <path class="tick" d={`M${inner.x} ${inner.y}L${outer.x} ${outer.y}`} />
            <path id={pathId} d={textArc(MONTHS.text, at(middle), 24, 7.2)} fill="none" />
            <text class="mon">
              <textPath href={`#${pathId}`} startOffset="50%" text-anchor="middle">
                <tspan safe>{shortMonth(index + 1)}</tspan>
                {medianC === null ? '' : <tspan class="mt" safe>{` ${degrees(medianC, units)}°`}</tspan>}
              </textPath>
            </text>
          </>
        );
      })}
      <circle class="rule" cx="220" cy="220" r={String(MONTHS.inner)} />
      <circle class="rule" cx="220" cy="220" r={String(MONTHS.outer)} />
    </>
  );
}

function waterRing(figures: YearWheelFigures, at: AngleOfDay): JSX.Element {
  const { id, units } = figures;
  return (
    <>
      <circle class="rule" cx="220" cy="220" r={String(RING.inner)} />
      <circle class="track" cx="220" cy="220" r="125" stroke-width="38" />
      {bandStrips(figures, at).map(({ band, outline }) => {
        const d = strip(RING.inner, outline);
        return (
          <>
            <path class={`tb tb${band}`} d={d} />
            {band === 0 ? <path fill={`url(#${id}h)`} d={d} /> : ''}
            {band === TEMPERATURE_BANDS_C.length ? <path fill={`url(#${id}o)`} d={d} /> : ''}
          </>
        );
      })}
      {ISO_LINES_C.map((lineC) => (
        <circle class="iso" cx="220" cy="220" r={String(px(profileRadius(lineC)))} />
      ))}
      {ISO_LINES_C.map((lineC) => {
        const { x, y } = point(profileRadius(lineC) + 3, ISO_LABEL_DEGREES);
        return <text class="isot" x={String(x)} y={String(y)} safe>{`${degrees(lineC, units)}°`}</text>;
      })}
    </>
  );
}

/** The year's profile, cut where the band changes; neighbours share the day of the change. */
function bandStrips({ water, today }: YearWheelFigures, at: AngleOfDay) {
  const strips: { band: number; outline: { angle: number; radius: number }[] }[] = [];
  for (let ahead = 0; ahead <= YEAR_DAYS; ahead++) {
    const day = addDays(today, ahead);
    const medianC = onDay(water.p50C, water.firstDay, day);
    if (medianC === null) continue;
    const spot = { angle: at(day), radius: profileRadius(medianC) };
    const band = temperatureBand(medianC);
    const last = strips.at(-1);
    last?.outline.push(spot);
    if (last?.band !== band) strips.push({ band, outline: [spot] });
  }
  return strips.filter(({ outline }) => outline.length > 1);
}

function profileRadius(temperatureC: number): number {
  const share = (temperatureC - PROFILE_C.low) / (PROFILE_C.high - PROFILE_C.low);
  return RING.inner + (RING.outer - RING.inner) * Math.min(1, Math.max(0, share));
}

function feedArc({ kind, from, until }: FeedSpan, pathId: string, today: CivilDay, at: AngleOfDay): JSX.Element {
  const start = at(Math.max(from, today) as CivilDay) + FEED.gapDegrees;
  const end = at(Math.min(until + 1, today + YEAR_DAYS) as CivilDay) - FEED.gapDegrees;
  if (end - start < 1) return <></>;
  const middle = (start + end) / 2;
  return (
    <>
      {kind === 'staple' ? <path class="fd2" d={arc(FEED.arc, start, end)} /> : ''}
      {kind === 'early' ? <path class="fd3" d={arc(FEED.arc, start, end)} /> : ''}
      {kind === 'light' ? <path class="fd1" d={`${arc(156.2, start, end)}${arc(159.8, start, end)}`} /> : ''}
      {end - start >= 18 ? (
        <>
          <path id={pathId} d={textArc(FEED.label, middle, 28, 7.2)} fill="none" />
          <text class="fdl">
            <textPath href={`#${pathId}`} startOffset="50%" text-anchor="middle" safe>
              {FEED_WORDS[kind]}
            </textPath>
          </text>
        </>
      ) : (
        ''
      )}
    </>
  );
}

function hand(angle: number): JSX.Element {
  const from = point(HUB, angle);
  const to = point(181, angle);
  const tip = point(187, angle);
  const left = point(180.5, angle - 2.1);
  const right = point(180.5, angle + 2.1);
  return (
    <>
      <path class="hand" d={`M${from.x} ${from.y}L${to.x} ${to.y}`} />
      <path class="handtip" d={`M${tip.x} ${tip.y}L${left.x} ${left.y}L${right.x} ${right.y}Z`} />
    </>
  );
}

function hub({ today, water, units, hubWords }: YearWheelFigures): JSX.Element {
  const nowC = onDay(water.p50C, water.firstDay, today);
  return (
    <>
      <circle class="hub" cx="220" cy="220" r={String(HUB)} />
      <text class="hub1" x="220" y="200" safe>
        {weekdayDate(today)}
      </text>
      <text class="hub2" x="220" y="229" safe>
        {nowC === null ? '–' : showTemperature(nowC, units)}
      </text>
      <text class="hub1" x="220" y="247" safe>
        {hubWords}
      </text>
    </>
  );
}

/** Whole degrees without a unit, for places where the unit is said once. */
function degrees(temperatureC: number, units: UnitSystem): string {
  return showTemperature(temperatureC, units).split(' ')[0] ?? '';
}
