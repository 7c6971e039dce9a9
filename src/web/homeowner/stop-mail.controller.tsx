import { Controller, Get, HttpCode, Param, Post, Res, UseFilters } from '@nestjs/common';
import type { Response } from 'express';
import { type Homeowner, MailWishesService } from '../../reminders/index.js';
import { Public, WithoutFormToken } from '../shell/access.js';
import { goTo, linkPage, sendLinkPage } from './link-page.js';
import { OpenedLinks } from './opened-link.service.js';
import { UnknownLinkFilter } from './unknown-link.filter.js';

/**
 * Stops all mail of a company to one person. Mail programs post here without a cookie and without asking (RFC 8058,
 * urlencoded or multipart): the answer is 200, never a redirect. The same post comes from the button of the page.
 */
@Controller('l/stop-mail')
@Public()
@UseFilters(UnknownLinkFilter)
export class StopMailController {
  constructor(
    private readonly opened: OpenedLinks,
    private readonly wishes: MailWishesService,
  ) {}

  @Get(':token')
  async show(@Param('token') token: string, @Res() response: Response): Promise<void> {
    const { homeowner } = await this.opened.homeowner('stop-mail', token);
    const path = `/l/stop-mail/${token}`;
    sendLinkPage(response, homeowner.isStopped ? stoppedPage(homeowner, path) : askPage(homeowner, path));
  }

  @Post(':token')
  @HttpCode(200)
  @WithoutFormToken()
  async stop(@Param('token') token: string, @Res() response: Response): Promise<void> {
    const { homeowner } = await this.opened.homeowner('stop-mail', token);
    await this.wishes.stop(homeowner.company.id, homeowner.personId);
    sendLinkPage(response, stoppedPage(homeowner, `/l/stop-mail/${token}`));
  }

  @Post(':token/undo')
  @WithoutFormToken()
  async resume(@Param('token') token: string, @Res() response: Response): Promise<void> {
    const { homeowner } = await this.opened.homeowner('stop-mail', token);
    await this.wishes.resume(homeowner.company.id, homeowner.personId);
    goTo(response, `/l/stop-mail/${token}`);
  }
}

function askPage({ company }: Homeowner, path: string): string {
  return linkPage({
    title: 'Stop all mail',
    crumb: company.name,
    isDemo: company.isDemo,
    heading: 'Stop all mail?',
    lead: `${company.name} then sends you no more mail, and calls you when something is urgent. Care of the pond goes on.`,
    children: (
      <form class="slip-form" method="post" action={path}>
        <input type="hidden" name="List-Unsubscribe" value="One-Click" />
        <p class="acts">
          <button type="submit" class="btn first">
            Stop all mail
          </button>
        </p>
      </form>
    ),
  });
}

function stoppedPage({ company }: Homeowner, path: string): string {
  return linkPage({
    title: 'Mail is stopped',
    crumb: company.name,
    isDemo: company.isDemo,
    heading: 'Mail is stopped',
    lead: `${company.name} sends you no more mail. What is already on its way may still arrive.`,
    children: (
      <form class="slip-form" method="post" action={`${path}/undo`}>
        <p class="q">Stopped by mistake?</p>
        <p class="acts">
          <button type="submit" class="btn">
            Send me mail again
          </button>
        </p>
      </form>
    ),
  });
}
