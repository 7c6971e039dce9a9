import { Controller, Get, Param, ParseUUIDPipe, Post, Query, Res } from '@nestjs/common';
import type { Response } from 'express';
import { z } from 'zod';
import type { Actor } from '../../../accounts/index.js';
import { CareCalendarService } from '../../../care-calendar/index.js';
import { addDays, isoDateOf } from '../../../core/units/civil-day.js';
import { Clock } from '../../../platform/clock.js';
import { PondsService } from '../../../ponds/index.js';
import { AskedTasks, HomeownersService, HomeownerWords, OutboxService } from '../../../reminders/index.js';
import { VisitsService } from '../../../visits/index.js';
import { CurrentActor, Roles } from '../../shell/access.js';
import { ZodPipe } from '../../shell/zod.pipe.js';
import { weekPage } from './week.view.js';
import { weekModel } from './week.view-model.js';
import { WeekVisitsService } from './week-visits.service.js';

const MAIL_SHOWN = 20;

const SettledSchema = z.object({ settled: z.uuid().optional().catch(undefined) });
type Settled = z.output<typeof SettledSchema>;

/** The start page: what needs a decision. A technician starts with their round instead. */
@Controller()
export class WeekController {
  constructor(
    private readonly calendar: CareCalendarService,
    private readonly ponds: PondsService,
    private readonly visits: VisitsService,
    private readonly outbox: OutboxService,
    private readonly homeowners: HomeownersService,
    private readonly asked: AskedTasks,
    private readonly words: HomeownerWords,
    private readonly weekVisits: WeekVisitsService,
    private readonly clock: Clock,
  ) {}

  @Get()
  @Roles('owner', 'office', 'technician')
  async show(
    @CurrentActor() actor: Actor,
    @Query(new ZodPipe(SettledSchema)) { settled }: Settled,
    @Res() response: Response,
  ): Promise<void> {
    if (actor.role === 'technician') return response.redirect(303, '/my-round');
    const { companyId, timeZone } = actor;
    const today = this.clock.today(timeZone);
    const monday = addDays(today, -((((today + 3) % 7) + 7) % 7));
    const [week, visits, troubled, callList, ponds, unanswered, said, left] = await Promise.all([
      this.calendar.thisWeek(companyId),
      this.visits.list(companyId, {
        from: isoDateOf(monday),
        to: isoDateOf(addDays(monday, 6)),
        states: ['TENTATIVE', 'CONFIRMED', 'IN-PROCESS'],
        pageSize: 1,
      }),
      this.outbox.list(companyId, { states: ['bounced', 'dead', 'in_doubt'], skip: 0, take: MAIL_SHOWN }),
      this.homeowners.callList(companyId),
      this.ponds.list(companyId, { pageSize: 1 }),
      this.asked.unanswered(companyId),
      this.words.open(companyId),
      this.weekVisits.of(companyId, today, timeZone),
    ]);
    const data = {
      today,
      timeZone,
      week,
      visitsPlanned: visits.total,
      troubledMail: troubled.rows,
      callList,
      unanswered,
      said,
      left,
      ponds: ponds.total,
    };
    response.type('html').send(weekPage(actor, weekModel(data, actor.units), settled ?? null));
  }

  @Post('homeowner-words/:wordId/settling')
  @Roles('owner', 'office')
  async settle(
    @CurrentActor() actor: Actor,
    @Param('wordId', ParseUUIDPipe) wordId: string,
    @Res() response: Response,
  ): Promise<void> {
    await this.words.settle(actor.companyId, wordId, actor.personId);
    response.redirect(303, `/?settled=${wordId}`);
  }

  @Post('homeowner-words/:wordId/unsettling')
  @Roles('owner', 'office')
  async unsettle(
    @CurrentActor() actor: Actor,
    @Param('wordId', ParseUUIDPipe) wordId: string,
    @Res() response: Response,
  ): Promise<void> {
    await this.words.unsettle(actor.companyId, wordId);
    response.redirect(303, '/');
  }
}
