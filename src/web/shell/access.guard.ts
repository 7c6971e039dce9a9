import {
  type CanActivate,
  type ExecutionContext,
  ForbiddenException,
  Injectable,
  UnauthorizedException,
} from '@nestjs/common';
import { Reflector } from '@nestjs/core';
import { ACCESS, type RequestWithActor, type Role } from './access.js';

/** Refuses a route that declares no access, a visitor who is not signed in, and a role that is not named. */
@Injectable()
export class AccessGuard implements CanActivate {
  constructor(private readonly reflector: Reflector) {}

  canActivate(context: ExecutionContext): boolean {
    const access = this.reflector.getAllAndOverride<readonly Role[] | 'public' | undefined>(ACCESS, [
      context.getHandler(),
      context.getClass(),
    ]);
    if (access === 'public') return true;
    if (access === undefined) throw new ForbiddenException('This address declares nobody who may call it.');

    const { actor } = context.switchToHttp().getRequest<RequestWithActor>();
    if (!actor) throw new UnauthorizedException('Sign in first.');
    if (!access.includes(actor.role)) throw new ForbiddenException('Your role does not reach this page.');
    return true;
  }
}
