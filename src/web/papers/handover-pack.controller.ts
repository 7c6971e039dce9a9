import { Controller, Get, Param, ParseUUIDPipe, Res } from '@nestjs/common';
import type { Response } from 'express';
import type { Actor } from '../../accounts/index.js';
import { CurrentActor, Roles } from '../shell/access.js';
import { HandoverPacks } from './handover-packs.service.js';
import { sendPaper } from './send-paper.js';
import { fileName } from './visit-report-papers.service.js';

/** The handover pack of a pond as PDF. */
@Controller('ponds/:pondId/handover-pack.pdf')
@Roles('owner', 'office')
export class HandoverPackController {
  constructor(private readonly packs: HandoverPacks) {}

  @Get()
  async show(
    @CurrentActor() actor: Actor,
    @Param('pondId', ParseUUIDPipe) pondId: string,
    @Res() response: Response,
  ): Promise<void> {
    const { pondName, pdf } = await this.packs.pdf(actor, pondId);
    sendPaper(response, pdf, fileName(pondName, 'handover pack'));
  }
}
