import { Body, Controller, Get, HttpCode, Param, ParseUUIDPipe, Post, Query, Res } from '@nestjs/common';
import type { Response } from 'express';
import type { Actor } from '../../accounts/index.js';
import { CalendarFeedsService } from '../../feeds/index.js';
import { CurrentActor, Roles } from '../shell/access.js';
import { formToken, page } from '../shell/layout.js';
import { ZodPipe } from '../shell/zod.pipe.js';
import { feedParts } from './feed.view.js';
import { feedLines } from './feed.view-model.js';
import { alarmMinutes, type FeedWishForm, FeedWishSchema } from './feed-wish.schema.js';

const PATH = '/own-calendar';

/** Calendar addresses of somebody who signs in: their own round, or all visits for the office. */
@Controller('own-calendar')
@Roles('owner', 'office', 'technician')
export class OwnCalendarController {
  constructor(private readonly feeds: CalendarFeedsService) {}

  @Get()
  async show(@CurrentActor() actor: Actor, @Query('did') did: unknown, @Res() response: Response): Promise<void> {
    const said = did === 'taken-back' ? 'Taken back. That address shows nothing any more.' : null;
    await this.send(actor, response, null, said);
  }

  @Post()
  @HttpCode(200)
  async give(
    @CurrentActor() actor: Actor,
    @Body(new ZodPipe(FeedWishSchema)) form: FeedWishForm,
    @Res() response: Response,
  ): Promise<void> {
    const audience = actor.role === 'technician' ? 'technician' : form.audience;
    const wish = { audience, tasksAs: form.tasksAs, alarmMinutesBefore: alarmMinutes(form) };
    const { address } = await this.feeds.give(actor.companyId, actor.personId, wish);
    response.setHeader('Cache-Control', 'no-store');
    await this.send(actor, response, address, null);
  }

  @Post(':feedId/taking-back')
  async takeBack(
    @CurrentActor() actor: Actor,
    @Param('feedId', ParseUUIDPipe) feedId: string,
    @Res() response: Response,
  ): Promise<void> {
    await this.feeds.takeBack(actor.companyId, actor.personId, feedId);
    response.redirect(303, `${PATH}?did=taken-back`);
  }

  private async send(actor: Actor, response: Response, given: string | null, said: string | null): Promise<void> {
    const standing = await this.feeds.standing(actor.companyId, actor.personId);
    const audiences =
      actor.role === 'technician'
        ? [{ value: 'technician', label: 'my round' }]
        : [
            { value: 'company', label: 'all visits of the company' },
            { value: 'technician', label: 'my own round' },
          ];
    const html = page({
      title: 'Own calendar',
      actor,
      children: (
        <>
          <div class="head">
            <div>
              <h1>Visits in your own calendar</h1>
              <p class="lead">An address that a calendar on a phone or a computer subscribes to.</p>
            </div>
          </div>
          {feedParts({
            path: PATH,
            lines: feedLines(standing, actor.timeZone),
            given,
            said,
            audiences,
            token: formToken(actor),
          })}
        </>
      ),
    });
    response.type('html').send(html);
  }
}
