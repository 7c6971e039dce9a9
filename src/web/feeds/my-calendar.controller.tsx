import { Body, Controller, Get, HttpCode, Param, ParseUUIDPipe, Post, Query, Res, UseFilters } from '@nestjs/common';
import type { Response } from 'express';
import { CalendarFeedsService } from '../../feeds/index.js';
import { goTo, linkPage, OpenedLinks, sendLinkPage, UnknownLinkFilter } from '../homeowner/index.js';
import { Public, WithoutFormToken } from '../shell/access.js';
import { ZodPipe } from '../shell/zod.pipe.js';
import { feedParts } from './feed.view.js';
import { feedLines } from './feed.view-model.js';
import { alarmMinutes, type FeedWishForm, FeedWishSchema } from './feed-wish.schema.js';

/** A homeowner's calendar address, from their own page. */
@Controller('l/my-pond/:token/calendar')
@Public()
@UseFilters(UnknownLinkFilter)
export class MyCalendarController {
  constructor(
    private readonly opened: OpenedLinks,
    private readonly feeds: CalendarFeedsService,
  ) {}

  @Get()
  async show(@Param('token') token: string, @Query('did') did: unknown, @Res() response: Response): Promise<void> {
    const said = did === 'taken-back' ? 'Taken back. That address shows nothing any more.' : null;
    sendLinkPage(response, await this.page(token, null, said));
  }

  @Post()
  @HttpCode(200)
  @WithoutFormToken()
  async give(
    @Param('token') token: string,
    @Body(new ZodPipe(FeedWishSchema)) form: FeedWishForm,
    @Res() response: Response,
  ): Promise<void> {
    const { homeowner } = await this.opened.homeowner('my-pond', token);
    const { address } = await this.feeds.give(homeowner.company.id, homeowner.personId, {
      audience: 'homeowner',
      tasksAs: form.tasksAs,
      alarmMinutesBefore: alarmMinutes(form),
    });
    sendLinkPage(response, await this.page(token, address, null));
  }

  @Post(':feedId/taking-back')
  @WithoutFormToken()
  async takeBack(
    @Param('token') token: string,
    @Param('feedId', ParseUUIDPipe) feedId: string,
    @Res() response: Response,
  ): Promise<void> {
    const { homeowner } = await this.opened.homeowner('my-pond', token);
    await this.feeds.takeBack(homeowner.company.id, homeowner.personId, feedId);
    goTo(response, `/l/my-pond/${token}/calendar?did=taken-back`);
  }

  private async page(token: string, given: string | null, said: string | null): Promise<string> {
    const { homeowner } = await this.opened.homeowner('my-pond', token);
    const { company, personId, name, wish } = homeowner;
    const standing = (await this.feeds.standing(company.id, personId)).filter(
      ({ audience }) => audience === 'homeowner',
    );
    return linkPage({
      title: 'Own calendar',
      crumb: `${company.name}, for ${name}`,
      heading: 'Pond dates in your own calendar',
      lead: 'An address that the calendar on your phone or computer subscribes to.',
      isDemo: company.isDemo,
      isWide: true,
      children: (
        <>
          <p>
            <a href={`/l/my-pond/${token}`}>Back to my pond</a>
          </p>
          {feedParts({
            path: `/l/my-pond/${token}/calendar`,
            lines: feedLines(standing, wish.timeZone),
            given,
            said,
            audiences: [],
          })}
        </>
      ),
    });
  }
}
