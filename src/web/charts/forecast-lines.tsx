import { type CivilDay } from '../../core/units/civil-day.js';
import type { UnitSystem } from '../../core/units/show.js';
import { type ChartMark, type Crossing, type DailyWater, onDay, px, type WaterReading } from './chart-figures.js';
import {
  bandPath,
  drawnDays,
  type ForecastFrame,
  type ForecastScales,
  medianPath,
  placeLabel,
  type Taken,
} from './forecast-geometry.js';

export interface WaterForecastFigures {
  readonly id: string;
  readonly pondName: string;
  readonly today: CivilDay;
  readonly units: UnitSystem;
  readonly water: DailyWater;
  readonly readings: readonly WaterReading[];
  readonly hasFish: boolean;
  readonly crossings: readonly Crossing[];
  readonly marks: readonly ChartMark[];
}

/** Median and likely band, the days before today in ink. */
export function forecastLines(
  { water, today }: WaterForecastFigures,
  frame: ForecastFrame,
  scales: ForecastScales,
  size: string,
): JSX.Element {
  const past = drawnDays(water, frame.from, today);
  const ahead = drawnDays(water, today, frame.until);
  const medianC = (day: CivilDay) => onDay(water.p50C, water.firstDay, day) ?? 0;
  const warmest = ahead.reduce((best, day) => (medianC(day) > medianC(best) ? day : best), today);
  const middlePast = past[Math.floor(past.length / 2)];
  return (
    <>
      {ahead.length > 1 ? <path class="bandf" d={bandPath(water, ahead, scales)} /> : ''}
      {past.length > 1 ? <path class="medp" d={medianPath(water, past, scales)} /> : ''}
      {ahead.length > 1 ? <path class="medf" d={medianPath(water, ahead, scales)} /> : ''}
      {size === 'wide' && warmest - today > 45 && frame.until - warmest > 45
        ? lineLabel('median and likely band, 8 years in 10', warmest, 38, water, scales)
        : ''}
      {size === 'wide' && middlePast !== undefined && past.length > 10
        ? lineLabel('computed', middlePast, 14, water, scales)
        : ''}
    </>
  );
}

/** A label above the highest part of the band over the days it spans. */
function lineLabel(
  words: string,
  day: CivilDay,
  halfDays: number,
  water: DailyWater,
  scales: ForecastScales,
): JSX.Element {
  let highestC = 0;
  for (let near = day - halfDays; near <= day + halfDays; near++) {
    highestC = Math.max(highestC, onDay(water.p90C, water.firstDay, near as CivilDay) ?? 0);
  }
  return (
    <text class="lab" x={String(scales.x(day))} y={String(px(scales.y(highestC) - 6))} text-anchor="middle" safe>
      {words}
    </text>
  );
}

/** Each crossing as a whisker on its threshold, with a label where there is room. */
export function crossings(
  figures: WaterForecastFigures,
  frame: ForecastFrame,
  scales: ForecastScales,
  size: string,
): JSX.Element {
  const whiskers = figures.crossings
    .filter(({ likely }) => likely > frame.from && likely < frame.until)
    .map((crossing) => ({
      words: size === 'wide' ? crossing.label : crossing.shortLabel,
      from: scales.x(Math.max(crossing.earliest, frame.from)),
      to: scales.x(Math.min(crossing.latest, frame.until)),
      at: scales.x(crossing.likely),
      y: scales.y(crossing.thresholdC),
    }));
  const taken: Taken[] = whiskers.map(({ from, to, y }) => ({ left: from, right: to, top: y - 4, bottom: y + 4 }));
  return (
    <>
      {whiskers.map((whisker) => {
        const label = whisker.words ? placeLabel(whisker.words, whisker, taken, frame) : null;
        if (label) taken.push(label.box);
        return (
          <>
            <path
              class="cross"
              d={`M${whisker.from} ${whisker.y}H${whisker.to}M${whisker.from} ${px(whisker.y - 4)}v8M${whisker.to} ${px(whisker.y - 4)}v8`}
            />
            <circle class="crossp" cx={String(whisker.at)} cy={String(whisker.y)} r="3.6" />
            {label ? (
              <text class="lab labk over-line" x={String(label.x)} y={String(label.y)} text-anchor={label.anchor} safe>
                {whisker.words}
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

export function readingRings(
  { readings, today }: WaterForecastFigures,
  frame: ForecastFrame,
  scales: ForecastScales,
): JSX.Element {
  const drawn = readings.filter(({ on }) => on >= frame.from && on <= today);
  return (
    <>
      {drawn.map(({ on, temperatureC }) => (
        <circle class="rd" cx={String(scales.x(on))} cy={String(scales.y(temperatureC))} r="3.8" />
      ))}
    </>
  );
}
