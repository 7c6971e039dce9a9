import { Controller, Param, ParseUUIDPipe, Post, Res } from '@nestjs/common';
import type { Response } from 'express';
import type { Actor } from '../../../accounts/index.js';
import { ReportHolds } from '../../../reminders/index.js';
import { CheckIns, VisitLeavings } from '../../../visits/index.js';
import { CurrentActor, Roles } from '../../shell/access.js';

/** Settles, from This week, what visits left for the office. */
@Controller()
@Roles('owner', 'office')
export class VisitAttentionController {
  constructor(
    private readonly checkIns: CheckIns,
    private readonly leavings: VisitLeavings,
    private readonly holds: ReportHolds,
  ) {}

  @Post('check-ins/:id/settling')
  async reached(
    @CurrentActor() actor: Actor,
    @Param('id', ParseUUIDPipe) id: string,
    @Res() response: Response,
  ): Promise<void> {
    await this.checkIns.settle(actor.companyId, id, actor.personId);
    response.redirect(303, '/');
  }

  @Post('follow-ups/:id/settling')
  async settle(
    @CurrentActor() actor: Actor,
    @Param('id', ParseUUIDPipe) id: string,
    @Res() response: Response,
  ): Promise<void> {
    await this.leavings.settle(actor.companyId, id, actor.personId);
    response.redirect(303, '/');
  }

  @Post('visits/:visitId/report/release')
  async release(
    @CurrentActor() actor: Actor,
    @Param('visitId', ParseUUIDPipe) visitId: string,
    @Res() response: Response,
  ): Promise<void> {
    await this.holds.release(actor.companyId, visitId);
    response.redirect(303, '/');
  }
}
