import { timingSafeEqual } from 'node:crypto';
import { type CanActivate, type ExecutionContext, ForbiddenException, Injectable } from '@nestjs/common';
import { Reflector } from '@nestjs/core';
import { NO_FORM_TOKEN, type RequestWithActor } from './access.js';

const SAFE_METHODS = new Set(['GET', 'HEAD', 'OPTIONS']);

/**
 * Against cross-site posts: an unsafe request must come from our own pages (Fetch Metadata, or Origin), and one with a
 * session must carry the session's form token in the field `_token` or the header `x-form-token`.
 */
@Injectable()
export class FormTokenGuard implements CanActivate {
  constructor(private readonly reflector: Reflector) {}

  canActivate(context: ExecutionContext): boolean {
    const request = context.switchToHttp().getRequest<RequestWithActor>();
    if (SAFE_METHODS.has(request.method)) return true;
    if (this.reflector.getAllAndOverride<boolean>(NO_FORM_TOKEN, [context.getHandler(), context.getClass()]))
      return true;

    requireOwnForm(request);
    return true;
  }
}

/**
 * Refuses a request that another site sent, or that lacks its session's form token. The guard asks it; a route that takes
 * files asks it itself once the body has been read, because guards run before that.
 */
export function requireOwnForm(request: RequestWithActor): void {
  const site = request.headers['sec-fetch-site'];
  if (site !== undefined && site !== 'same-origin' && site !== 'none') {
    throw new ForbiddenException('This form was sent from another site, so nothing was changed.');
  }
  const origin = request.headers.origin;
  if (origin !== undefined && origin !== 'null' && new URL(origin).host !== request.headers.host) {
    throw new ForbiddenException('This form was sent from another site, so nothing was changed.');
  }
  if (!request.actor) return;

  const sent = request.headers['x-form-token'] ?? (request.body as { _token?: unknown } | undefined)?._token;
  if (typeof sent !== 'string' || !same(sent, request.actor.formToken)) {
    throw new ForbiddenException(
      'This page was open too long or in another session. Load it again and repeat the step; nothing was changed.',
    );
  }
}

function same(sent: string, expected: string): boolean {
  const a = Buffer.from(sent);
  const b = Buffer.from(expected);
  return a.length === b.length && timingSafeEqual(a, b);
}
