import { Injectable, type NestMiddleware } from '@nestjs/common';
import * as cookie from 'cookie';
import type { NextFunction, Response } from 'express';
import { SessionsService } from '../../accounts/index.js';
import type { RequestWithActor } from './access.js';

export const SESSION_COOKIE = 'tarnkeep_session';

/** Finds the person behind the session cookie. */
@Injectable()
export class SessionMiddleware implements NestMiddleware {
  constructor(private readonly sessions: SessionsService) {}

  async use(request: RequestWithActor, _response: Response, next: NextFunction): Promise<void> {
    const token = cookie.parse(request.headers.cookie ?? '')[SESSION_COOKIE];
    request.actor = token ? await this.sessions.actorOf(token) : null;
    next();
  }
}

/** Hands the session to the browser. `secure` follows the public address: plain http only on this machine. */
export function setSessionCookie(
  response: Response,
  token: string,
  options: { secure: boolean; maxAgeMs: number },
): void {
  response.cookie(SESSION_COOKIE, token, {
    httpOnly: true,
    sameSite: 'lax',
    path: '/',
    secure: options.secure,
    maxAge: options.maxAgeMs,
  });
}

export function clearSessionCookie(response: Response): void {
  response.clearCookie(SESSION_COOKIE, { path: '/' });
}
