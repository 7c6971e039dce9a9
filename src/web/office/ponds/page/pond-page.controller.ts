import { Body, Controller, Get, Header, Inject, Param, ParseUUIDPipe, Post, Query, Res } from '@nestjs/common';
import type { Response } from 'express';
import type { Actor } from '../../../../accounts/index.js';
import { CARE_RULES } from '../../../../config/index.js';
import type { CareRule, ReadingQuantity } from '../../../../core/care/care-rule.js';
import { DomainError, InvalidValueError } from '../../../../core/errors.js';
import { celsiusFromF } from '../../../../core/units/celsius-fahrenheit.js';
import type { UnitSystem } from '../../../../core/units/show.js';
import { litresFromUsGal } from '../../../../core/units/volume-units.js';
import { PLAUSIBLE_READING, PondsService, ReadingsService } from '../../../../ponds/index.js';
import { typedFields } from '../../../forms/form-faults.js';
import { CurrentActor, Roles } from '../../../shell/access.js';
import { readNumber } from '../form/form-units.js';
import { localInstant } from './local-instant.js';
import { pondPage, type Undo } from './pond-page.view.js';
import { pondPageModel } from './pond-page.view-model.js';
import { PondPageDataService } from './pond-page-data.service.js';
import { typedUnit } from './readings.view-model.js';

const ID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/;

/** The page of a pond, and the acts that concern the pond itself. */
@Controller('ponds/:pondId')
@Roles('owner', 'office')
export class PondPageController {
  constructor(
    private readonly data: PondPageDataService,
    private readonly ponds: PondsService,
    private readonly readings: ReadingsService,
    @Inject(CARE_RULES) private readonly rules: readonly CareRule[],
  ) {}

  @Get()
  @Header('Content-Type', 'text/html; charset=utf-8')
  async show(
    @CurrentActor() actor: Actor,
    @Param('pondId', ParseUUIDPipe) pondId: string,
    @Query('did') did: unknown,
    @Query('task') taskId: unknown,
    @Query('event') eventId: unknown,
    @Query('kwh') price: unknown,
  ): Promise<string> {
    const data = await this.data.of(actor.companyId, pondId);
    const typedPrice = typeof price === 'string' ? price : '';
    return pondPage(
      actor,
      pondPageModel(data, this.rules, actor.units, {}, typedPrice),
      undoOf(pondId, String(did), taskId, eventId),
    );
  }

  @Post('readings')
  async addReading(
    @CurrentActor() actor: Actor,
    @Param('pondId', ParseUUIDPipe) pondId: string,
    @Res() response: Response,
    @Body() body: unknown,
  ): Promise<void> {
    const typed = typedFields(body);
    try {
      const { pond } = await this.ponds.get(actor.companyId, pondId);
      const reading = {
        ...storedReading(typed, actor.units),
        takenAt: localInstant(typed.takenAt ?? '', pond.timeZone),
        takenBy: actor.personId,
      };
      await this.readings.add(actor.companyId, pondId, [reading]);
      response.redirect(303, `/ponds/${pondId}?did=reading`);
    } catch (error) {
      if (!(error instanceof DomainError) || error.code === 'not-found') throw error;
      const data = await this.data.of(actor.companyId, pondId);
      const again = {
        quantity: typed.quantity ?? '',
        value: typed.value ?? '',
        takenAt: typed.takenAt ?? data.localNow,
        fault: error.message,
      };
      response
        .status(422)
        .type('html')
        .send(pondPage(actor, pondPageModel(data, this.rules, actor.units, again), null));
    }
  }

  @Post('archiving')
  async archive(
    @CurrentActor() actor: Actor,
    @Param('pondId', ParseUUIDPipe) pondId: string,
    @Res() response: Response,
  ): Promise<void> {
    await this.ponds.archive(actor.companyId, pondId);
    response.redirect(303, `/ponds/${pondId}?did=archived`);
  }

  @Post('restoring')
  async restore(
    @CurrentActor() actor: Actor,
    @Param('pondId', ParseUUIDPipe) pondId: string,
    @Res() response: Response,
  ): Promise<void> {
    await this.ponds.restore(actor.companyId, pondId);
    response.redirect(303, `/ponds/${pondId}?did=restored`);
  }

  @Post('sale')
  async sell(
    @CurrentActor() actor: Actor,
    @Param('pondId', ParseUUIDPipe) pondId: string,
    @Res() response: Response,
    @Body() body: unknown,
  ): Promise<void> {
    await this.ponds.sell(actor.companyId, pondId, typedFields(body).on ?? '');
    response.redirect(303, `/ponds/${pondId}?did=sold`);
  }
}

/** A reading in its stored unit. What is implausible is refused by the service, in words that fit what was typed. */
function storedReading(typed: Readonly<Record<string, string>>, units: UnitSystem) {
  const quantity = (
    Object.hasOwn(PLAUSIBLE_READING, typed.quantity ?? '') ? typed.quantity : 'water-temperature'
  ) as ReadingQuantity;
  const shown = readNumber(typed.value);
  if (shown === null || Number.isNaN(shown)) {
    throw new InvalidValueError('value', typed.value ?? '', 'Write it in figures, for example 7.4.');
  }
  const unit = typedUnit(quantity, units);
  if (unit === '°F') return { quantity, value: Math.round(celsiusFromF(shown) * 100) / 100 };
  return { quantity, value: unit === 'gal/h' ? Math.round(litresFromUsGal(shown)) : shown };
}

const DID_WORDS: Readonly<Record<string, string>> = {
  created: 'The pond is saved and its calendar is made.',
  saved: 'The pond is saved and its calendar is up to date.',
  reading: 'The reading is kept; the calendar has been looked at again.',
  happened: 'It is written down, and the calendar is worked out anew.',
  unhappened: 'It is taken back, and the calendar is as it was.',
  archived: 'The pond is archived.',
  restored: 'The pond is back in your care.',
  sold: 'The contacts have ended and their links are dead.',
  reopened: 'The task is open again.',
  held: 'The day is set and stays until you release it.',
  released: 'The day follows the forecast again.',
  done: 'Marked done. The next one is counted from that day.',
  'done-by-other-means': 'Closed as done by other means.',
  'not-applicable': 'Closed as not applicable here.',
};

/** What the last act did, and the way back where there is one. */
function undoOf(pondId: string, did: string, taskId: unknown, eventId: unknown): Undo | null {
  const text = DID_WORDS[did];
  if (text === undefined) return null;
  const task = typeof taskId === 'string' && ID.test(taskId) ? `/ponds/${pondId}/tasks/${taskId}` : null;
  if (did === 'happened' && typeof eventId === 'string' && ID.test(eventId))
    return { text, action: `/ponds/${pondId}/happened/${eventId}/taking-back` };
  if (did === 'archived') return { text, action: `/ponds/${pondId}/restoring` };
  if (did === 'restored') return { text, action: `/ponds/${pondId}/archiving` };
  if (task && did === 'held') return { text, action: `${task}/release` };
  return task && ['done', 'done-by-other-means', 'not-applicable'].includes(did)
    ? { text, action: `${task}/reopening` }
    : { text };
}
