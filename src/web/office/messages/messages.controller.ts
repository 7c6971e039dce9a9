import {
  Controller,
  Get,
  Header,
  HttpCode,
  Inject,
  Param,
  ParseUUIDPipe,
  Post,
  Query,
  Redirect,
  Res,
} from '@nestjs/common';
import type { Response } from 'express';
import { z } from 'zod';
import type { Actor } from '../../../accounts/index.js';
import { CareCalendarService } from '../../../care-calendar/index.js';
import { SETTINGS, type Settings } from '../../../config/index.js';
import { addDays, isoDateOf } from '../../../core/units/civil-day.js';
import { Clock, instantText } from '../../../platform/clock.js';
import { HomeownersService, MailHolds, MailNotResendableError, OutboxService } from '../../../reminders/index.js';
import { CurrentActor, Roles } from '../../shell/access.js';
import { ZodPipe } from '../../shell/zod.pipe.js';
import { sendFramed } from './framed-mail.js';
import { messagePage, resendPage } from './message.view.js';
import { framedHtml, messageModel } from './message.view-model.js';
import { callListPage, messagesPage } from './messages.view.js';
import { callLine, KIND_WORDS, MAIL_VIEWS, type MailView, messagesModel } from './messages.view-model.js';

const MAILS_PER_PAGE = 50;
const WEEK_DAYS = 7;
const HTML = 'text/html; charset=utf-8';

/** What stands in the address of the list; nonsense there falls back instead of failing. */
const MessagesAddressSchema = z.object({
  view: z.enum(Object.keys(MAIL_VIEWS) as [MailView, ...MailView[]]).catch('all'),
  kind: z.enum(['all', ...(Object.keys(KIND_WORDS) as (keyof typeof KIND_WORDS)[])]).catch('all'),
  search: z.string().trim().max(200).catch(''),
  page: z.coerce.number().int().min(1).max(1_000_000).catch(1),
});
type MessagesQuery = z.output<typeof MessagesAddressSchema>;

const DidSchema = z.object({ did: z.enum(['resent']).optional().catch(undefined) });
type Did = z.output<typeof DidSchema>;

/** The mails of the company: what waits, what left, what came back, each as its homeowner sees it. */
@Controller('messages')
@Roles('owner', 'office')
export class MessagesController {
  constructor(
    private readonly outbox: OutboxService,
    private readonly homeowners: HomeownersService,
    private readonly calendar: CareCalendarService,
    private readonly holds: MailHolds,
    private readonly clock: Clock,
    @Inject(SETTINGS) private readonly settings: Settings,
  ) {}

  @Get()
  @Header('Content-Type', HTML)
  async list(
    @CurrentActor() actor: Actor,
    @Query(new ZodPipe(MessagesAddressSchema)) address: MessagesQuery,
  ): Promise<string> {
    const { companyId, timeZone } = actor;
    const { rows, total } = await this.outbox.list(companyId, {
      states: MAIL_VIEWS[address.view].states,
      kinds: address.kind === 'all' ? [] : [address.kind],
      text: address.search,
      skip: (address.page - 1) * MAILS_PER_PAGE,
      take: MAILS_PER_PAGE,
    });
    const counts = await this.outbox.counts(companyId);
    const toCall = (await this.homeowners.callList(companyId)).length;
    const progress = await this.outbox.progress(companyId, instantText(this.clock.now().minus({ days: 1 })));
    const holds = await this.holds.standing(companyId);
    const sendsMail = this.settings.smtp !== null && !actor.isDemo;
    const given = { pageSize: MAILS_PER_PAGE, timeZone, sendsMail };
    return messagesPage(actor, messagesModel({ rows, total, counts, toCall, progress, holds }, address, given));
  }

  @Get('calls')
  @Header('Content-Type', HTML)
  async calls(@CurrentActor() actor: Actor): Promise<string> {
    const rows = await this.homeowners.callList(actor.companyId);
    const today = this.clock.today(actor.timeZone);
    const week = { from: isoDateOf(today), to: isoDateOf(addDays(today, WEEK_DAYS - 1)) };
    const pondIds = [...new Set(rows.map(({ pond }) => pond.id))];
    const due = await this.calendar.dueForHomeowner(actor.companyId, pondIds, week);
    return callListPage(
      actor,
      rows.map((row) => callLine(row, due)),
    );
  }

  /** Stops all mail of the company within seconds. */
  @Post('hold')
  @HttpCode(303)
  @Redirect()
  async hold(@CurrentActor() actor: Actor): Promise<{ url: string; statusCode: number }> {
    await this.holds.hold(actor.companyId, 'paused', actor.personId);
    return { url: '/messages', statusCode: 303 };
  }

  @Post('release')
  @HttpCode(303)
  @Redirect()
  async release(@CurrentActor() actor: Actor): Promise<{ url: string; statusCode: number }> {
    await this.holds.release(actor.companyId);
    return { url: '/messages', statusCode: 303 };
  }

  @Get(':id')
  @Header('Content-Type', HTML)
  async show(
    @CurrentActor() actor: Actor,
    @Param('id', ParseUUIDPipe) id: string,
    @Query(new ZodPipe(DidSchema)) { did }: Did,
  ): Promise<string> {
    const model = await this.model(actor, id);
    return messagePage(actor, model, did === 'resent' ? 'The mail is on its way again.' : null);
  }

  /** The HTML part by itself, for the frame: nothing in it may run, load, or send. */
  @Get(':id/html')
  async html(
    @CurrentActor() actor: Actor,
    @Param('id', ParseUUIDPipe) id: string,
    @Res() response: Response,
  ): Promise<void> {
    const mail = await this.outbox.get(actor.companyId, id);
    sendFramed(response, framedHtml(mail));
  }

  @Get(':id/resend')
  @Header('Content-Type', HTML)
  async askResend(@CurrentActor() actor: Actor, @Param('id', ParseUUIDPipe) id: string): Promise<string> {
    const model = await this.model(actor, id);
    if (!model.mayResend) throw new MailNotResendableError(model.state);
    return resendPage(actor, model);
  }

  @Post(':id/resend')
  @HttpCode(303)
  @Redirect()
  async resend(
    @CurrentActor() actor: Actor,
    @Param('id', ParseUUIDPipe) id: string,
  ): Promise<{ url: string; statusCode: number }> {
    await this.outbox.resend(actor.companyId, id);
    return { url: `/messages/${id}?did=resent`, statusCode: 303 };
  }

  private async model(actor: Actor, id: string) {
    const mail = await this.outbox.get(actor.companyId, id);
    return messageModel(mail, actor.timeZone, this.outbox.mayResend(mail, actor.isDemo));
  }
}
