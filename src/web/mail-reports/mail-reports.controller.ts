import { createHash, timingSafeEqual } from 'node:crypto';
import { Controller, Headers, HttpCode, Inject, Post, Query, Req, Res } from '@nestjs/common';
import { type Request, type Response, raw } from 'express';
import { SETTINGS, type Settings } from '../../config/index.js';
import { BouncesService } from '../../reminders/index.js';
import { Public, WithoutFormToken } from '../shell/access.js';

const LARGEST = '2mb';
const readMessage = raw({ type: () => true, limit: LARGEST });

/** Takes reports of undelivered mail from a mail server that posts them: the message as it came, and the secret. */
@Controller('mail-reports')
@Public()
export class MailReportsController {
  constructor(
    private readonly bounces: BouncesService,
    @Inject(SETTINGS) private readonly settings: Settings,
  ) {}

  @Post()
  @HttpCode(200)
  @WithoutFormToken()
  async receive(
    @Headers('authorization') authorization: string | undefined,
    @Query('to') to: unknown,
    @Req() request: Request,
    @Res() response: Response,
  ): Promise<void> {
    const { bounces } = this.settings;
    if (bounces === null || !isSame(authorization ?? '', `Bearer ${bounces.secret}`)) {
      response.status(401).json({ detail: 'Send the secret of the setting bounces as Authorization: Bearer.' });
      return;
    }
    const message = await bodyOf(request, response);
    if (message === null) {
      response.status(413).json({ detail: `Send one message of at most ${LARGEST}.` });
      return;
    }
    const outcome = await this.bounces.receive(message, typeof to === 'string' ? [to] : []);
    response.json({ outcome });
  }
}

function isSame(sent: string, expected: string): boolean {
  const digest = (text: string) => createHash('sha256').update(text).digest();
  return timingSafeEqual(digest(sent), digest(expected));
}

function bodyOf(request: Request, response: Response): Promise<Buffer | null> {
  return new Promise((resolve) => {
    readMessage(request, response, (fault?: unknown) => {
      const body: unknown = request.body;
      resolve(fault || !Buffer.isBuffer(body) ? null : body);
    });
  });
}
