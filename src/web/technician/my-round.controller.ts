import { Body, Controller, Get, Param, Post, Query, Res } from '@nestjs/common';
import type { Response } from 'express';
import type { Actor } from '../../accounts/index.js';
import { DomainError } from '../../core/errors.js';
import { addDays, isoDateOf } from '../../core/units/civil-day.js';
import { Clock } from '../../platform/clock.js';
import { newId } from '../../platform/ids.js';
import { ReadingsService } from '../../ponds/index.js';
import { VisitNotFoundError, type VisitReport, VisitsService } from '../../visits/index.js';
import { type FormFaults, typedFields } from '../forms/form-faults.js';
import { CurrentActor, Roles } from '../shell/access.js';
import { closedPage } from './closed-visit.view.js';
import { closingFromForm, type Typed } from './closing-form.js';
import { myRoundPage } from './my-round.view.js';
import { ROUND_AHEAD_DAYS, roundView } from './my-round.view-model.js';
import { PondSaidFor } from './pond-said-for.js';
import { readingFields } from './reading-fields.js';
import type { TaskCard } from './task-card.js';
import { TaskCards } from './task-cards.js';
import { visitPage } from './visit-page.view.js';
import { closedView, visitPageView } from './visit-page.view-model.js';

/** The technician's pages. Open to the office too: in a small company the owner goes out as well. */
@Controller('my-round')
@Roles('technician', 'office', 'owner')
export class MyRoundController {
  constructor(
    private readonly visits: VisitsService,
    private readonly readings: ReadingsService,
    private readonly cards: TaskCards,
    private readonly saidFor: PondSaidFor,
    private readonly clock: Clock,
  ) {}

  @Get()
  async round(@CurrentActor() actor: Actor, @Res() response: Response): Promise<void> {
    const { companyId, personId } = actor;
    const today = this.clock.today(actor.timeZone);
    const days = { from: isoDateOf(today), to: isoDateOf(addDays(today, ROUND_AHEAD_DAYS)) };
    const view = roundView({
      today,
      todayIn: (timeZone) => this.clock.today(timeZone),
      reports: await this.visits.roundFor(companyId, personId, days),
      leftOpen: await this.visits.leftOpen(companyId, personId, days.from),
      cardsOf: (report) => this.cardsOf(actor, report),
    });
    send(response, myRoundPage(actor, view));
  }

  @Get('visits/:visitId')
  async visit(
    @CurrentActor() actor: Actor,
    @Param('visitId') visitId: string,
    @Query('add') add: unknown,
    @Res() response: Response,
  ): Promise<void> {
    const report = await this.visits.get(actor.companyId, visitId);
    if (report.visit.state !== 'COMPLETED' || add !== undefined) {
      send(response, await this.openPage(actor, report, {}));
      return;
    }
    const view = closedView({
      history: await this.visits.history(actor.companyId, visitId),
      cards: this.cardsOf(actor, report),
      fields: readingFields(actor.units),
      about: await this.saidFor.of(actor.companyId, report.pond.pond, actor.units),
      today: this.clock.today(report.pond.pond.timeZone),
      place: await this.placeOf(actor, report),
    });
    send(response, closedPage(actor, view));
  }

  @Post('visits/:visitId/on-the-way')
  async setOut(
    @CurrentActor() actor: Actor,
    @Param('visitId') visitId: string,
    @Res() response: Response,
  ): Promise<void> {
    await this.visits.markOnTheWay(actor.companyId, visitId);
    response.redirect(303, `/my-round/visits/${visitId}`);
  }

  @Post('visits/:visitId/start')
  async start(
    @CurrentActor() actor: Actor,
    @Param('visitId') visitId: string,
    @Res() response: Response,
  ): Promise<void> {
    await this.visits.start(actor.companyId, visitId);
    response.redirect(303, `/my-round/visits/${visitId}`);
  }

  /** A field that cannot be used brings the page back with all that was typed. */
  @Post('visits/:visitId/closing')
  async close(
    @CurrentActor() actor: Actor,
    @Param('visitId') visitId: string,
    @Body() body: unknown,
    @Res() response: Response,
  ): Promise<void> {
    const typed = typedFields(body);
    const report = await this.visits.get(actor.companyId, visitId);
    const cards = this.cardsOf(actor, report);
    const read = closingFromForm(typed, { cards, fields: readingFields(actor.units), now: this.clock.instant() });
    const faults = 'faults' in read ? read.faults : await this.faultsOfClosing(actor, visitId, read.closing);
    if (faults === null) {
      response.redirect(303, `/my-round/visits/${visitId}`);
      return;
    }
    response.status(422);
    send(response, await this.openPage(actor, report, typed, faults));
  }

  private async faultsOfClosing(
    actor: Actor,
    visitId: string,
    closing: Parameters<VisitsService['close']>[2],
  ): Promise<FormFaults | null> {
    try {
      await this.visits.close(actor, visitId, closing);
      return null;
    } catch (error) {
      if (!(error instanceof DomainError) || error instanceof VisitNotFoundError) throw error;
      return { '': error.message };
    }
  }

  private async openPage(actor: Actor, report: VisitReport, typed: Typed, faults: FormFaults = {}): Promise<string> {
    const { companyId, units } = actor;
    const { visit, pond } = report;
    const view = visitPageView({
      report,
      cards: this.cardsOf(actor, report),
      fields: readingFields(units),
      latest: await this.readings.latest(companyId, visit.pondId),
      about: await this.saidFor.of(companyId, pond.pond, units),
      today: this.clock.today(pond.pond.timeZone),
      place: await this.placeOf(actor, report),
      closingId: typed.closingId || newId(this.clock.now().toMillis()),
      typed,
      faults,
    });
    return visitPage(actor, view);
  }

  private cardsOf(actor: Actor, report: VisitReport): TaskCard[] {
    return this.cards.of(
      report.tasks.map(({ care }) => care),
      actor.units,
    );
  }

  /** Which of how many on that day's round. */
  private async placeOf(actor: Actor, { visit }: VisitReport): Promise<{ number: number; of: number }> {
    const technicianId = visit.technicianId ?? actor.personId;
    const round = await this.visits.roundFor(actor.companyId, technicianId, visit.plannedOn);
    return { number: round.findIndex((stop) => stop.visit.id === visit.id) + 1, of: round.length };
  }
}

/** Pages beside a pond name people and places: nothing between here and the phone keeps them. */
function send(response: Response, page: string): void {
  response.setHeader('Cache-Control', 'private, no-store');
  response.type('html').send(page);
}
