import { Controller, Get, Param, Res, UseFilters } from '@nestjs/common';
import type { Response } from 'express';
import { VisitReportMails } from '../../reminders/index.js';
import { VisitsService } from '../../visits/index.js';
import { Public } from '../shell/access.js';
import { sendLinkPage } from './link-page.js';
import { OpenedLinks } from './opened-link.service.js';
import { UnknownLinkError, UnknownLinkFilter } from './unknown-link.filter.js';
import { visitReportPage } from './visit-report.view.js';

/** One visit report, from the link in its mail. */
@Controller('l/visit-report/:token')
@Public()
@UseFilters(UnknownLinkFilter)
export class VisitReportLinkController {
  constructor(
    private readonly opened: OpenedLinks,
    private readonly visits: VisitsService,
    private readonly reports: VisitReportMails,
  ) {}

  @Get()
  async show(@Param('token') token: string, @Res() response: Response): Promise<void> {
    const { link, homeowner } = await this.opened.homeowner('visit-report', token);
    const history = await this.visits.history(homeowner.company.id, link.objectId).catch(() => null);
    const isTheirs = homeowner.allPonds.some(({ id }) => id === history?.visit.pondId);
    if (!history || !isTheirs || history.visit.state !== 'COMPLETED') throw new UnknownLinkError();
    sendLinkPage(response, visitReportPage(homeowner, this.reports.spoken(history, homeowner.units), null));
  }
}
