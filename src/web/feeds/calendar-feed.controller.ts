import { Controller, Get, Param, Req, Res } from '@nestjs/common';
import type { Request, Response } from 'express';
import { CalendarFeedNotFoundError, CalendarFeedsService } from '../../feeds/index.js';
import { Public } from '../shell/access.js';

/** A subscribed calendar, read by a calendar program: no session, the address is the right to read. */
@Controller('feeds')
@Public()
export class CalendarFeedController {
  constructor(private readonly feeds: CalendarFeedsService) {}

  @Get(':file')
  async read(@Param('file') file: string, @Req() request: Request, @Res() response: Response): Promise<void> {
    response.setHeader('Referrer-Policy', 'no-referrer');
    response.setHeader('X-Robots-Tag', 'noindex');
    response.setHeader('Cache-Control', 'private, no-cache');
    try {
      const { text, tag } = await this.feeds.read(file.replace(/\.ics$/, ''));
      response.setHeader('ETag', `"${tag}"`);
      if (request.headers['if-none-match']?.includes(`"${tag}"`)) {
        response.status(304).end();
        return;
      }
      response.type('text/calendar; charset=utf-8').send(text);
    } catch (error) {
      if (!(error instanceof CalendarFeedNotFoundError)) throw error;
      // A calendar program shows no page; 410 makes it stop asking.
      response.status(410).type('text/plain').send(error.message);
    }
  }
}
