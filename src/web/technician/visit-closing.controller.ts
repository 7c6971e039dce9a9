import { Body, Controller, HttpCode, Param, Post } from '@nestjs/common';
import type { Actor } from '../../accounts/index.js';
import { type ClosingAnswer, VisitsService } from '../../visits/index.js';
import { CurrentActor, Roles } from '../shell/access.js';
import { ZodPipe } from '../shell/zod.pipe.js';
import { type CloseVisitBody, CloseVisitSchema } from './close-visit.schema.js';

/** The closing of a visit as JSON. Idempotent by `closingId`: the same closing gets the same answer, always 200. */
@Controller('api/visits/:visitId/closing')
@Roles('technician', 'office', 'owner')
export class VisitClosingController {
  constructor(private readonly visits: VisitsService) {}

  @Post()
  @HttpCode(200)
  create(
    @CurrentActor() actor: Actor,
    @Param('visitId') visitId: string,
    @Body(new ZodPipe(CloseVisitSchema)) closing: CloseVisitBody,
  ): Promise<ClosingAnswer> {
    return this.visits.close(actor, visitId, closing);
  }
}
