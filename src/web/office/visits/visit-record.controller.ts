import { Body, Controller, Get, Param, Post, Query, Res } from '@nestjs/common';
import type { Response } from 'express';
import { type Actor, PeopleService } from '../../../accounts/index.js';
import { CareCalendarService } from '../../../care-calendar/index.js';
import { DomainError } from '../../../core/errors.js';
import { Clock } from '../../../platform/clock.js';
import { VisitNotFoundError, VisitsService } from '../../../visits/index.js';
import { type FormFaults, faultsOf, typedFields } from '../../forms/form-faults.js';
import { CurrentActor, Roles } from '../../shell/access.js';
import { PondSaidFor } from '../../technician/pond-said-for.js';
import { readingFields } from '../../technician/reading-fields.js';
import { TaskCards } from '../../technician/task-cards.js';
import { correctedRecord } from './visit-correction.js';
import { fieldOfFault } from './visit-faults.js';
import { visitRecordPage } from './visit-record.view.js';
import { visitRecordModel } from './visit-record.view-model.js';

const DID: Readonly<Record<string, string>> = {
  planned: 'The visit is planned. Publish it when the homeowner may be told.',
  'planned-unpublished': 'The visit is planned, not published: nobody has it yet.',
  published: 'The visit is published.',
  assign: 'The visit has been given.',
  move: 'The visit has been moved.',
  cancel: 'The visit is cancelled; its tasks are free again.',
  reopen: 'The visit is open again. Both versions are kept.',
  tasks: 'The task is on the visit.',
  removal: 'The task is off the visit.',
  correction: 'The record is corrected. Every version is kept.',
  'flags-settled': 'Looked at.',
  'photo-removed': 'The photo is removed for good.',
};

type Typed = Readonly<Record<string, string>>;

/** The record of one visit, and the office's steps on it. Each step names the version it was looking at. */
@Controller('visits/:visitId')
@Roles('owner', 'office')
export class VisitRecordController {
  constructor(
    private readonly visits: VisitsService,
    private readonly calendar: CareCalendarService,
    private readonly people: PeopleService,
    private readonly cards: TaskCards,
    private readonly saidFor: PondSaidFor,
    private readonly clock: Clock,
  ) {}

  @Get()
  async show(
    @CurrentActor() actor: Actor,
    @Param('visitId') visitId: string,
    @Query('did') did: unknown,
    @Res() response: Response,
  ): Promise<void> {
    const said = typeof did === 'string' ? (DID[did] ?? null) : null;
    response.type('html').send(await this.recordPage(actor, visitId, said));
  }

  @Post('assign')
  assign(@CurrentActor() actor: Actor, @Param('visitId') id: string, @Body() body: unknown, @Res() response: Response) {
    return this.step(actor, id, 'assign', body, response, (typed, version) =>
      this.visits.assign(actor.companyId, id, typed.technicianId || null, version, actor.personId),
    );
  }

  @Post('move')
  move(@CurrentActor() actor: Actor, @Param('visitId') id: string, @Body() body: unknown, @Res() response: Response) {
    return this.step(actor, id, 'move', body, response, ({ plannedOn = '', fromTime, toTime }, version) =>
      this.visits.move(
        actor.companyId,
        id,
        { plannedOn, fromTime: fromTime || null, toTime: toTime || null },
        version,
        actor.personId,
      ),
    );
  }

  @Post('publish')
  publish(
    @CurrentActor() actor: Actor,
    @Param('visitId') id: string,
    @Body() body: unknown,
    @Res() response: Response,
  ) {
    return this.step(actor, id, 'published', body, response, (_, version) =>
      this.visits.publish(actor.companyId, id, version, actor.personId),
    );
  }

  @Post('cancel')
  cancel(@CurrentActor() actor: Actor, @Param('visitId') id: string, @Body() body: unknown, @Res() response: Response) {
    return this.step(actor, id, 'cancel', body, response, ({ why = '' }, version) =>
      this.visits.cancel(actor.companyId, id, why, version, actor.personId),
    );
  }

  @Post('reopen')
  reopen(@CurrentActor() actor: Actor, @Param('visitId') id: string, @Body() body: unknown, @Res() response: Response) {
    return this.step(actor, id, 'reopen', body, response, ({ why = '' }) => this.visits.reopen(actor, id, why));
  }

  @Post('correction')
  correct(
    @CurrentActor() actor: Actor,
    @Param('visitId') id: string,
    @Body() body: unknown,
    @Res() response: Response,
  ) {
    return this.step(actor, id, 'correction', body, response, async (typed, version) => {
      const history = await this.visits.history(actor.companyId, id);
      return this.visits.edit(actor, id, correctedRecord(history, readingFields(actor.units), typed), version);
    });
  }

  @Post('flags-settled')
  settleFlags(
    @CurrentActor() actor: Actor,
    @Param('visitId') id: string,
    @Body() body: unknown,
    @Res() response: Response,
  ) {
    return this.step(actor, id, 'flags-settled', body, response, () => this.visits.settleFlags(actor, id));
  }

  @Post('tasks')
  addTask(
    @CurrentActor() actor: Actor,
    @Param('visitId') id: string,
    @Body() body: unknown,
    @Res() response: Response,
  ) {
    return this.step(actor, id, 'tasks', body, response, ({ taskId = '' }, version) =>
      this.visits.addTask(actor.companyId, id, taskId, version, actor.personId),
    );
  }

  @Post('tasks/:taskId/removal')
  removeTask(
    @CurrentActor() actor: Actor,
    @Param('visitId') id: string,
    @Param('taskId') taskId: string,
    @Body() body: unknown,
    @Res() response: Response,
  ) {
    return this.step(actor, id, 'removal', body, response, (_, version) =>
      this.visits.removeTask(actor.companyId, id, taskId, version, actor.personId),
    );
  }

  /** Takes a step and goes back to the record; what cannot be done is said there, with what was typed. */
  private async step(
    actor: Actor,
    visitId: string,
    name: string,
    body: unknown,
    response: Response,
    act: (typed: Typed, version: number | undefined) => Promise<unknown>,
  ): Promise<void> {
    const typed = typedFields(body);
    const version = /^\d+$/.test(typed.version ?? '') ? Number(typed.version) : undefined;
    try {
      await act(typed, version);
      response.redirect(303, `/visits/${visitId}?did=${name}`);
    } catch (error) {
      if (!(error instanceof DomainError) || error instanceof VisitNotFoundError) throw error;
      const failed = { form: name, fields: faultsOf(error, fieldOfFault), typed };
      response.status(error.code === 'stale-version' || error.code === 'visit-already-closed' ? 409 : 422).type('html');
      response.send(await this.recordPage(actor, visitId, null, failed));
    }
  }

  private async recordPage(
    actor: Actor,
    visitId: string,
    did: string | null,
    failed?: { form: string; fields: FormFaults; typed: Typed },
  ): Promise<string> {
    const history = await this.visits.history(actor.companyId, visitId);
    const { pond } = history.pond;
    const open = await this.calendar.tasksOf(actor.companyId, pond.id);
    const cares = history.tasks.map(({ care }) => care);
    const model = visitRecordModel({
      history,
      cards: this.cards.of(cares, actor.units),
      addable: open.filter(({ task }) => task.doneBy === 'technician' && !task.routineLine && task.visitId === null),
      fields: readingFields(actor.units),
      about: await this.saidFor.of(actor.companyId, pond, actor.units),
      people: await this.people.membersOf(actor.companyId),
      actor,
      today: this.clock.today(pond.timeZone),
      ...(failed && { failed }),
    });
    return visitRecordPage(actor, model, did);
  }
}
