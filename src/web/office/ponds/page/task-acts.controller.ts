import { Body, Controller, Param, ParseUUIDPipe, Post, Res } from '@nestjs/common';
import type { Response } from 'express';
import type { Actor } from '../../../../accounts/index.js';
import { CareCalendarService } from '../../../../care-calendar/index.js';
import { typedFields } from '../../../forms/form-faults.js';
import { CurrentActor, Roles } from '../../../shell/access.js';

/** What the office does with a task of a pond. Each answers with the pond's page and the way back. */
@Controller('ponds/:pondId/tasks/:taskId')
@Roles('owner', 'office')
export class PondTaskActsController {
  constructor(private readonly calendar: CareCalendarService) {}

  @Post('completion')
  async complete(
    @CurrentActor() actor: Actor,
    @Param('pondId', ParseUUIDPipe) pondId: string,
    @Param('taskId', ParseUUIDPipe) taskId: string,
    @Res() response: Response,
    @Body() body: unknown,
  ): Promise<void> {
    const { on, because: asked } = typedFields(body);
    const because = asked === 'done-by-other-means' ? asked : 'done';
    await this.calendar.complete(actor.companyId, taskId, { by: actor.personId, because, ...(on && { on }) });
    back(response, pondId, because, taskId);
  }

  @Post('cancellation')
  async cancel(
    @CurrentActor() actor: Actor,
    @Param('pondId', ParseUUIDPipe) pondId: string,
    @Param('taskId', ParseUUIDPipe) taskId: string,
    @Res() response: Response,
  ): Promise<void> {
    await this.calendar.cancel(actor.companyId, taskId, { by: actor.personId, because: 'not-applicable' });
    back(response, pondId, 'not-applicable', taskId);
  }

  @Post('reopening')
  async reopen(
    @CurrentActor() actor: Actor,
    @Param('pondId', ParseUUIDPipe) pondId: string,
    @Param('taskId', ParseUUIDPipe) taskId: string,
    @Res() response: Response,
  ): Promise<void> {
    await this.calendar.reopen(actor.companyId, taskId, { by: actor.personId });
    back(response, pondId, 'reopened', taskId);
  }

  @Post('hold')
  async hold(
    @CurrentActor() actor: Actor,
    @Param('pondId', ParseUUIDPipe) pondId: string,
    @Param('taskId', ParseUUIDPipe) taskId: string,
    @Res() response: Response,
    @Body() body: unknown,
  ): Promise<void> {
    await this.calendar.hold(actor.companyId, taskId, typedFields(body).on ?? '');
    back(response, pondId, 'held', taskId);
  }

  @Post('release')
  async release(
    @CurrentActor() actor: Actor,
    @Param('pondId', ParseUUIDPipe) pondId: string,
    @Param('taskId', ParseUUIDPipe) taskId: string,
    @Res() response: Response,
  ): Promise<void> {
    await this.calendar.release(actor.companyId, taskId);
    back(response, pondId, 'released', taskId);
  }
}

function back(response: Response, pondId: string, did: string, taskId: string): void {
  response.redirect(303, `/ponds/${pondId}?did=${did}&task=${taskId}#calendar`);
}
