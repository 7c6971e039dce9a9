import { Controller, Get, Header } from '@nestjs/common';
import type { Actor } from '../../accounts/index.js';
import { CurrentActor, Roles } from '../shell/access.js';

/** Who is signed in, and the token that every changing request of this session carries in `x-form-token`. */
@Controller('api/session')
@Roles('owner', 'office', 'technician')
export class SessionApiController {
  @Get()
  @Header('Cache-Control', 'no-store')
  session(@CurrentActor() actor: Actor) {
    const { personId, name, role, companyName, units, timeZone, formToken } = actor;
    return { personId, name, role, companyName, units, timeZone, formToken };
  }
}
