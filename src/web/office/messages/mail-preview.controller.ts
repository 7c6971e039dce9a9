import { Controller, Get, Header, Param, ParseUUIDPipe, Query, Res } from '@nestjs/common';
import type { Response } from 'express';
import { z } from 'zod';
import type { Actor } from '../../../accounts/index.js';
import { type Homeowner, HomeownersService, MailNotFoundError, MailPreview } from '../../../reminders/index.js';
import { CurrentActor, Roles } from '../../shell/access.js';
import { ZodPipe } from '../../shell/zod.pipe.js';
import { sendFramed } from './framed-mail.js';
import { mailPreviewPage, previewListPage } from './mail-preview.view.js';
import { standaloneHtml } from './message.view-model.js';

const MOST_SHOWN = 50;
const HTML = 'text/html; charset=utf-8';
const SearchSchema = z.object({ search: z.string().trim().max(200).catch('') });
type Search = z.output<typeof SearchSchema>;

/** The weekly mail as any homeowner would get it now; nothing is written or sent. */
@Controller('messages/preview')
@Roles('owner', 'office')
export class MailPreviewController {
  constructor(
    private readonly homeowners: HomeownersService,
    private readonly preview: MailPreview,
  ) {}

  @Get()
  @Header('Content-Type', HTML)
  async list(@CurrentActor() actor: Actor, @Query(new ZodPipe(SearchSchema)) { search }: Search): Promise<string> {
    const all = await this.homeowners.all(actor.companyId);
    const found = all.filter((one) => matches(one, search.toLowerCase()));
    return previewListPage(actor, {
      search,
      total: found.length,
      rows: found.slice(0, MOST_SHOWN).map(({ personId, name, ponds }) => ({
        href: `/messages/preview/${personId}`,
        name,
        ponds: ponds.map((pond) => pond.name).join(', '),
      })),
    });
  }

  @Get(':personId')
  @Header('Content-Type', HTML)
  async show(@CurrentActor() actor: Actor, @Param('personId', ParseUUIDPipe) personId: string): Promise<string> {
    const { homeowner, mail } = await this.find(actor, personId);
    return mailPreviewPage(actor, {
      name: homeowner.name,
      subject: mail?.subject ?? null,
      plainText: mail?.plainText ?? '',
      frame: `/messages/preview/${personId}/html`,
    });
  }

  @Get(':personId/html')
  async html(
    @CurrentActor() actor: Actor,
    @Param('personId', ParseUUIDPipe) personId: string,
    @Res() response: Response,
  ): Promise<void> {
    const { mail } = await this.find(actor, personId);
    if (!mail) throw new MailNotFoundError(personId);
    sendFramed(response, standaloneHtml({ html: mail.html, pictures: [...(mail.pictures ?? [])] }));
  }

  private async find(actor: Actor, personId: string) {
    const found = await this.preview.of(actor.companyId, personId);
    if (!found) throw new MailNotFoundError(personId);
    return found;
  }
}

function matches({ name, email, ponds }: Homeowner, part: string): boolean {
  return [name, email, ...ponds.map((pond) => pond.name)].some((text) => text.toLowerCase().includes(part));
}
