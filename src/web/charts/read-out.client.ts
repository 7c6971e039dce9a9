/**
 * Reads a drawing of the water day by day: with the pointer, by touch, or with a slider and its arrow keys. A hair line
 * shows the day, a line of text says its figures. The drawing and its table stay as they are without this script.
 */
import { addDays, civilDay } from '../../core/units/civil-day.js';
import type { ReadOutData, ReadOutFrame } from './read-out.js';
import { dayWords, readableDays, readOutWords } from './read-out-words.js';
import { angleOfDay, CENTRE, point } from './wheel-geometry.js';

const SVG = 'http://www.w3.org/2000/svg';
const WHEEL = { hub: 58, outer: 181 } as const;
const YEAR_DAYS = 364;

/** One drawing on which a day can be shown and pointed at. */
interface Drawing {
  readonly svg: SVGSVGElement;
  show(ahead: number): void;
  dayAt(x: number, y: number): number | null;
}

function start(host: HTMLElement | SVGSVGElement, number: number): void {
  const text = host.dataset.readOut ?? document.getElementById(host.dataset.readOutOf ?? '')?.dataset.readOut;
  if (text === undefined) return;
  const data = JSON.parse(text) as ReadOutData;
  const drawings = host instanceof SVGSVGElement ? [wheel(host, data)] : forecasts(host, data);
  const [first] = drawings;
  if (!first) return;

  const days = readableDays(data);
  const span = { from: Math.max(days.from, spanOf(host).from), until: Math.min(days.until, spanOf(host).until) };
  const { box, slider, words } = controls(data, span, {
    number,
    name: host instanceof SVGSVGElement ? 'year wheel' : 'water forecast',
  });
  const read = (ahead: number) => {
    const day = Math.min(Math.max(Math.round(ahead), span.from), span.until);
    slider.value = String(day);
    slider.setAttribute('aria-valuetext', dayWords(data, day));
    for (const drawing of drawings) drawing.show(day);
    words.textContent = readOutWords(data, day);
  };
  slider.addEventListener('input', () => read(slider.valueAsNumber));
  for (const { svg, dayAt } of drawings) {
    const follow = (event: PointerEvent) => {
      const matrix = svg.getScreenCTM();
      if (!matrix) return;
      const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix.inverse());
      const day = dayAt(at.x, at.y);
      if (day !== null) read(day);
    };
    svg.addEventListener('pointermove', follow);
    svg.addEventListener('pointerdown', follow);
  }
  (drawings.at(-1) as Drawing).svg.after(box);
}

/** What the drawing itself covers; the forecast knows more days than are drawn. */
function spanOf(host: HTMLElement | SVGSVGElement): { from: number; until: number } {
  if (host instanceof SVGSVGElement) return { from: 0, until: YEAR_DAYS };
  const frames = [...host.querySelectorAll<SVGSVGElement>('[data-frame]')].map(frameOf);
  return { from: Math.min(...frames.map(({ from }) => from)), until: Math.max(...frames.map(({ until }) => until)) };
}

function controls(
  data: ReadOutData,
  span: { from: number; until: number },
  { number, name }: { number: number; name: string },
) {
  const box = document.createElement('div');
  box.className = 'read-out';
  const label = document.createElement('label');
  label.htmlFor = `read-out-${number}`;
  label.textContent = 'Read a day';
  const slider = document.createElement('input');
  slider.type = 'range';
  slider.id = label.htmlFor;
  slider.min = String(span.from);
  slider.max = String(span.until);
  slider.value = String(Math.max(0, span.from));
  slider.setAttribute('aria-label', `Read a day of the ${name}`);
  slider.setAttribute('aria-valuetext', dayWords(data, slider.valueAsNumber));
  const words = document.createElement('p');
  words.className = 'day-words';
  words.setAttribute('role', 'status');
  words.textContent = readOutWords(data, slider.valueAsNumber);
  box.append(label, slider, words);
  return { box, slider, words };
}

function forecasts(host: HTMLElement, data: ReadOutData): Drawing[] {
  return [...host.querySelectorAll<SVGSVGElement>('[data-frame]')].map((svg) => forecast(svg, data));
}

function frameOf(svg: SVGSVGElement): ReadOutFrame {
  return JSON.parse(svg.dataset.frame as string) as ReadOutFrame;
}

function forecast(svg: SVGSVGElement, data: ReadOutData): Drawing {
  const frame = frameOf(svg);
  const line = hair(svg);
  const dot = svg.appendChild(document.createElementNS(SVG, 'circle'));
  dot.setAttribute('class', 'hair-dot');
  dot.setAttribute('r', '4.5');
  const perDay = (frame.right - frame.left) / (frame.until - frame.from);
  return {
    svg,
    show(ahead) {
      const tenthsC = data.p50[ahead - readableDays(data).from];
      const isDrawn = tenthsC !== undefined && ahead >= frame.from && ahead <= frame.until;
      for (const part of [line, dot]) part.setAttribute('visibility', isDrawn ? 'visible' : 'hidden');
      if (!isDrawn) return;
      const x = frame.left + (ahead - frame.from) * perDay;
      const share = Math.min(1, Math.max(0, tenthsC / 10 / frame.highC));
      place(line, { x, y: frame.top }, { x, y: frame.bottom });
      dot.setAttribute('cx', String(x));
      dot.setAttribute('cy', String(frame.bottom - share * (frame.bottom - frame.top)));
    },
    dayAt: (x) => (x < frame.left || x > frame.right ? null : frame.from + (x - frame.left) / perDay),
  };
}

function wheel(svg: SVGSVGElement, data: ReadOutData): Drawing {
  const today = civilDay(data.today);
  const at = angleOfDay(Number(svg.dataset.latitude));
  const line = hair(svg);
  return {
    svg,
    show(ahead) {
      const angle = at(addDays(today, ahead));
      place(line, point(WHEEL.hub, angle), point(WHEEL.outer, angle));
      line.setAttribute('visibility', 'visible');
    },
    dayAt(x, y) {
      const [right, up] = [x - CENTRE, CENTRE - y];
      if (Math.hypot(right, up) < WHEEL.hub) return null;
      const turned = (Math.atan2(right, up) * 180) / Math.PI - at(today);
      return (((turned % 360) + 360) % 360) * ((YEAR_DAYS + 1) / 360);
    },
  };
}

function hair(svg: SVGSVGElement): SVGLineElement {
  const line = svg.appendChild(document.createElementNS(SVG, 'line'));
  line.setAttribute('class', 'hair');
  line.setAttribute('visibility', 'hidden');
  return line;
}

function place(line: SVGLineElement, from: { x: number; y: number }, to: { x: number; y: number }): void {
  for (const [name, value] of Object.entries({ x1: from.x, y1: from.y, x2: to.x, y2: to.y }))
    line.setAttribute(name, String(value));
}

for (const [number, host] of [
  ...document.querySelectorAll<HTMLElement | SVGSVGElement>('[data-read-out], [data-read-out-of]'),
].entries())
  start(host, number);
