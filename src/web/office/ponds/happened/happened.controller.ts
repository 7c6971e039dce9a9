import { Body, Controller, Get, Header, Inject, Param, ParseUUIDPipe, Post, Query, Res } from '@nestjs/common';
import type { Response } from 'express';
import type { Actor } from '../../../../accounts/index.js';
import { CARE_RULES, CAUTIONS } from '../../../../config/index.js';
import type { CareRule } from '../../../../core/care/care-rule.js';
import type { Caution } from '../../../../core/care/caution.js';
import { isoDateOf } from '../../../../core/units/civil-day.js';
import { Clock } from '../../../../platform/clock.js';
import { newId } from '../../../../platform/ids.js';
import { PondEventsService, PondsService } from '../../../../ponds/index.js';
import { type FormFaults, faultsOf, typedFields } from '../../../forms/form-faults.js';
import { CurrentActor, Roles } from '../../../shell/access.js';
import { isUuid } from '../form/form-conclusions.service.js';
import { happenedPage } from './happened.view.js';
import { happenedModel, isRecordedByHand, type RecordedByHand } from './happened.view-model.js';

/** Facts of a pond that only people know: the power failed, fish came in, an algaecide was asked for. */
@Controller('ponds/:pondId/happened')
@Roles('owner', 'office')
export class HappenedController {
  constructor(
    private readonly ponds: PondsService,
    private readonly events: PondEventsService,
    private readonly clock: Clock,
    @Inject(CARE_RULES) private readonly rules: readonly CareRule[],
    @Inject(CAUTIONS) private readonly cautions: readonly Caution[],
  ) {}

  @Get()
  @Header('Content-Type', 'text/html; charset=utf-8')
  show(
    @CurrentActor() actor: Actor,
    @Param('pondId', ParseUUIDPipe) pondId: string,
    @Query('kind') kind: unknown,
  ): Promise<string> {
    return this.page(actor, pondId, isRecordedByHand(kind) ? kind : null, {}, {});
  }

  @Post()
  async record(
    @CurrentActor() actor: Actor,
    @Param('pondId', ParseUUIDPipe) pondId: string,
    @Res() response: Response,
    @Body() body: unknown,
  ): Promise<void> {
    const typed = typedFields(body);
    const kind = isRecordedByHand(typed.kind) ? typed.kind : null;
    if (kind === null) {
      response.redirect(303, `/ponds/${pondId}/happened`);
      return;
    }
    try {
      const id = await this.events.recordByHand(actor.companyId, pondId, {
        ...(isUuid(typed.id) && { id: typed.id }),
        kind,
        on: typed.on ?? '',
        note: typed.note?.trim() ?? '',
      });
      response.redirect(303, `/ponds/${pondId}?did=happened&event=${id}`);
    } catch (error) {
      const faults = faultsOf(error, (named) => (named === 'note' ? 'note' : 'on'));
      if ((error as { code?: string }).code === 'not-found') throw error;
      response
        .status(422)
        .type('html')
        .send(await this.page(actor, pondId, kind, typed, faults));
    }
  }

  @Post(':eventId/taking-back')
  async takeBack(
    @CurrentActor() actor: Actor,
    @Param('pondId', ParseUUIDPipe) pondId: string,
    @Param('eventId', ParseUUIDPipe) eventId: string,
    @Res() response: Response,
  ): Promise<void> {
    await this.events.takeBack(actor.companyId, pondId, eventId);
    response.redirect(303, `/ponds/${pondId}?did=unhappened`);
  }

  private async page(
    actor: Actor,
    pondId: string,
    kind: RecordedByHand | null,
    typed: Readonly<Record<string, string>>,
    faults: FormFaults,
  ): Promise<string> {
    const { pond } = await this.ponds.get(actor.companyId, pondId);
    const fields = {
      on: typed.on ?? isoDateOf(this.clock.today(pond.timeZone)),
      note: typed.note ?? '',
      id: isUuid(typed.id) ? typed.id : newId(),
    };
    const { rules, cautions } = this;
    return happenedPage(actor, happenedModel({ pond, rules, cautions, kind, typed: fields, faults }));
  }
}
