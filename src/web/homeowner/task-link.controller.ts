import { Body, Controller, Get, Param, Post, Res, UseFilters } from '@nestjs/common';
import type { Response } from 'express';
import { z } from 'zod';
import { CareWords, TaskAnswerError, TaskAnswers } from '../../reminders/index.js';
import { Public, WithoutFormToken } from '../shell/access.js';
import { ZodPipe } from '../shell/zod.pipe.js';
import { goTo, sendLinkPage } from './link-page.js';
import { OpenedLinks } from './opened-link.service.js';
import { taskDonePage, taskNotNowPage } from './task-link.view.js';
import { taskLinkModel } from './task-link.view-model.js';
import { UnknownLinkFilter } from './unknown-link.filter.js';

export const NotNowSchema = z.object({ until: z.iso.date({ error: 'until: choose one of the days.' }) });
export type NotNow = z.output<typeof NotNowSchema>;

/** Done and not now, straight from a mail. Opening a link changes nothing; only its button does. */
@Controller('l')
@Public()
@UseFilters(UnknownLinkFilter)
export class TaskLinkController {
  constructor(
    private readonly opened: OpenedLinks,
    private readonly answers: TaskAnswers,
    private readonly words: CareWords,
  ) {}

  @Get('task-done/:token')
  async showDone(@Param('token') token: string, @Res() response: Response): Promise<void> {
    const asked = await this.opened.task('task-done', token);
    sendLinkPage(response, taskDonePage(taskLinkModel(asked, this.words, this.answers), `/l/task-done/${token}`));
  }

  @Post('task-done/:token')
  @WithoutFormToken()
  async done(@Param('token') token: string, @Res() response: Response): Promise<void> {
    await this.answers.done(await this.opened.task('task-done', token));
    goTo(response, `/l/task-done/${token}`);
  }

  @Post('task-done/:token/undo')
  @WithoutFormToken()
  async undo(@Param('token') token: string, @Res() response: Response): Promise<void> {
    await this.answers.undo(await this.opened.task('task-done', token));
    goTo(response, `/l/task-done/${token}`);
  }

  @Get('task-not-now/:token')
  async showNotNow(@Param('token') token: string, @Res() response: Response): Promise<void> {
    const asked = await this.opened.task('task-not-now', token);
    sendLinkPage(response, taskNotNowPage(taskLinkModel(asked, this.words, this.answers), `/l/task-not-now/${token}`));
  }

  @Post('task-not-now/:token')
  @WithoutFormToken()
  async notNow(
    @Param('token') token: string,
    @Body(new ZodPipe(NotNowSchema)) { until }: NotNow,
    @Res() response: Response,
  ): Promise<void> {
    const path = `/l/task-not-now/${token}`;
    const asked = await this.opened.task('task-not-now', token);
    try {
      await this.answers.notNow(asked, until);
      goTo(response, path);
    } catch (error) {
      if (!(error instanceof TaskAnswerError)) throw error;
      const model = taskLinkModel(await this.opened.task('task-not-now', token), this.words, this.answers);
      sendLinkPage(response, taskNotNowPage(model, path, error.message), 422);
    }
  }
}
