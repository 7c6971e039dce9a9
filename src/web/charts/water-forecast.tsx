import { addDays, type CivilDay, dayFromParts, monthOf, yearOf } from '../../core/units/civil-day.js';
import { showTemperature, type UnitSystem } from '../../core/units/show.js';
import { type ChartMark, type FeedKind, onDay, px } from './chart-figures.js';
import {
  type ForecastFrame,
  type ForecastScales,
  forecastScales,
  iceRuns,
  narrowFrame,
  pushedApart,
  wideFrame,
} from './forecast-geometry.js';
import { crossings, forecastLines, readingRings, type WaterForecastFigures } from './forecast-lines.js';
import { type ReadOutFrame, readOutData } from './read-out.js';
import { fullDate, longDate, shortDate, shortMonth } from './show-date.js';
import { markAt } from './task-mark.js';

/** Feeding thresholds, labelled on the axis with two more. [°C] */
const THRESHOLDS_C = [10, 15, 26] as const;
const FEED_STRIP: readonly { kind: FeedKind; fromC: number; untilC: number; words: string }[] = [
  { kind: 'none', fromC: 0, untilC: 10, words: 'no feed' },
  { kind: 'light', fromC: 10, untilC: 15, words: 'light feed' },
  { kind: 'staple', fromC: 15, untilC: 26, words: 'staple feed' },
  { kind: 'early', fromC: 26, untilC: Number.POSITIVE_INFINITY, words: 'feed early' },
];

/** Both drawings of the forecast; the style sheet shows the one that fits. */
export function waterForecast(figures: WaterForecastFigures): JSX.Element {
  return (
    <figure id={`${figures.id}-figure`} data-read-out={readOutData(figures)}>
      {drawing(figures, wideFrame(figures.today), 'wide')}
      {drawing(figures, narrowFrame(figures.today), 'narrow')}
    </figure>
  );
}

function drawing(figures: WaterForecastFigures, frame: ForecastFrame, size: 'wide' | 'narrow'): JSX.Element {
  const scales = forecastScales(frame, figures.water);
  const id = `${figures.id}${size}`;
  return (
    <svg
      class={`chart ${size}`}
      viewBox={`0 0 ${frame.width} ${frame.height}`}
      role="img"
      aria-labelledby={`${id}t ${id}d`}
      data-frame={frameData(frame, figures.today, scales.highC)}
    >
      <title id={`${id}t`} safe>
        {`Water forecast of ${figures.pondName}`}
      </title>
      <desc id={`${id}d`} safe>
        {forecastInWords(figures)}
      </desc>
      <defs>
        <pattern id={`${id}h`} width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <path class="hx" d="M0 0V5" stroke-width="1.1" />
        </pattern>
      </defs>
      {zones(figures, frame, scales, size)}
      {monthAxis(frame, scales)}
      {iceStrips(figures, frame, scales, id, size)}
      {forecastLines(figures, frame, scales, size)}
      {crossings(figures, frame, scales, size)}
      {readingRings(figures, frame, scales)}
      {todayLine(figures, frame, scales)}
      {taskRow(figures, frame, scales, 'technician', frame.rows.crew)}
      {taskRow(figures, frame, scales, 'homeowner', frame.rows.owner)}
      {size === 'wide' ? rowNames(frame) : ''}
    </svg>
  );
}

/** Where the days lie, for the script that reads the drawing. */
function frameData({ left, right, top, bottom, from, until }: ForecastFrame, today: CivilDay, highC: number): string {
  const frame: ReadOutFrame = { left, right, top, bottom, from: from - today, until: until - today, highC };
  return JSON.stringify(frame);
}

function forecastInWords(figures: WaterForecastFigures): string {
  const { water, today, units } = figures;
  const nowC = onDay(water.p50C, water.firstDay, today);
  const now = nowC === null ? '' : `${showTemperature(nowC, units)} on ${fullDate(today)}. `;
  const passes = figures.crossings.map(
    ({ thresholdC, earliest, likely, latest }) =>
      `${showTemperature(thresholdC, units)} is passed between ${longDate(earliest)} and ${longDate(latest)}, most likely on ${longDate(likely)}.`,
  );
  const ice = iceRuns(water, today, addDays(today, 365)).map(
    (run) => `Ice is likely from ${longDate(run.from)} to ${longDate(run.until)}.`,
  );
  return `${now}The median of the water and its likely band, 8 years in 10. ${[...passes, ...ice].join(' ')} The table below holds the same figures.`;
}

function zones(
  { units, hasFish }: WaterForecastFigures,
  frame: ForecastFrame,
  scales: ForecastScales,
  size: string,
): JSX.Element {
  const width = String(frame.right - frame.left);
  return (
    <>
      {hasFish ? (
        <rect
          class="zone z0"
          x={String(frame.left)}
          y={String(scales.y(10))}
          width={width}
          height={String(px(frame.bottom - scales.y(10)))}
        />
      ) : (
        ''
      )}
      {hasFish ? (
        <rect
          class="zone z1"
          x={String(frame.left)}
          y={String(scales.y(15))}
          width={width}
          height={String(px(scales.y(10) - scales.y(15)))}
        />
      ) : (
        ''
      )}
      {THRESHOLDS_C.map((thresholdC) => (
        <path class="thr" d={`M${frame.left} ${scales.y(thresholdC)}H${frame.right}`} />
      ))}
      {axisLabelsC(units).map((labelC) => (
        <text class="ax" x={String(frame.left - 6)} y={String(px(scales.y(labelC) + 4))} text-anchor="end" safe>
          {`${showTemperature(labelC, units).split(' ')[0]}°`}
        </text>
      ))}
      {hasFish && size === 'wide' ? FEED_STRIP.map((part) => feedStrip(part, frame, scales)) : ''}
    </>
  );
}

/** The thresholds and two figures more. */
function axisLabelsC(units: UnitSystem): readonly number[] {
  return [...THRESHOLDS_C, ...(units === 'us' ? [40, 70].map((f) => (f - 32) / 1.8) : [5, 20])];
}

function feedStrip(
  { kind, fromC, untilC, words }: (typeof FEED_STRIP)[number],
  frame: ForecastFrame,
  scales: ForecastScales,
): JSX.Element {
  const low = px(scales.y(fromC) - 2);
  const high = px(scales.y(Math.min(untilC, scales.highC)) + 2);
  const x = frame.right + 10;
  const path = kind === 'light' ? `M${x - 1.8} ${low}V${high}M${x + 1.8} ${low}V${high}` : `M${x} ${low}V${high}`;
  const style = { none: 'fd0', light: 'fd1', staple: 'fd2', early: 'fd3' }[kind];
  return (
    <>
      <path class={style} d={path} />
      <text class="lab" x={String(x + 10)} y={String(px((low + high) / 2 + 4))} safe>
        {words}
      </text>
    </>
  );
}

function monthAxis(frame: ForecastFrame, scales: ForecastScales): JSX.Element {
  const firsts: CivilDay[] = [];
  for (let month = monthOf(frame.from); ; month++) {
    const first = dayFromParts(yearOf(frame.from), month, 1);
    if (first > frame.until) break;
    firsts.push(first);
  }
  return (
    <>
      {firsts.map((first) => {
        const next = dayFromParts(yearOf(first), monthOf(first) + 1, 1);
        const from = Math.max(first, frame.from);
        const until = Math.min(next, frame.until);
        const year = monthOf(first) === 1 ? ` ${yearOf(first)}` : '';
        return (
          <>
            {first >= frame.from ? <path class="grid" d={`M${scales.x(first)} ${frame.bottom}v5`} /> : ''}
            {until - from >= 14 ? (
              <text
                class="ax"
                x={String(scales.x((from + until) / 2))}
                y={String(frame.bottom + 16)}
                text-anchor="middle"
                safe
              >
                {`${shortMonth(monthOf(first))}${year}`}
              </text>
            ) : (
              ''
            )}
          </>
        );
      })}
      <path class="axis" d={`M${frame.left} ${frame.bottom}H${frame.right}`} />
    </>
  );
}

function iceStrips(
  { water }: WaterForecastFigures,
  frame: ForecastFrame,
  scales: ForecastScales,
  id: string,
  size: string,
): JSX.Element {
  return (
    <>
      {iceRuns(water, frame.from, frame.until).map((run) => {
        const from = scales.x(run.from);
        const width = px(scales.x(run.until) - from);
        const words =
          size === 'wide' && width > 150 ? `ice likely, ${shortDate(run.from)} to ${shortDate(run.until)}` : 'ice';
        return (
          <>
            <rect
              fill={`url(#${id}h)`}
              x={String(from)}
              y={String(frame.bottom - 9)}
              width={String(width)}
              height="9"
            />
            <path class="icel" d={`M${from} ${frame.bottom - 9}h${width}`} />
            {width > 24 ? (
              <text
                class="lab"
                x={String(px(from + width / 2))}
                y={String(frame.bottom - 36)}
                text-anchor="middle"
                safe
              >
                {words}
              </text>
            ) : (
              ''
            )}
          </>
        );
      })}
    </>
  );
}

function todayLine(
  { today, water, units }: WaterForecastFigures,
  frame: ForecastFrame,
  scales: ForecastScales,
): JSX.Element {
  const x = scales.x(today);
  const nowC = onDay(water.p50C, water.firstDay, today);
  return (
    <>
      <path class="now" d={`M${x} 20V${frame.height - 6}`} />
      <path class="nowtip" d={`M${px(x - 5)} 14h10l-5 8z`} />
      <text class="lab labk" x={String(px(x + 9))} y="21" safe>
        {`today, ${shortDate(today)}${nowC === null ? '' : `: ${showTemperature(nowC, units)}`}`}
      </text>
    </>
  );
}

function taskRow(
  figures: WaterForecastFigures,
  frame: ForecastFrame,
  scales: ForecastScales,
  doneBy: ChartMark['doneBy'],
  y: number,
): JSX.Element {
  const inFrame = (day: CivilDay) => Math.min(Math.max(day, frame.from), frame.until);
  const marks = figures.marks.filter((mark) => mark.doneBy === doneBy && mark.due <= frame.until);
  const placed = pushedApart(
    marks.map((of) => ({ of, x: scales.x(inFrame(of.due)) })),
    frame.right + 4,
  );
  return (
    <>
      {marks.map(({ earliest, latest, needsAction }) => (
        <path
          class={needsAction ? 'win win-act' : 'win'}
          d={`M${scales.x(inFrame(earliest))} ${y}H${px(scales.x(inFrame(latest)) + 0.5)}`}
        />
      ))}
      {placed.map(({ of, x }) => markAt(of, x, y, frame.markHalf, 3.2))}
    </>
  );
}

function rowNames(frame: ForecastFrame): JSX.Element {
  return (
    <>
      <text class="ax" x={String(frame.left - 6)} y={String(frame.rows.crew + 4)} text-anchor="end">
        crew
      </text>
      <text class="ax" x={String(frame.left - 6)} y={String(frame.rows.owner + 4)} text-anchor="end">
        owner
      </text>
    </>
  );
}
