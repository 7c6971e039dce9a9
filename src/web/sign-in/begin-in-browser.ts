import type { Response } from 'express';
import type { DateTime } from 'luxon';
import type { SignedIn } from '../../accounts/index.js';
import type { Settings } from '../../config/index.js';
import { instantFrom } from '../../platform/clock.js';
import { setSessionCookie } from '../shell/session.middleware.js';

/** Hands a session that has begun to the browser, for as long as it lasts. */
export function beginInBrowser(
  response: Response,
  signedIn: SignedIn,
  now: DateTime<true>,
  settings: Pick<Settings, 'publicUrl'>,
): void {
  setSessionCookie(response, signedIn.token, {
    secure: settings.publicUrl.startsWith('https:'),
    maxAgeMs: Math.max(0, instantFrom(signedIn.expiresAt).diff(now).toMillis()),
  });
}

/** The page a role starts on. */
export function startPageOf(role: SignedIn['role']): string {
  return role === 'technician' ? '/my-round' : '/';
}
