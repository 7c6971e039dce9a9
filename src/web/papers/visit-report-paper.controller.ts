import { Controller, Get, Param, ParseUUIDPipe, Res } from '@nestjs/common';
import type { Response } from 'express';
import type { Actor } from '../../accounts/index.js';
import { VisitsService } from '../../visits/index.js';
import { CurrentActor, Roles } from '../shell/access.js';
import { sendPaper } from './send-paper.js';
import { fileName, VisitReportPapers } from './visit-report-papers.service.js';

/** The report of a visit as PDF, for the office. */
@Controller('visits/:visitId/report.pdf')
@Roles('owner', 'office')
export class VisitReportPaperController {
  constructor(
    private readonly visits: VisitsService,
    private readonly papers: VisitReportPapers,
  ) {}

  @Get()
  async show(
    @CurrentActor() actor: Actor,
    @Param('visitId', ParseUUIDPipe) visitId: string,
    @Res() response: Response,
  ): Promise<void> {
    const history = await this.visits.history(actor.companyId, visitId);
    const pdf = await this.papers.pdf(actor.companyId, history, actor.units);
    sendPaper(response, pdf, fileName(history.pond.pond.name, 'visit', history.visit.plannedOn));
  }
}
