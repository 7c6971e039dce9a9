import { DateTime } from 'luxon';
import { contentLine } from './content-line.js';

/** A change of the clock: the instant, and the offsets to each side. */
interface ClockChange {
  readonly at: DateTime<true>;
  readonly fromMinutes: number;
  readonly toMinutes: number;
  readonly isDst: boolean;
  readonly name: string;
}

const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;

/**
 * VTIMEZONE of an IANA zone for the time between two instants: every change of the clock is written out, so that it
 * says exactly what our zone data say, also where a rule changes (RFC 5545 section 3.6.5).
 */
export function timeZoneBlock(timeZone: string, fromMs: number, toMs: number): string[] {
  const start = at(timeZone, fromMs);
  const blocks = [
    observance({
      at: start,
      fromMinutes: start.offset,
      toMinutes: start.offset,
      isDst: start.isInDST,
      name: nameOf(start),
    }),
    ...clockChanges(timeZone, fromMs, toMs).map(observance),
  ];
  return ['BEGIN:VTIMEZONE', contentLine('TZID', timeZone), ...blocks.flat(), 'END:VTIMEZONE'];
}

function clockChanges(timeZone: string, fromMs: number, toMs: number): ClockChange[] {
  const changes: ClockChange[] = [];
  let before = at(timeZone, fromMs);
  for (let ms = fromMs + DAY_MS; ms <= toMs + DAY_MS; ms += DAY_MS) {
    const after = at(timeZone, ms);
    if (after.offset !== before.offset) {
      const first = firstWithOffset(timeZone, ms - DAY_MS, ms, after.offset);
      changes.push({
        at: first,
        fromMinutes: before.offset,
        toMinutes: after.offset,
        isDst: first.isInDST,
        name: nameOf(first),
      });
    }
    before = after;
  }
  return changes;
}

/** First minute between two instants at which the zone has the offset it has at the second. */
function firstWithOffset(timeZone: string, lowMs: number, highMs: number, offset: number): DateTime<true> {
  let [low, high] = [lowMs, highMs];
  while (high - low > 60_000) {
    const middle = low + Math.floor((high - low) / 120_000) * 60_000;
    if (at(timeZone, middle).offset === offset) high = middle;
    else low = middle;
  }
  return at(timeZone, high).startOf('minute');
}

/** The local time of a change is written in the offset that held before it. */
function observance({ at: instant, fromMinutes, toMinutes, isDst, name }: ClockChange): string[] {
  const kind = isDst ? 'DAYLIGHT' : 'STANDARD';
  const onset = instant.toUTC().plus({ minutes: fromMinutes });
  return [
    `BEGIN:${kind}`,
    contentLine('DTSTART', onset.toFormat("yyyyMMdd'T'HHmmss")),
    contentLine('TZOFFSETFROM', offsetText(fromMinutes)),
    contentLine('TZOFFSETTO', offsetText(toMinutes)),
    contentLine('TZNAME', name),
    `END:${kind}`,
  ];
}

function at(timeZone: string, ms: number): DateTime<true> {
  const instant = DateTime.fromMillis(ms, { zone: timeZone });
  if (!instant.isValid)
    throw new RangeError(`time zone: ${timeZone} is not an IANA time zone, for example America/Chicago.`);
  return instant;
}

function nameOf(instant: DateTime<true>): string {
  return instant.setLocale('en-US').offsetNameShort ?? instant.toFormat('ZZ');
}

function offsetText(minutes: number): string {
  const size = Math.abs(minutes);
  const two = (value: number) => String(value).padStart(2, '0');
  return `${minutes < 0 ? '-' : '+'}${two(Math.floor(size / 60))}${two(size % 60)}`;
}
