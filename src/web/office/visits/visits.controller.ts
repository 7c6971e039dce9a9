import { Body, Controller, Get, NotFoundException, Param, Post, Query, Res } from '@nestjs/common';
import type { Response } from 'express';
import { z } from 'zod';
import { type Actor, PeopleService } from '../../../accounts/index.js';
import type { CivilDay } from '../../../core/units/civil-day.js';
import { Clock } from '../../../platform/clock.js';
import { PondsService } from '../../../ponds/index.js';
import { type VisitListQuery, VisitsService } from '../../../visits/index.js';
import { faultsOf, typedFields } from '../../forms/form-faults.js';
import { CurrentActor, Roles } from '../../shell/access.js';
import { ZodPipe } from '../../shell/zod.pipe.js';
import { csvText, exportedVisit, VISIT_COLUMNS } from './visit-export.js';
import { fieldOfFault } from './visit-faults.js';
import { visitListPage } from './visit-list.view.js';
import { VISITS_PER_PAGE, visitListModel } from './visit-list.view-model.js';
import { visitPlanPage } from './visit-plan.view.js';
import { type TypedPlan, visitPlanModel } from './visit-plan.view-model.js';
import { daysOfWeek, weekOf } from './visit-week.js';

/** What stands in the address of the list; nonsense there falls back instead of failing. */
export const VisitListAddressSchema = z.object({
  week: z.string().max(10).optional().catch(undefined),
  state: z.enum(['all', 'TENTATIVE', 'CONFIRMED', 'IN-PROCESS', 'COMPLETED', 'CANCELLED', 'flagged']).catch('all'),
  who: z.string().max(40).catch(''),
  search: z.string().trim().max(200).catch(''),
  from: z.iso.date().optional().catch(undefined),
  to: z.iso.date().optional().catch(undefined),
  page: z.coerce.number().int().min(1).max(100_000).catch(1),
});
export type VisitListQueryAddress = z.output<typeof VisitListAddressSchema>;

export const VisitPlanAddressSchema = z.object({
  pond: z.string().max(40).optional().catch(undefined),
  page: z.coerce.number().int().min(1).max(100_000).catch(1),
});
export type VisitPlanAddress = z.output<typeof VisitPlanAddressSchema>;

const EXPORTED_AT_ONCE = 200;

function queryOf(address: Omit<VisitListQueryAddress, 'week'> & { readonly week: CivilDay }): VisitListQuery {
  const { state, who, search, from, to, week } = address;
  const days = from !== undefined || to !== undefined ? { ...(from && { from }), ...(to && { to }) } : daysOfWeek(week);
  return {
    // What needs a look is not of one week.
    ...(state !== 'flagged' && days),
    ...(state === 'flagged' ? { isFlagged: true } : state !== 'all' && { states: [state] }),
    ...(who !== '' && { technicianId: who }),
    text: search,
  };
}

/** The office's list of visits, and the page where proposals become visits. */
@Controller('visits')
@Roles('owner', 'office')
export class VisitsController {
  constructor(
    private readonly visits: VisitsService,
    private readonly ponds: PondsService,
    private readonly people: PeopleService,
    private readonly clock: Clock,
  ) {}

  @Get()
  async list(
    @CurrentActor() actor: Actor,
    @Query(new ZodPipe(VisitListAddressSchema)) asked: VisitListQueryAddress,
    @Res() response: Response,
  ): Promise<void> {
    const today = this.clock.today(actor.timeZone);
    const address = { ...asked, week: weekOf(asked.week, today) };
    const page = { page: address.page, pageSize: VISITS_PER_PAGE };
    const found = await this.visits.list(actor.companyId, { ...queryOf(address), ...page });
    const people = await this.people.membersOf(actor.companyId);
    response.type('html').send(visitListPage(actor, visitListModel({ found, address, people, today })));
  }

  /** All visits the list has with these filters, not only its page. Days from and to take the place of the week. */
  @Get('export.:form')
  async export(
    @CurrentActor() actor: Actor,
    @Param('form') form: string,
    @Query(new ZodPipe(VisitListAddressSchema)) asked: VisitListQueryAddress,
    @Res() response: Response,
  ): Promise<void> {
    if (form !== 'csv' && form !== 'json') throw new NotFoundException('Visits are exported as CSV or as JSON.');
    const query = queryOf({ ...asked, week: weekOf(asked.week, this.clock.today(actor.timeZone)) });
    const rows: ReturnType<typeof exportedVisit>[] = [];
    for (let number = 1; ; number += 1) {
      const found = await this.visits.list(actor.companyId, { ...query, page: number, pageSize: EXPORTED_AT_ONCE });
      rows.push(...found.rows.map(exportedVisit));
      if (found.rows.length < EXPORTED_AT_ONCE) break;
    }
    response.setHeader('Content-Disposition', `attachment; filename="visits.${form}"`);
    if (form === 'json') response.json({ visits: rows });
    else response.type('text/csv; charset=utf-8').send(csvText(rows, VISIT_COLUMNS));
  }

  @Get('plan')
  async plan(
    @CurrentActor() actor: Actor,
    @Query(new ZodPipe(VisitPlanAddressSchema)) address: VisitPlanAddress,
    @Res() response: Response,
  ): Promise<void> {
    response.type('html').send(await this.planPage(actor, address));
  }

  /** Makes a proposal, as it was changed on the page, a visit; publishes it where that was pressed. */
  @Post()
  async create(@CurrentActor() actor: Actor, @Body() body: unknown, @Res() response: Response): Promise<void> {
    const typed = typedFields(body);
    try {
      const { visit } = await this.visits.create(
        actor.companyId,
        {
          pondId: typed.pondId ?? '',
          taskIds: (typed.task ?? '').split(',').filter((id) => id !== ''),
          plannedOn: typed.plannedOn ?? '',
          fromTime: typed.fromTime || null,
          toTime: typed.toTime || null,
          technicianId: typed.technicianId || null,
          officeNote: typed.note ?? '',
        },
        actor.personId,
      );
      const isPublished = typed.then === 'publish' && visit.technicianId !== null;
      if (isPublished) await this.visits.publish(actor.companyId, visit.id, undefined, actor.personId);
      const did = isPublished ? 'published' : typed.then === 'publish' ? 'planned-unpublished' : 'planned';
      response.redirect(303, `/visits/${visit.id}?did=${did}`);
    } catch (error) {
      const faults = faultsOf(error, fieldOfFault);
      const failed: TypedPlan = { key: typed.key ?? '', fields: typed, faults };
      const address = { page: 1, ...(typed.pondId && { pond: typed.pondId }) };
      response.status(422).type('html');
      response.send(await this.planPage(actor, address, failed));
    }
  }

  private async planPage(actor: Actor, address: VisitPlanAddress, typed?: TypedPlan): Promise<string> {
    const onePond = address.pond === undefined ? null : await this.ponds.pond(actor.companyId, address.pond);
    const model = visitPlanModel({
      proposals: await this.visits.proposalsFor(actor.companyId, address.pond ?? null),
      onePond,
      people: await this.people.membersOf(actor.companyId),
      today: this.clock.today(actor.timeZone),
      page: address.page,
      ...(typed && { typed }),
    });
    return visitPlanPage(actor, model);
  }
}
