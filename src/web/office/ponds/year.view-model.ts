import type { OutlookSummary } from '../../../care-calendar/index.js';
import type { Reason } from '../../../core/care/care-plan.js';
import { FEED_EARLY_FROM_C, FEED_STOP_BELOW_C, STAPLE_FROM_C } from '../../../core/stock/feed-ration.js';
import { addDays, type CivilDay, civilDay } from '../../../core/units/civil-day.js';
import { showMinutes, showTemperature, type UnitSystem } from '../../../core/units/show.js';
import type { ChartMark, Crossing, DailyWater, FeedKind, FeedSpan } from '../../charts/chart-figures.js';
import { iceRuns } from '../../charts/forecast-geometry.js';
import { dateRange, longDate, shortDate } from '../../charts/show-date.js';

const YEAR_DAYS = 364;
/** A feed band shorter than this is a wobble of the mean, not a season. [days] */
const SHORTEST_SPAN_DAYS = 7;

/** The stored forecast as the drawings take it. */
export function dailyWater(outlook: OutlookSummary): DailyWater {
  const { firstDay, p10C, p50C, p90C, iceShare } = outlook;
  return { firstDay: civilDay(firstDay), p10C, p50C, p90C, iceShare };
}

/** Which feed the coming year brings, by the median 7-day mean. None for a pond without fish. */
export function feedSpans(outlook: OutlookSummary, today: CivilDay, hasFish: boolean): FeedSpan[] {
  if (!hasFish) return [];
  const first = civilDay(outlook.firstDay);
  const spans: { kind: FeedKind; from: CivilDay; until: CivilDay }[] = [];
  for (let ahead = 0; ahead <= YEAR_DAYS; ahead++) {
    const day = addDays(today, ahead);
    const mean = outlook.median7dMeanC[day - first];
    if (mean === undefined) continue;
    const kind = feedKindAt(mean);
    const last = spans.at(-1);
    if (last?.kind === kind) last.until = day;
    else spans.push({ kind, from: day, until: day });
  }
  return withoutWobbles(spans);
}

function feedKindAt(sevenDayMeanC: number): FeedKind {
  if (sevenDayMeanC < FEED_STOP_BELOW_C) return 'none';
  if (sevenDayMeanC < STAPLE_FROM_C) return 'light';
  return sevenDayMeanC < FEED_EARLY_FROM_C ? 'staple' : 'early';
}

function withoutWobbles(spans: readonly FeedSpan[]): FeedSpan[] {
  const calm: { kind: FeedKind; from: CivilDay; until: CivilDay }[] = [];
  for (const span of spans) {
    const last = calm.at(-1);
    const isShort = span.until - span.from + 1 < SHORTEST_SPAN_DAYS;
    if (last && (last.kind === span.kind || isShort)) last.until = span.until;
    else calm.push({ ...span });
  }
  return calm;
}

/** `and falling`, `and rising` or `and steady`, by what the 7-day mean does in the coming week. */
export function trendWords(outlook: OutlookSummary, today: CivilDay): 'falling' | 'rising' | 'steady' {
  const index = today - civilDay(outlook.firstDay);
  const now = outlook.median7dMeanC[index];
  const soon = outlook.median7dMeanC[index + 7] ?? now;
  if (now === undefined || soon === undefined || Math.abs(soon - now) < 0.3) return 'steady';
  return soon < now ? 'falling' : 'rising';
}

const CROSSINGS = [
  { thresholdC: FEED_STOP_BELOW_C, direction: 'falling', long: 'stop feeding', short: 'stop feeding' },
  { thresholdC: FEED_STOP_BELOW_C, direction: 'rising', long: 'water back at', short: '' },
  { thresholdC: STAPLE_FROM_C, direction: 'falling', long: '', short: '' },
  { thresholdC: STAPLE_FROM_C, direction: 'rising', long: '', short: '' },
] as const;
type Sought = (typeof CROSSINGS)[number];
type Passing = Pick<Crossing, 'earliest' | 'likely' | 'latest'>;

/**
 * When the water passes the feeding thresholds in the coming year. A task that waits for the same crossing carries the
 * quantiles of its date; without one they are read off the daily quantiles, which makes the whisker a little wide.
 */
export function crossings(
  outlook: OutlookSummary,
  today: CivilDay,
  units: UnitSystem,
  reasons: readonly Reason[],
): Crossing[] {
  const found = CROSSINGS.flatMap((sought) => {
    const dates = plannedPassing(sought, today, reasons) ?? derivedPassing(sought, outlook, today);
    if (!dates) return [];
    const { earliest, likely, latest } = dates;
    const name =
      sought.direction === 'rising' && sought.long
        ? `${sought.long} ${showTemperature(sought.thresholdC, units)}`
        : sought.long;
    return {
      thresholdC: sought.thresholdC,
      ...dates,
      label: name ? `${name}, likely ${shortDate(likely)} (${dateRange(earliest, latest, today)})` : '',
      shortLabel: sought.short ? `${sought.short} ${shortDate(likely)}` : '',
    };
  });
  return found.sort((a, b) => a.likely - b.likely);
}

function plannedPassing(
  { thresholdC, direction }: Sought,
  today: CivilDay,
  reasons: readonly Reason[],
): Passing | null {
  for (const { trigger, inputs } of reasons) {
    if (trigger !== 'crossing') continue;
    const of = new Map(inputs.map(({ name, value }) => [name, value]));
    if (of.get('threshold') !== thresholdC || of.get('direction') !== direction) continue;
    const [earliest, likely, latest] = ['crossing-p10', 'crossing-p50', 'crossing-p90'].map(
      (name) => of.get(name) as CivilDay,
    );
    if (earliest !== undefined && likely !== undefined && latest !== undefined && likely > today)
      return { earliest, likely, latest };
  }
  return null;
}

function derivedPassing({ thresholdC, direction }: Sought, outlook: OutlookSummary, today: CivilDay): Passing | null {
  const first = civilDay(outlook.firstDay);
  const passes = (series: readonly number[], from: CivilDay, until: CivilDay) =>
    firstPassing(series, first, { from, until, thresholdC, direction });
  const likely = passes(outlook.median7dMeanC, addDays(today, 1), addDays(today, YEAR_DAYS));
  if (likely === null) return null;
  const [early, late] = direction === 'falling' ? [outlook.p10C, outlook.p90C] : [outlook.p90C, outlook.p10C];
  const earliest = passes(early, addDays(likely, -40), likely) ?? likely;
  const latest = passes(late, likely, addDays(likely, 40)) ?? likely;
  return { earliest: Math.min(earliest, likely) as CivilDay, likely, latest };
}

/** First day of a run of seven beyond the threshold that begins after a day on its other side. */
function firstPassing(
  series: readonly number[],
  first: CivilDay,
  sought: { from: CivilDay; until: CivilDay; thresholdC: number; direction: 'falling' | 'rising' },
): CivilDay | null {
  const isBeyond = (day: number) => {
    const value = series[day - first];
    if (value === undefined) return false;
    return sought.direction === 'falling' ? value < sought.thresholdC : value >= sought.thresholdC;
  };
  for (let day = Math.max(sought.from, first + 1); day <= sought.until; day++) {
    if (isBeyond(day - 1)) continue;
    if (Array.from({ length: 7 }, (_, ahead) => day + ahead).every(isBeyond)) return day as CivilDay;
  }
  return null;
}

export interface YearWordsInput {
  readonly outlook: OutlookSummary;
  readonly today: CivilDay;
  readonly units: UnitSystem;
  readonly feed: readonly FeedSpan[];
  readonly crew: { readonly visits: number; readonly minutes: number };
}

const FEED_SENTENCE: Readonly<Record<FeedKind, string>> = {
  none: 'no feed',
  light: 'light feed',
  staple: 'staple feed',
  early: 'feed early in the day',
};

/** The year in four sentences: feed, ice, the warmest time, the crew. */
export function yearInWords({ outlook, today, units, feed, crew }: YearWordsInput): string[] {
  const water = dailyWater(outlook);
  return [
    feedSentence(feed, today),
    iceSentence(water, today),
    warmestSentence(water, today, units),
    crewSentence(crew),
  ].filter(Boolean);
}

function feedSentence(feed: readonly FeedSpan[], today: CivilDay): string {
  const [now, ...later] = feed;
  if (!now) return '';
  if (later.length === 0) return `${capital(FEED_SENTENCE[now.kind])} all year.`;
  const next = later.slice(0, 3).map((span) => {
    const until = span.until >= today + YEAR_DAYS - 1 ? '' : ` until about ${longDate(span.until)}`;
    return `${FEED_SENTENCE[span.kind]}${until}`;
  });
  return `${capital(FEED_SENTENCE[now.kind])} until about ${longDate(now.until)}, then ${next.join(', then ')}.`;
}

function iceSentence(water: DailyWater, today: CivilDay): string {
  const runs = iceRuns(water, today, addDays(today, YEAR_DAYS));
  if (runs.length > 0) {
    const words = runs.map(({ from, until }) =>
      from <= today ? `until ${longDate(until)}` : `from ${longDate(from)} to ${longDate(until)}`,
    );
    return `Ice is likely ${words.join(' and ')}.`;
  }
  const most = Math.max(
    0,
    ...water.iceShare.slice(Math.max(0, today - water.firstDay), today - water.firstDay + YEAR_DAYS),
  );
  return most < 0.05
    ? 'No ice is to be expected.'
    : `Ice is possible, in about ${Math.max(1, Math.round(most * 10))} winters of 10.`;
}

function warmestSentence(water: DailyWater, today: CivilDay, units: UnitSystem): string {
  const first = today - water.firstDay;
  const year = water.p50C.slice(Math.max(0, first), first + YEAR_DAYS);
  const warmestC = Math.max(...year);
  if (!Number.isFinite(warmestC)) return '';
  // Figures are kept to a tenth of a degree, so the top is flat: its middle is meant.
  const middle = Math.round((year.indexOf(warmestC) + year.lastIndexOf(warmestC)) / 2);
  const day = addDays(water.firstDay, Math.max(0, first) + middle);
  return `Warmest about ${longDate(day)}, at ${showTemperature(warmestC, units)}.`;
}

function crewSentence({ visits, minutes }: YearWordsInput['crew']): string {
  if (minutes === 0) return 'Nothing falls to the crew.';
  const times = visits === 1 ? 'once' : `on about ${visits} days`;
  return `Your crew is wanted ${times}, ${showMinutes(minutes)} in all.`;
}

/** Crew tasks of the coming year, and on how many days they would bundle when their windows meet. */
export function crewYear(marks: readonly (ChartMark & { readonly minutes: number })[], today: CivilDay) {
  const mine = marks
    .filter(({ doneBy, due }) => doneBy === 'technician' && due <= today + YEAR_DAYS)
    .sort((a, b) => a.latest - b.latest);
  let visits = 0;
  let lastDay = Number.NEGATIVE_INFINITY;
  // Each task whose window does not hold the last chosen day opens a new one at its end: the fewest days that do.
  for (const { earliest, latest } of mine) {
    if (earliest <= lastDay) continue;
    visits++;
    lastDay = latest;
  }
  return { visits, minutes: mine.reduce((sum, { minutes }) => sum + minutes, 0) };
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
