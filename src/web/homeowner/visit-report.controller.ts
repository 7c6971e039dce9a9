import { Controller, Get, Param, Query, Req, Res, UseFilters } from '@nestjs/common';
import type { Request, Response } from 'express';
import { VisitReportMails } from '../../reminders/index.js';
import { PhotoNotFoundError, VisitPhotos, VisitsService } from '../../visits/index.js';
import { fileName, sendPaper, VisitReportPapers } from '../papers/index.js';
import { sendPhoto, sizeAsked } from '../photos/index.js';
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
    private readonly photos: VisitPhotos,
    private readonly papers: VisitReportPapers,
  ) {}

  @Get()
  async show(@Param('token') token: string, @Res() response: Response): Promise<void> {
    const { history, homeowner } = await this.theirs(token);
    const spoken = this.reports.spoken(history, homeowner.units);
    const href = `/l/visit-report/${token}`;
    const photos = history.photos.map(({ id }) => `${href}/photos/${id}`);
    sendLinkPage(response, visitReportPage(homeowner, spoken, { backTo: null, photos, pdf: `${href}/report.pdf` }));
  }

  @Get('report.pdf')
  async paper(@Param('token') token: string, @Res() response: Response): Promise<void> {
    const { history, homeowner } = await this.theirs(token);
    const pdf = await this.papers.pdf(homeowner.company.id, history, homeowner.units);
    sendPaper(response, pdf, fileName(history.pond.pond.name, 'visit', history.visit.plannedOn));
  }

  @Get('photos/:photoId')
  async photo(
    @Param('token') token: string,
    @Param('photoId') photoId: string,
    @Query('size') asked: unknown,
    @Req() request: Request,
    @Res() response: Response,
  ): Promise<void> {
    const { history, homeowner } = await this.theirs(token);
    const size = sizeAsked(asked);
    try {
      const picture = await this.photos.picture(homeowner.company.id, history.visit.id, photoId, size);
      sendPhoto(request, response, picture, size);
    } catch (error) {
      if (error instanceof PhotoNotFoundError) throw new UnknownLinkError();
      throw error;
    }
  }

  /** The visit behind a link, closed and at a pond of whoever the link was made for. @throws UnknownLinkError */
  private async theirs(token: string) {
    const { link, homeowner } = await this.opened.homeowner('visit-report', token);
    const history = await this.visits.history(homeowner.company.id, link.objectId).catch(() => null);
    const isTheirs = homeowner.allPonds.some(({ id }) => id === history?.visit.pondId);
    if (!history || !isTheirs || history.visit.state !== 'COMPLETED') throw new UnknownLinkError();
    return { history, homeowner };
  }
}
