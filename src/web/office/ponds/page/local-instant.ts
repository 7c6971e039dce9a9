import { DateTime } from 'luxon';
import { InvalidValueError } from '../../../../core/errors.js';

/** The instant of a local date and time as a form's field sends it, with its offset. @throws InvalidValueError */
export function localInstant(local: string, timeZone: string): string {
  const at = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}/.test(local) ? DateTime.fromISO(local, { zone: timeZone }) : null;
  if (!at?.isValid) throw new InvalidValueError('taken', local, 'Write date and time, for example 2026-10-05T17:40.');
  return at.toISO();
}
