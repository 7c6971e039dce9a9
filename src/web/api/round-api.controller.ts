import { Body, Controller, Get, Headers, HttpCode, Param, ParseUUIDPipe, Post, Res } from '@nestjs/common';
import type { Response } from 'express';
import { z } from 'zod';
import type { Actor } from '../../accounts/index.js';
import { IllegalVisitStepError, VisitAlreadyClosedError, type VisitEntity, VisitsService } from '../../visits/index.js';
import { CurrentActor, Roles } from '../shell/access.js';
import { ZodPipe } from '../shell/zod.pipe.js';
import { RoundInventory } from '../technician/round-inventory.js';

/** When the phone says it was; the server orders by receipt. */
export const VisitStepSchema = z.strictObject({ at: z.iso.datetime({ offset: true }).optional() });
export type VisitStepBody = z.output<typeof VisitStepSchema>;

/** The technician's round as a phone keeps it, and the two steps before a closing. */
@Controller('api')
@Roles('technician', 'office', 'owner')
export class RoundApiController {
  constructor(
    private readonly inventory: RoundInventory,
    private readonly visits: VisitsService,
  ) {}

  /** 304 while nothing a phone keeps has changed. */
  @Get('my-round')
  async round(
    @CurrentActor() actor: Actor,
    @Headers('if-none-match') known: string | undefined,
    @Res() response: Response,
  ): Promise<void> {
    const { round, etag } = await this.inventory.of(actor);
    response.setHeader('Cache-Control', 'private, no-cache');
    response.setHeader('ETag', etag);
    if (known === etag) response.status(304).end();
    else response.json(round);
  }

  @Post('visits/:visitId/on-the-way')
  @HttpCode(200)
  setOut(
    @CurrentActor() actor: Actor,
    @Param('visitId', ParseUUIDPipe) visitId: string,
    @Body(new ZodPipe(VisitStepSchema)) _body: VisitStepBody,
  ) {
    return this.step(actor, visitId, () => this.visits.markOnTheWay(actor.companyId, visitId));
  }

  @Post('visits/:visitId/start')
  @HttpCode(200)
  start(
    @CurrentActor() actor: Actor,
    @Param('visitId', ParseUUIDPipe) visitId: string,
    @Body(new ZodPipe(VisitStepSchema)) _body: VisitStepBody,
  ) {
    return this.step(actor, visitId, () => this.visits.start(actor.companyId, visitId));
  }

  /** A step that comes late, after the visit has gone on, changes nothing and is answered like one in time. */
  private async step(actor: Actor, visitId: string, take: () => Promise<VisitEntity>) {
    try {
      return stepJson(await take(), true);
    } catch (error) {
      if (!(error instanceof IllegalVisitStepError || error instanceof VisitAlreadyClosedError)) throw error;
      return stepJson((await this.visits.get(actor.companyId, visitId)).visit, false);
    }
  }
}

function stepJson({ id, state, onTheWayAt, arrivedAt }: VisitEntity, isTaken: boolean) {
  return { visitId: id, state, onTheWayAt, arrivedAt, isTaken };
}
