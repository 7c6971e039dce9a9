import { Body, Controller, Delete, Get, HttpCode, Param, ParseUUIDPipe, Post, Put, Query, Res } from '@nestjs/common';
import type { Response } from 'express';
import { z } from 'zod';
import type { Actor } from '../../accounts/index.js';
import { CareCalendarService } from '../../care-calendar/index.js';
import type { ReadingQuantity } from '../../core/care/care-rule.js';
import {
  PLAUSIBLE_READING,
  POND_SORTS,
  type PondInput,
  PondInputSchema,
  PondsService,
  pondInputOf,
  ReadingsService,
} from '../../ponds/index.js';
import { CurrentActor, Roles } from '../shell/access.js';
import { ZodPipe } from '../shell/zod.pipe.js';
import { calendarJson, pondJson, pondSummaryJson, readingJson } from './pond-json.js';

const QUANTITIES = Object.keys(PLAUSIBLE_READING) as [ReadingQuantity, ...ReadingQuantity[]];

export const PondsQuerySchema = z.strictObject({
  search: z.string().max(200).optional(),
  state: z.enum(['active', 'archived', 'all']).optional(),
  sort: z.enum(POND_SORTS).optional(),
  direction: z.enum(['ASC', 'DESC']).optional(),
  page: z.coerce.number().int().min(1).optional(),
  pageSize: z.coerce.number().int().min(1).max(200).optional(),
});
export type PondsQuery = z.output<typeof PondsQuerySchema>;

/** A change names the version it was made from, so that nobody's newer one is lost. */
export const PondChangeSchema = z.strictObject({ version: z.int().min(1), pond: PondInputSchema });
export type PondChange = z.output<typeof PondChangeSchema>;

export const ReadingsBodySchema = z.strictObject({
  readings: z
    .array(
      z.strictObject({
        id: z.uuid().optional(),
        quantity: z.enum(QUANTITIES),
        value: z.number(),
        takenAt: z.iso.datetime({
          offset: true,
          error: 'takenAt: an instant with its offset, such as 2026-10-05T17:40:00-05:00.',
        }),
        replacesId: z.uuid().nullable().optional(),
      }),
    )
    .min(1)
    .max(200),
});
export type ReadingsBody = z.output<typeof ReadingsBodySchema>;

/** Ponds as JSON, in stored units. The same schemas as the page and the CSV file; problems as RFC 9457 documents. */
@Controller('api/ponds')
@Roles('owner', 'office')
export class PondsApiController {
  constructor(
    private readonly ponds: PondsService,
    private readonly readings: ReadingsService,
    private readonly calendar: CareCalendarService,
  ) {}

  @Get()
  async list(@CurrentActor() actor: Actor, @Query(new ZodPipe(PondsQuerySchema)) query: PondsQuery) {
    const { rows, total } = await this.ponds.list(actor.companyId, query);
    return { total, page: query.page ?? 1, pageSize: query.pageSize ?? 50, ponds: rows.map(pondSummaryJson) };
  }

  @Post()
  async create(
    @CurrentActor() actor: Actor,
    @Res({ passthrough: true }) response: Response,
    @Body(new ZodPipe(PondInputSchema)) input: PondInput,
  ) {
    const id = await this.ponds.create(actor.companyId, input);
    response.setHeader('Location', `/api/ponds/${id}`);
    return this.get(actor, id);
  }

  @Get(':pondId')
  async get(@CurrentActor() actor: Actor, @Param('pondId', ParseUUIDPipe) pondId: string) {
    const record = await this.ponds.get(actor.companyId, pondId);
    return pondJson(record, pondInputOf(record));
  }

  @Put(':pondId')
  async change(
    @CurrentActor() actor: Actor,
    @Param('pondId', ParseUUIDPipe) pondId: string,
    @Body(new ZodPipe(PondChangeSchema)) { version, pond }: PondChange,
  ) {
    await this.ponds.update(actor.companyId, pondId, pond, version);
    return this.get(actor, pondId);
  }

  /** Archives: nothing of a pond is ever thrown away. */
  @Delete(':pondId')
  @HttpCode(204)
  async archive(@CurrentActor() actor: Actor, @Param('pondId', ParseUUIDPipe) pondId: string): Promise<void> {
    await this.ponds.archive(actor.companyId, pondId);
  }

  @Get(':pondId/readings')
  async listReadings(@CurrentActor() actor: Actor, @Param('pondId', ParseUUIDPipe) pondId: string) {
    await this.ponds.pond(actor.companyId, pondId);
    return { readings: (await this.readings.list(actor.companyId, pondId)).map(readingJson) };
  }

  /** Sent twice with the same ids, readings are kept once. */
  @Post(':pondId/readings')
  async addReadings(
    @CurrentActor() actor: Actor,
    @Param('pondId', ParseUUIDPipe) pondId: string,
    @Body(new ZodPipe(ReadingsBodySchema)) body: ReadingsBody,
  ) {
    const readings = body.readings.map(({ id, replacesId, ...reading }) => ({
      ...reading,
      ...(id !== undefined && { id }),
      replacesId: replacesId ?? null,
      takenBy: actor.personId,
    }));
    return { added: await this.readings.add(actor.companyId, pondId, readings) };
  }

  @Get(':pondId/calendar')
  async careCalendar(@CurrentActor() actor: Actor, @Param('pondId', ParseUUIDPipe) pondId: string) {
    await this.ponds.pond(actor.companyId, pondId);
    const [tasks, outcome] = await Promise.all([
      this.calendar.tasksOf(actor.companyId, pondId),
      this.calendar.outcomeOf(actor.companyId, pondId),
    ]);
    return calendarJson(tasks, outcome);
  }
}
