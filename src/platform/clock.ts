import { DateTime, Info } from 'luxon';
import type { CivilDay } from '../core/units/civil-day.js';

/** The only place that asks what time it is. Tests and `--as-of` hand in a fixed one. */
export abstract class Clock {
  /** Now, as an instant. */
  abstract now(): DateTime<true>;

  /** Now, in ISO 8601 UTC with milliseconds: the form in which instants are stored. */
  instant(): string {
    return instantText(this.now());
  }

  /** The civil date now in an IANA time zone. */
  today(timeZone: string): CivilDay {
    return civilDayIn(this.now(), timeZone);
  }
}

export class SystemClock extends Clock {
  now(): DateTime<true> {
    return DateTime.utc();
  }
}

/** Stands still until it is set. */
export class FixedClock extends Clock {
  constructor(private at: DateTime<true>) {
    super();
  }

  static at(isoInstant: string): FixedClock {
    return new FixedClock(instantFrom(isoInstant));
  }

  now(): DateTime<true> {
    return this.at;
  }

  set(isoInstant: string): void {
    this.at = instantFrom(isoInstant);
  }

  advance(duration: { days?: number; hours?: number; minutes?: number; seconds?: number }): void {
    this.at = this.at.plus(duration);
  }
}

export function instantText(at: DateTime<true>): string {
  return at.toUTC().toISO({ suppressMilliseconds: false });
}

/** Reads an ISO 8601 instant; one without an offset is taken as UTC. */
export function instantFrom(isoInstant: string): DateTime<true> {
  const at = DateTime.fromISO(isoInstant, { zone: 'utc' });
  if (!at.isValid)
    throw new RangeError(`instant: ${isoInstant} is not an ISO 8601 date and time, for example 2026-11-25T06:00:00Z.`);
  return at;
}

/** The civil date of an instant in an IANA time zone. */
export function civilDayIn(at: DateTime<true>, timeZone: string): CivilDay {
  const atMs = at.toMillis();
  return Math.floor((atMs + offsetMinutes(timeZone, atMs) * MS_PER_MINUTE) / MS_PER_DAY) as CivilDay;
}

const MS_PER_MINUTE = 60_000;
const MS_PER_DAY = 86_400_000;
/** Offsets kept, by zone and UTC day: asking for one costs more than all else about a date, and readings share days. */
const MOST_KEPT_OFFSETS = 20_000;
const keptOffsets = new Map<string, number>();

/** Offset of a zone from UTC at an instant; kept for a UTC day that begins and ends with the same one. [minutes] */
function offsetMinutes(timeZone: string, atMs: number): number {
  const utcDay = Math.floor(atMs / MS_PER_DAY);
  const key = `${timeZone} ${utcDay}`;
  const kept = keptOffsets.get(key);
  if (kept !== undefined) return kept;
  const zone = Info.normalizeZone(timeZone);
  if (!zone.isValid) {
    throw new RangeError(`time zone: ${timeZone} is not an IANA time zone, for example America/Chicago.`);
  }
  const morning = zone.offset(utcDay * MS_PER_DAY);
  if (morning !== zone.offset((utcDay + 1) * MS_PER_DAY - 1)) return zone.offset(atMs);
  if (keptOffsets.size >= MOST_KEPT_OFFSETS) keptOffsets.clear();
  keptOffsets.set(key, morning);
  return morning;
}
