import type { DateTime } from 'luxon';
import { addDays, civilDay } from '../core/units/civil-day.js';
import { instantFrom, instantText } from '../platform/clock.js';
import { isNight, localInstant } from './digest-time.js';
import type { MailOutboxEntity } from './mail-outbox.entity.js';

/** When the morning begins for mails that wait for it. Local hour. */
export const MORNING_HOUR = 8;

type Timed = Pick<MailOutboxEntity, 'timeZone' | 'datedAt'>;

/**
 * The morning that a mail waits for when it would go out at night, outside 8 to 20 in its zone; null when it may go.
 * The hour it was written for is never night: the homeowner chose it.
 */
export function quietUntil({ timeZone, datedAt }: Timed, at: DateTime<true>): string | null {
  if (timeZone === null) return null;
  const { hour } = instantFrom(datedAt).setZone(timeZone);
  return isNight(at, { hour, timeZone }) ? instantText(nextMorning(at, timeZone)) : null;
}

/** Eight in the morning, today where it is still to come. */
export function nextMorning(at: DateTime<true>, timeZone: string): DateTime<true> {
  const local = at.setZone(timeZone) as DateTime<true>;
  const today = civilDay(local.toISODate());
  return localInstant(local.hour < MORNING_HOUR ? today : addDays(today, 1), MORNING_HOUR, timeZone);
}
