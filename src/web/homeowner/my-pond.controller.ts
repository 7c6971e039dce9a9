import { Body, Controller, Get, Param, ParseUUIDPipe, Post, Query, Res, UseFilters } from '@nestjs/common';
import type { Response } from 'express';
import { z } from 'zod';
import { DomainError, InvalidValueError } from '../../core/errors.js';
import { celsiusFromF } from '../../core/units/celsius-fahrenheit.js';
import { civilDay } from '../../core/units/civil-day.js';
import { Clock } from '../../platform/clock.js';
import { ImplausibleReadingError, ReadingsService } from '../../ponds/index.js';
import {
  CareWords,
  DIGEST_HOURS,
  HomeownerWords,
  type MailWishes,
  MailWishesService,
  TaskAnswerError,
  TaskAnswers,
  VisitReportMails,
} from '../../reminders/index.js';
import { VisitsService } from '../../visits/index.js';
import { Public, WithoutFormToken } from '../shell/access.js';
import { ZodPipe } from '../shell/zod.pipe.js';
import { goTo, sendLinkPage } from './link-page.js';
import { MyPondReader } from './my-pond.reader.js';
import { type MyPondNotes, myPondPage, NO_NOTES } from './my-pond.view.js';
import { didWords, myPondModel } from './my-pond.view-model.js';
import { type OpenedLink, OpenedLinks } from './opened-link.service.js';
import { type NotNow, NotNowSchema } from './task-link.controller.js';
import { taskNotNowPage } from './task-link.view.js';
import { taskLinkModel } from './task-link.view-model.js';
import { temperatureTyped } from './temperature-typed.js';
import { UnknownLinkError, UnknownLinkFilter } from './unknown-link.filter.js';
import { visitReportPage } from './visit-report.view.js';

const DidSchema = z.object({
  did: z.string().max(20).optional().catch(undefined),
  task: z.uuid().optional().catch(undefined),
  until: z.iso.date().optional().catch(undefined),
});
type Did = z.output<typeof DidSchema>;

const TemperatureSchema = z.object({ temperature: z.string().max(20) });
type TemperatureForm = z.output<typeof TemperatureSchema>;

/** A day of a date field; left empty it is none. */
const QuietDay = z
  .union([z.iso.date(), z.literal('')], { error: 'quiet weeks: choose a day, or leave both empty.' })
  .default('');
const WishesSchema = z.object({
  weekday: z.coerce.number().int().min(1).max(7),
  hour: z.coerce.number().int().min(0).max(23),
  units: z.enum(['us', 'metric']),
  quietFrom: QuietDay,
  quietUntil: QuietDay,
});
type WishesForm = z.output<typeof WishesSchema>;

const SayingSchema = z.object({
  pondId: z.uuid({ error: 'pond: choose one of your ponds.' }),
  kind: z.enum(['question', 'visit-wish'], { error: 'kind: choose a question or a visit.' }),
  said: z.string().max(4000).default(''),
});
type SayingForm = z.output<typeof SayingSchema>;

/** The homeowner's own page, from the link in a mail. It reaches their ponds and the acts below, and nothing else. */
@Controller('l/my-pond/:token')
@Public()
@UseFilters(UnknownLinkFilter)
export class MyPondController {
  constructor(
    private readonly opened: OpenedLinks,
    private readonly reader: MyPondReader,
    private readonly words: CareWords,
    private readonly answers: TaskAnswers,
    private readonly readings: ReadingsService,
    private readonly wishes: MailWishesService,
    private readonly said: HomeownerWords,
    private readonly visits: VisitsService,
    private readonly reports: VisitReportMails,
    private readonly clock: Clock,
  ) {}

  @Get()
  async show(
    @Param('token') token: string,
    @Query(new ZodPipe(DidSchema)) { did, task, until }: Did,
    @Res() response: Response,
  ): Promise<void> {
    const link = await this.open(token);
    const words = didWords(did, until ? civilDay(until) : null);
    const undoTaskId = did === 'done' && task && (await this.mayUndo(link, task)) ? task : null;
    sendLinkPage(response, await this.page(link, token, { ...NO_NOTES, did: words, undoTaskId }));
  }

  @Post('tasks/:taskId/done')
  @WithoutFormToken()
  async done(
    @Param('token') token: string,
    @Param('taskId', ParseUUIDPipe) taskId: string,
    @Res() response: Response,
  ): Promise<void> {
    await this.answers.done(await this.opened.taskOf(await this.open(token), taskId));
    goTo(response, `${pathOf(token)}?did=done&task=${taskId}`);
  }

  @Post('tasks/:taskId/undo')
  @WithoutFormToken()
  async undo(
    @Param('token') token: string,
    @Param('taskId', ParseUUIDPipe) taskId: string,
    @Res() response: Response,
  ): Promise<void> {
    await this.answers.undo(await this.opened.taskOf(await this.open(token), taskId));
    goTo(response, `${pathOf(token)}?did=undone`);
  }

  @Get('tasks/:taskId/not-now')
  async askWhen(
    @Param('token') token: string,
    @Param('taskId', ParseUUIDPipe) taskId: string,
    @Res() response: Response,
  ): Promise<void> {
    const asked = await this.opened.taskOf(await this.open(token), taskId);
    const path = `${pathOf(token)}/tasks/${taskId}/not-now`;
    sendLinkPage(response, taskNotNowPage(taskLinkModel(asked, this.words, this.answers), path));
  }

  @Post('tasks/:taskId/not-now')
  @WithoutFormToken()
  async notNow(
    @Param('token') token: string,
    @Param('taskId', ParseUUIDPipe) taskId: string,
    @Body(new ZodPipe(NotNowSchema)) { until }: NotNow,
    @Res() response: Response,
  ): Promise<void> {
    const asked = await this.opened.taskOf(await this.open(token), taskId);
    try {
      await this.answers.notNow(asked, until);
      goTo(response, `${pathOf(token)}?did=later&until=${until}`);
    } catch (error) {
      if (!(error instanceof TaskAnswerError)) throw error;
      const path = `${pathOf(token)}/tasks/${taskId}/not-now`;
      sendLinkPage(response, taskNotNowPage(taskLinkModel(asked, this.words, this.answers), path, error.message), 422);
    }
  }

  @Post('ponds/:pondId/temperature')
  @WithoutFormToken()
  async temperature(
    @Param('token') token: string,
    @Param('pondId', ParseUUIDPipe) pondId: string,
    @Body(new ZodPipe(TemperatureSchema)) { temperature }: TemperatureForm,
    @Res() response: Response,
  ): Promise<void> {
    const link = await this.open(token);
    const { homeowner } = link;
    if (!homeowner.allPonds.some(({ id }) => id === pondId)) throw new UnknownLinkError();
    try {
      const typed = temperatureTyped(temperature);
      const value = homeowner.units === 'us' ? celsiusFromF(typed) : typed;
      await this.readings.add(homeowner.company.id, pondId, [
        { quantity: 'water-temperature', value, takenAt: this.clock.instant(), takenBy: homeowner.personId },
      ]);
      goTo(response, `${pathOf(token)}?did=temperature`);
    } catch (error) {
      if (!(error instanceof DomainError)) throw error;
      const fault = temperatureFault(error, temperature, homeowner.units);
      const notes = { ...NO_NOTES, temperature: { pondId, typed: temperature, fault } };
      sendLinkPage(response, await this.page(link, token, notes), 422);
    }
  }

  /** A question, or the wish for a visit: it reaches the office. */
  @Post('words')
  @WithoutFormToken()
  async say(
    @Param('token') token: string,
    @Body(new ZodPipe(SayingSchema)) form: SayingForm,
    @Res() response: Response,
  ): Promise<void> {
    const link = await this.open(token);
    const { homeowner } = link;
    if (!homeowner.allPonds.some(({ id }) => id === form.pondId)) throw new UnknownLinkError();
    try {
      await this.said.say(homeowner.company.id, { ...form, personId: homeowner.personId });
      goTo(response, `${pathOf(token)}?did=said`);
    } catch (error) {
      if (!(error instanceof DomainError)) throw error;
      const notes = { ...NO_NOTES, saying: { ...form, fault: error.message } };
      sendLinkPage(response, await this.page(link, token, notes), 422);
    }
  }

  @Post('wishes')
  @WithoutFormToken()
  async setWishes(
    @Param('token') token: string,
    @Body(new ZodPipe(WishesSchema)) wishes: WishesForm,
    @Res() response: Response,
  ): Promise<void> {
    const link = await this.open(token);
    const { homeowner } = link;
    // The page offers an hour outside the range only where it is the one that stands.
    const hour = Math.min(Math.max(wishes.hour, DIGEST_HOURS.min), DIGEST_HOURS.max);
    const { weekday, units } = wishes;
    try {
      const quiet = quietOf(wishes);
      await this.wishes.set(homeowner.company.id, homeowner.personId, { weekday, units, hour, quiet });
      goTo(response, `${pathOf(token)}?did=wishes`);
    } catch (error) {
      if (!(error instanceof DomainError)) throw error;
      const quiet = { from: wishes.quietFrom, until: wishes.quietUntil, fault: error.message };
      sendLinkPage(response, await this.page(link, token, { ...NO_NOTES, quiet }), 422);
    }
  }

  /** A report of a visit to one of these ponds. */
  @Get('visits/:visitId')
  async visit(
    @Param('token') token: string,
    @Param('visitId', ParseUUIDPipe) visitId: string,
    @Res() response: Response,
  ): Promise<void> {
    const { homeowner } = await this.open(token);
    const history = await this.visits.history(homeowner.company.id, visitId).catch(() => null);
    const isTheirs = homeowner.allPonds.some(({ id }) => id === history?.visit.pondId);
    if (!history || !isTheirs || history.visit.state !== 'COMPLETED') throw new UnknownLinkError();
    sendLinkPage(
      response,
      visitReportPage(homeowner, this.reports.spoken(history, homeowner.units), {
        backTo: pathOf(token),
        photos: [],
        pdf: null,
      }),
    );
  }

  private open(token: string): Promise<OpenedLink> {
    return this.opened.homeowner('my-pond', token);
  }

  private async mayUndo(link: OpenedLink, taskId: string): Promise<boolean> {
    return this.answers.mayUndo(await this.opened.taskOf(link, taskId));
  }

  private async page({ homeowner }: OpenedLink, token: string, notes: MyPondNotes): Promise<string> {
    const today = this.clock.today(homeowner.wish.timeZone);
    const model = myPondModel(homeowner, await this.reader.of(homeowner), this.words, today);
    return myPondPage(model, pathOf(token), notes);
  }
}

function quietOf({ quietFrom: from, quietUntil: until }: WishesForm): MailWishes['quiet'] {
  if (from === '' && until === '') return null;
  if (from === '' || until === '') {
    throw new InvalidValueError(
      'quiet weeks',
      from || until,
      'Choose the first and the last day, or leave both empty.',
    );
  }
  return { from, until };
}

function pathOf(token: string): string {
  return `/l/my-pond/${token}`;
}

function temperatureFault(error: DomainError, typed: string, units: 'us' | 'metric'): string {
  if (!(error instanceof ImplausibleReadingError)) return error.message;
  const [other, range] = units === 'us' ? ['°C', '30 to 108 °F'] : ['°F', '-1 to 42 °C'];
  return `${typed} cannot be the temperature of this water: ${range}. Was it ${other}?`;
}
