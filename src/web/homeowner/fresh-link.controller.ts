import { Body, Controller, HttpCode, Post, Res } from '@nestjs/common';
import type { Response } from 'express';
import { z } from 'zod';
import { FreshLinks } from '../../reminders/index.js';
import { Public, WithoutFormToken } from '../shell/access.js';
import { ZodPipe } from '../shell/zod.pipe.js';
import { sendLinkPage } from './link-page.js';
import { freshLinkSentPage } from './unknown-link.filter.js';

export const FreshLinkSchema = z.object({
  email: z
    .string()
    .trim()
    .max(254, { error: 'email: at most 254 characters.' })
    .pipe(z.email({ error: 'email: write an address such as name@example.com.' })),
});
export type FreshLinkAsked = z.output<typeof FreshLinkSchema>;

@Controller('l/fresh-link')
@Public()
export class FreshLinkController {
  constructor(private readonly freshLinks: FreshLinks) {}

  @Post()
  @HttpCode(200)
  @WithoutFormToken()
  async send(@Body(new ZodPipe(FreshLinkSchema)) { email }: FreshLinkAsked, @Res() response: Response): Promise<void> {
    await this.freshLinks.askedFor(email);
    sendLinkPage(response, freshLinkSentPage());
  }
}
