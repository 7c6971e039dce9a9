import type { WaterForecast } from '../../core/thermal/water-forecast.js';
import { addDays, dayFromParts, isoDateOf, yearOf } from '../../core/units/civil-day.js';
import type { LakeSet } from './lake-sets.js';

const WIDTH = 1200;
const PANEL = 260;
const LEFT = 52;
const RIGHT = 16;
const TOP = 34;
const BOTTOM = 26;
const LOWEST_C = -2;
const HIGHEST_C = 34;
const GRID_C = [0, 10, 20, 30] as const;

/** One lake with what was forecast for it, and what the mean of the air would have said. */
export interface PlottedLake {
  readonly set: LakeSet;
  readonly forecast: WaterForecast;
  readonly airMeansC: ArrayLike<number>;
  /** Figures of the panel's title. */
  readonly words: string;
}

/** Measured water, median and band of the forecast and the 7-day mean of the air, one panel a lake, as a whole SVG file. */
export function forecastPlot(lakes: readonly PlottedLake[]): string {
  const height = lakes.length * PANEL + 40;
  const panels = lakes.map((lake, i) => panelOf(lake, i * PANEL));
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${height}" width="${WIDTH}" height="${height}" role="img" aria-labelledby="t d" font-family="sans-serif" font-size="12">
<title id="t">Water forecast against measured water</title>
<desc id="d">One panel a lake: dots are measured daily means, the line is the median of the forecast from daily air, the area its tenth to ninetieth percentile, the broken line the 7-day mean of the air.</desc>
<rect width="${WIDTH}" height="${height}" fill="#fff"/>
${panels.join('\n')}
${legend(height - 18)}
</svg>
`;
}

function panelOf({ set, forecast, airMeansC, words }: PlottedLake, top: number): string {
  const x = (day: number) => (LEFT + ((WIDTH - LEFT - RIGHT) * day) / Math.max(1, set.days - 1)).toFixed(1);
  const y = (valueC: number) => {
    const share = (Math.min(HIGHEST_C, Math.max(LOWEST_C, valueC)) - LOWEST_C) / (HIGHEST_C - LOWEST_C);
    return (top + PANEL - BOTTOM - share * (PANEL - TOP - BOTTOM)).toFixed(1);
  };
  const days = Array.from({ length: set.days }, (_, day) => day);
  const upper = days.map((day) => `${x(day)} ${y(forecast.p90C[day] as number)}`);
  const lower = days.map((day) => `${x(day)} ${y(forecast.p10C[day] as number)}`).reverse();
  const dots = days
    .filter((day) => !Number.isNaN(set.waterC[day]))
    .map((day) => `M${x(day)} ${y(set.waterC[day] as number)}h0`);
  return `<g>
<text x="${LEFT}" y="${top + 20}" font-weight="bold">${escaped(`${set.site.key}, ${set.site.name}`)}</text>
<text x="${WIDTH - RIGHT}" y="${top + 20}" text-anchor="end">${escaped(words)}</text>
${GRID_C.map((valueC) => `<path d="M${LEFT} ${y(valueC)}H${WIDTH - RIGHT}" stroke="#ddd"/><text x="${LEFT - 8}" y="${Number(y(valueC)) + 4}" text-anchor="end">${valueC} °C</text>`).join('\n')}
${yearTicks(set, x, top)}
<path d="M${[...upper, ...lower].join('L')}Z" fill="#9ec5e8" fill-opacity="0.6"/>
<path d="${brokenLine(days, airMeansC, x, y)}" fill="none" stroke="#a05a00" stroke-dasharray="4 3"/>
<path d="${brokenLine(days, forecast.p50C, x, y)}" fill="none" stroke="#11497a" stroke-width="1.4"/>
<path d="${dots.join('')}" stroke="#111" stroke-width="2.2" stroke-linecap="round"/>
</g>`;
}

function yearTicks({ firstDay, days }: LakeSet, x: (day: number) => string, top: number): string {
  const ticks: string[] = [];
  for (let year = yearOf(firstDay); year <= yearOf(addDays(firstDay, days - 1)); year++) {
    for (const month of [1, 4, 7, 10]) {
      const day = dayFromParts(year, month, 1) - firstDay;
      if (day < 0 || day >= days) continue;
      ticks.push(
        `<path d="M${x(day)} ${top + PANEL - BOTTOM}v5" stroke="#555"/>` +
          `<text x="${x(day)}" y="${top + PANEL - 6}" text-anchor="middle">${isoDateOf(addDays(firstDay, day)).slice(0, 7)}</text>`,
      );
    }
  }
  return ticks.join('\n');
}

/** A line that stops where there is no value. */
function brokenLine(
  days: readonly number[],
  values: ArrayLike<number>,
  x: (day: number) => string,
  y: (valueC: number) => string,
): string {
  let isDrawing = false;
  return days
    .map((day) => {
      const value = values[day] as number;
      const step = Number.isNaN(value) ? '' : `${isDrawing ? 'L' : 'M'}${x(day)} ${y(value)}`;
      isDrawing = !Number.isNaN(value);
      return step;
    })
    .join('');
}

function legend(y: number): string {
  return `<g transform="translate(${LEFT} ${y})">
<path d="M0 -4h0" stroke="#111" stroke-width="5" stroke-linecap="round"/><text x="10">measured water</text>
<path d="M130 -4h26" stroke="#11497a" stroke-width="2"/><text x="162">forecast from daily air, median</text>
<rect x="370" y="-10" width="26" height="12" fill="#9ec5e8"/><text x="402">8 days in 10</text>
<path d="M500 -4h26" stroke="#a05a00" stroke-dasharray="4 3" stroke-width="2"/><text x="532">7-day mean of the air</text>
</g>`;
}

function escaped(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;');
}
