import { Body, Controller, Get, Header, Param, ParseUUIDPipe, Post, Query, Res } from '@nestjs/common';
import type { Response } from 'express';
import type { Actor } from '../../../../accounts/index.js';
import { newId } from '../../../../platform/ids.js';
import {
  type JudgedLeakTest,
  LeakTestsService,
  PondEventsService,
  type PondRecord,
  PondsService,
} from '../../../../ponds/index.js';
import { type FormFaults, typedFields } from '../../../forms/form-faults.js';
import { CurrentActor, Roles } from '../../../shell/access.js';
import { isUuid } from '../form/form-conclusions.service.js';
import type { TypedPond } from '../form/form-values.js';
import { leakTestPage } from './leak-test.view.js';
import { leakTestModel } from './leak-test.view-model.js';
import { judgingFault, readLeakTest, shownLeakTest } from './typed-leak-test.js';

interface Standing {
  readonly record: PondRecord;
  readonly kept: readonly JudgedLeakTest[];
}

/** Levels of a pond over some days, and whether they mean a leak. */
@Controller('ponds/:pondId/leak-test')
@Roles('owner', 'office')
export class LeakTestController {
  constructor(
    private readonly ponds: PondsService,
    private readonly events: PondEventsService,
    private readonly tests: LeakTestsService,
  ) {}

  /** The newest kept test, to go on with it; an empty form where there is none or a new one is wanted. */
  @Get()
  @Header('Content-Type', 'text/html; charset=utf-8')
  async show(
    @CurrentActor() actor: Actor,
    @Param('pondId', ParseUUIDPipe) pondId: string,
    @Query('new') isNew: unknown,
    @Query('did') did: unknown,
  ): Promise<string> {
    const standing = await this.standing(actor, pondId);
    const newest = isNew === undefined ? standing.kept.at(-1) : undefined;
    const { timeZone } = standing.record.pond;
    const typed = newest ? shownLeakTest(newest.test, actor.units, timeZone) : {};
    return this.page(actor, standing, { ...typed, id: newId() }, {}, newest ?? null, did === 'kept');
  }

  @Post()
  async keep(
    @CurrentActor() actor: Actor,
    @Param('pondId', ParseUUIDPipe) pondId: string,
    @Res() response: Response,
    @Body() body: unknown,
  ): Promise<void> {
    const typed = withId(typedFields(body));
    const standing = await this.standing(actor, pondId);
    const { record, kept } = standing;
    const isLook = typed.look !== undefined || typed.more !== undefined;
    const { test, faults } = readLeakTest(typed, actor.units, record.pond.timeZone);
    const send = (status: number, said: FormFaults, judged: JudgedLeakTest | null) =>
      response
        .status(status)
        .type('html')
        .send(this.page(actor, standing, typed, said, judged, false));

    if (test === null) {
      send(isLook ? 200 : 422, typed.more === undefined ? faults : {}, null);
      return;
    }
    try {
      const judged = this.tests.judge(record, test, kept);
      if (isLook) {
        send(200, {}, judged);
        return;
      }
      await this.tests.keep(actor.companyId, record, test, typed.id);
      response.redirect(303, `/ponds/${pondId}/leak-test?did=kept#verdict`);
    } catch (error) {
      send(isLook ? 200 : 422, judgingFault(error), null);
    }
  }

  private async standing(actor: Actor, pondId: string): Promise<Standing> {
    const [record, events] = await Promise.all([
      this.ponds.get(actor.companyId, pondId),
      this.events.list(actor.companyId, pondId),
    ]);
    return { record, kept: this.tests.kept(record, events) };
  }

  private page(
    actor: Actor,
    { record, kept }: Standing,
    typed: TypedPond,
    faults: FormFaults,
    judged: JudgedLeakTest | null,
    isKept: boolean,
  ): string {
    const evaporationMmPerDay = this.tests.evaporationNowMmPerDay(record);
    const model = { record, units: actor.units, typed, faults, judged, kept, evaporationMmPerDay, isKept };
    return leakTestPage(actor, leakTestModel(model));
  }
}

function withId(typed: TypedPond): TypedPond & { id: string } {
  return { ...typed, id: isUuid(typed.id) ? typed.id : newId() };
}
