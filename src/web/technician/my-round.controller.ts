import { Body, Controller, Get, Param, Post, Query, Res } from '@nestjs/common';
import type { Response } from 'express';
import type { Actor } from '../../accounts/index.js';
import { DomainError } from '../../core/errors.js';
import { Clock } from '../../platform/clock.js';
import { uuidOf, VisitNotFoundError, VisitsService } from '../../visits/index.js';
import { type FormFaults, typedFields } from '../forms/form-faults.js';
import { CurrentActor, Roles } from '../shell/access.js';
import { closingFromForm } from './closing-form.js';
import { readingFields } from './reading-fields.js';
import { RoundPages } from './round-pages.js';

/** The technician's pages. Open to the office too: in a small company the owner goes out as well. */
@Controller('my-round')
@Roles('technician', 'office', 'owner')
export class MyRoundController {
  constructor(
    private readonly pages: RoundPages,
    private readonly visits: VisitsService,
    private readonly clock: Clock,
  ) {}

  /** With `?keep=1` as a phone keeps it. */
  @Get()
  async round(@CurrentActor() actor: Actor, @Query('keep') keep: unknown, @Res() response: Response): Promise<void> {
    send(response, await this.pages.round(actor, { isKept: keep !== undefined }));
  }

  @Get('visits/:visitId')
  async visit(
    @CurrentActor() actor: Actor,
    @Param('visitId') visitId: string,
    @Query() query: Readonly<Record<string, unknown>>,
    @Res() response: Response,
  ): Promise<void> {
    const options = { isAddition: query.add !== undefined, isKept: query.keep !== undefined };
    send(response, await this.pages.visit(actor, visitId, options));
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
    const read = closingFromForm(typed, {
      cards: this.pages.cardsOf(actor, report),
      fields: readingFields(actor.units),
      now: this.clock.instant(),
      // The same figure posted twice is one reading; another figure in the same field is another one.
      idOf: (thing) => uuidOf(`${typed.closingId ?? ''}\n${thing}`),
      units: actor.units,
      plannedOn: report.visit.plannedOn,
    });
    const faults = 'faults' in read ? read.faults : await this.faultsOfClosing(actor, visitId, read.closing);
    if (faults === null) {
      response.redirect(303, `/my-round/visits/${visitId}`);
      return;
    }
    response.status(422);
    send(response, await this.pages.openPage(actor, report, { typed, faults }));
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
}

/** Pages beside a pond name people and places: nothing between here and the phone keeps them. */
function send(response: Response, page: string): void {
  response.setHeader('Cache-Control', 'private, no-store');
  response.type('html').send(page);
}
