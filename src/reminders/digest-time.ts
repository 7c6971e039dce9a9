import { DateTime } from 'luxon';
import { addDays, type CivilDay, civilDay, isoDateOf } from '../core/units/civil-day.js';

/** When a homeowner wants their weekly mail: ISO weekday (1 Monday to 7 Sunday) and local hour. */
export interface DigestWish {
  readonly weekday: number;
  readonly hour: number;
  /** IANA name. */
  readonly timeZone: string;
}

export interface DigestMoment {
  /** Local civil date: with the person it is the key of the digest. */
  readonly on: CivilDay;
  readonly at: DateTime<true>;
}

/** A digest missed by downtime is still sent within this time; after it the next one is soon enough. [hours] */
const CATCH_UP_HOURS = 72;
/** After a change of day two digests are never closer than this. [days] */
const CLOSEST_DIGESTS_DAYS = 5;
const DAY_STARTS_AT = 8;
const DAY_ENDS_AT = 20;

/**
 * The instant of a local wall time. A time that does not exist is read with the offset before the gap, one that comes
 * twice is the first (RFC 5545 section 3.3.5).
 */
export function localInstant(on: CivilDay, hour: number, timeZone: string): DateTime<true> {
  const [year, month, day] = isoDateOf(on).split('-').map(Number);
  const at = DateTime.fromObject({ year, month, day, hour }, { zone: timeZone });
  if (!at.isValid)
    throw new RangeError(`time zone: ${timeZone} is not an IANA time zone, for example America/Chicago.`);
  const candidates = at.getPossibleOffsets() as DateTime<true>[];
  const first = candidates.reduce((a, b) => (b.toMillis() < a.toMillis() ? b : a), at as DateTime<true>);
  return first.toUTC() as DateTime<true>;
}

/** The last moment at or before `now` at which a digest was wanted. */
export function latestDigestMoment(now: DateTime<true>, wish: DigestWish): DigestMoment {
  const local = now.setZone(wish.timeZone);
  if (!local.isValid) throw new RangeError(`time zone: ${wish.timeZone} is not an IANA time zone.`);
  const today = civilDay(local.toISODate());
  const back = (local.weekday - wish.weekday + 7) % 7;
  for (const days of [back, back + 7]) {
    const on = addDays(today, -days);
    const at = localInstant(on, wish.hour, wish.timeZone);
    if (at <= now) return { on, at };
  }
  throw new Error('unreachable: a digest moment lies in every eight days');
}

/**
 * The digest that is due now, or null. Missed ones are caught up within three days, by day only; never two closer
 * than five days.
 */
export function digestDue(
  now: DateTime<true>,
  wish: DigestWish,
  known: { readonly since: CivilDay; readonly lastDigestOn: CivilDay | null },
): DigestMoment | null {
  const moment = latestDigestMoment(now, wish);
  if (moment.on < known.since) return null;
  if (known.lastDigestOn !== null && moment.on - known.lastDigestOn < CLOSEST_DIGESTS_DAYS) return null;
  if (now.diff(moment.at, 'hours').hours > CATCH_UP_HOURS) return null;
  return isNight(now, wish) ? null : moment;
}

/** Whether mail should wait for the morning: outside 8 to 20 local, unless it is the hour the homeowner chose. */
export function isNight(now: DateTime<true>, wish: Pick<DigestWish, 'hour' | 'timeZone'>): boolean {
  const { hour } = now.setZone(wish.timeZone);
  return hour !== wish.hour && (hour < DAY_STARTS_AT || hour >= DAY_ENDS_AT);
}

/** When an urgent mail may leave: at once by day, or whenever its last day has come; else at eight in the morning. */
export function urgentNotBefore(now: DateTime<true>, latest: CivilDay, wish: DigestWish): DateTime<true> {
  const local = now.setZone(wish.timeZone) as DateTime<true>;
  const today = civilDay(local.toISODate());
  if (!isNight(now, { hour: DAY_STARTS_AT, timeZone: wish.timeZone }) || latest <= today) return now;
  const morning = local.hour < DAY_STARTS_AT ? today : addDays(today, 1);
  return localInstant(morning, DAY_STARTS_AT, wish.timeZone);
}
