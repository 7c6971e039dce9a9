import { Controller, Get, Inject, Param, Res } from '@nestjs/common';
import type { Response } from 'express';
import { CompaniesService, LinksService, PlacesService, SessionsService } from '../../accounts/index.js';
import { SETTINGS, type Settings } from '../../config/index.js';
import { DomainError } from '../../core/errors.js';
import { Clock } from '../../platform/clock.js';
import { Public } from '../shell/access.js';
import { beginInBrowser, startPageOf } from './begin-in-browser.js';

/** The link is unknown, has ended, or is not one of the demo company's. */
export class DemoLinkUnknownError extends DomainError {
  readonly code = 'not-found';

  constructor() {
    super('This sign-in link is not known here. The links of the demo are printed when it starts.');
  }
}

/** Signs in without typing, in the demo company only: its people are invented, so there is nothing to protect. */
@Controller('l/demo-sign-in')
@Public()
export class DemoLinkController {
  constructor(
    private readonly links: LinksService,
    private readonly companies: CompaniesService,
    private readonly places: PlacesService,
    private readonly sessions: SessionsService,
    private readonly clock: Clock,
    @Inject(SETTINGS) private readonly settings: Settings,
  ) {}

  @Get(':token')
  async follow(@Param('token') token: string, @Res() response: Response): Promise<void> {
    const link = await this.links.resolve('demo-sign-in', token);
    if (!link?.personId) throw new DemoLinkUnknownError();
    const company = await this.companies.get(link.issuedByCompanyId);
    if (!company.isDemo) throw new DemoLinkUnknownError();

    const places = (await this.places.of(link.personId)).filter(
      // A homeowner has no place to sign in to: their demo link is one to their pond.
      ({ companyId, role }) => companyId === company.id && role !== 'homeowner',
    );
    const place = places.find(({ role }) => role === link.objectId) ?? places[0];
    if (!place) throw new DemoLinkUnknownError();
    const signedIn = await this.sessions.start(link.personId, place.companyId, place.role);
    beginInBrowser(response, signedIn, this.clock.now(), this.settings);
    response.redirect(303, startPageOf(place.role));
  }
}
