import { createParamDecorator, type ExecutionContext, SetMetadata } from '@nestjs/common';
import type { Request } from 'express';
import type { Actor } from '../../accounts/index.js';

export type Role = Actor['role'];
export interface RequestWithActor extends Request {
  actor?: Actor | null;
}

/** Every route says who may call it: `@Roles(...)` or `@Public()`. A route that says neither is refused. */
export const ACCESS = 'tarnkeep:access';
export const Roles = (...roles: readonly Role[]) => SetMetadata(ACCESS, roles);
/** Open to everybody: sign-in, assets, and pages behind a signed link (which check their own token). */
export const Public = () => SetMetadata(ACCESS, 'public');

/** A post that comes from a mail program or a page without a session: its own token stands in for the form token. */
export const NO_FORM_TOKEN = 'tarnkeep:no-form-token';
export const WithoutFormToken = () => SetMetadata(NO_FORM_TOKEN, true);

/** The person of this session. Only on routes with `@Roles`. */
export const CurrentActor = createParamDecorator((_data: unknown, context: ExecutionContext): Actor => {
  const actor = context.switchToHttp().getRequest<RequestWithActor>().actor;
  if (!actor) throw new Error('This route has no signed-in person: declare it with @Roles.');
  return actor;
});
