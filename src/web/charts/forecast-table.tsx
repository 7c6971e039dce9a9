import { addDays, type CivilDay, dayFromParts, monthOf, yearOf } from '../../core/units/civil-day.js';
import { showTemperature, type UnitSystem } from '../../core/units/show.js';
import type { DailyWater, FeedKind, FeedSpan } from './chart-figures.js';
import { monthName, shortDate } from './show-date.js';

const FEED_WORDS: Readonly<Record<FeedKind, string>> = {
  none: 'none',
  light: 'light feed',
  staple: 'staple feed',
  early: 'feed early in the day',
};

/** The forecast's figures, month by month, in a disclosure under the drawing. */
export function forecastTable(figures: {
  today: CivilDay;
  units: UnitSystem;
  water: DailyWater;
  feed: readonly FeedSpan[];
}): JSX.Element {
  const rows = monthRows(figures);
  return (
    <details class="why">
      <summary>
        <u>The same as a table</u>
      </summary>
      <section class="box scroll" tabindex="0" aria-label="Water forecast, month by month">
        <table>
          <thead>
            <tr>
              <th scope="col">Month</th>
              <th scope="col" class="r">
                Median
              </th>
              <th scope="col" class="r">
                Likely band
              </th>
              <th scope="col" class="r">
                Days with ice likely
              </th>
              {figures.feed.length > 0 ? <th scope="col">Feed</th> : ''}
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <tr>
                <th scope="row" safe>
                  {row.month}
                </th>
                <td class="r" safe>
                  {row.median}
                </td>
                <td class="r" safe>
                  {row.band}
                </td>
                <td class="r">{row.iceDays}</td>
                {figures.feed.length > 0 ? <td safe>{row.feed}</td> : ''}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </details>
  );
}

function monthRows({ today, units, water, feed }: Parameters<typeof forecastTable>[0]) {
  const rows: { month: string; median: string; band: string; iceDays: number; feed: string }[] = [];
  const end = addDays(today, 365);
  for (let ahead = 0; ahead < 13; ahead++) {
    const from = dayFromParts(yearOf(today), monthOf(today) + ahead, 1);
    const until = addDays(dayFromParts(yearOf(from), monthOf(from) + 1, 1), -1);
    const days = daysOf(Math.max(from, today), Math.min(until, end), water);
    if (days.length < 5) continue;
    rows.push({
      month: `${monthName(monthOf(from))}${ahead === 0 || monthOf(from) === 1 ? ` ${yearOf(from)}` : ''}`,
      median: showTemperature(mean(days, water.p50C), units),
      band: `${showTemperature(mean(days, water.p10C), units).split(' ')[0]} to ${showTemperature(mean(days, water.p90C), units)}`,
      iceDays: days.filter((index) => (water.iceShare[index] ?? 0) >= 0.5).length,
      feed: feedOf(from, until, feed),
    });
  }
  return rows;
}

/** Indexes into the series. */
function daysOf(from: number, until: number, water: DailyWater): number[] {
  const indexes: number[] = [];
  for (
    let index = Math.max(0, from - water.firstDay);
    index <= until - water.firstDay && index < water.p50C.length;
    index++
  )
    indexes.push(index);
  return indexes;
}

function mean(indexes: readonly number[], series: readonly number[]): number {
  return indexes.reduce((sum, index) => sum + (series[index] ?? 0), 0) / indexes.length;
}

function feedOf(from: CivilDay, until: CivilDay, feed: readonly FeedSpan[]): string {
  return feed
    .filter((span) => span.from <= until && span.until >= from)
    .map((span) => `${FEED_WORDS[span.kind]}${span.until < until ? ` to ${shortDate(span.until)}` : ''}`)
    .join(', then ');
}
