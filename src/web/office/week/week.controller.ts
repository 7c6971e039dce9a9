import { Controller, Get, Res } from '@nestjs/common';
import type { Response } from 'express';
import type { Actor } from '../../../accounts/index.js';
import { CareCalendarService } from '../../../care-calendar/index.js';
import { addDays, isoDateOf } from '../../../core/units/civil-day.js';
import { Clock } from '../../../platform/clock.js';
import { PondsService } from '../../../ponds/index.js';
import { AskedTasks, HomeownersService, OutboxService } from '../../../reminders/index.js';
import { VisitsService } from '../../../visits/index.js';
import { CurrentActor, Roles } from '../../shell/access.js';
import { weekPage } from './week.view.js';
import { weekModel } from './week.view-model.js';

const MAIL_SHOWN = 20;

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
    private readonly clock: Clock,
  ) {}

  @Get()
  @Roles('owner', 'office', 'technician')
  async show(@CurrentActor() actor: Actor, @Res() response: Response): Promise<void> {
    if (actor.role === 'technician') return response.redirect(303, '/my-round');
    const { companyId, timeZone } = actor;
    const today = this.clock.today(timeZone);
    const monday = addDays(today, -((((today + 3) % 7) + 7) % 7));
    const [week, visits, troubled, callList, ponds, unanswered] = await Promise.all([
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
    ]);
    const data = {
      today,
      timeZone,
      week,
      visitsPlanned: visits.total,
      troubledMail: troubled.rows,
      callList,
      unanswered,
      ponds: ponds.total,
    };
    response.type('html').send(weekPage(actor, weekModel(data, actor.units)));
  }
}
