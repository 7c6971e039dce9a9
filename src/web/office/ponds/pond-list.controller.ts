import { Controller, Get, Header, Query, Res } from '@nestjs/common';
import type { Response } from 'express';
import { z } from 'zod';
import type { Actor } from '../../../accounts/index.js';
import { POND_SORTS, PondExportService, PondsService } from '../../../ponds/index.js';
import { CurrentActor, Roles } from '../../shell/access.js';
import { ZodPipe } from '../../shell/zod.pipe.js';
import { pondListPage } from './pond-list.view.js';
import { pondListModel } from './pond-list.view-model.js';

const PONDS_PER_PAGE = 50;

/** What stands in the address of the list; nonsense there falls back instead of failing. */
export const PondListAddressSchema = z.object({
  search: z.string().trim().max(200).catch(''),
  state: z.enum(['active', 'archived', 'all']).catch('active'),
  sort: z.enum(POND_SORTS).catch('name'),
  direction: z.enum(['ASC', 'DESC']).catch('ASC'),
  page: z.coerce.number().int().min(1).max(1_000_000).catch(1),
  did: z.string().max(40).optional().catch(undefined),
});
export type PondListAddress = z.output<typeof PondListAddressSchema>;

@Controller('ponds')
@Roles('owner', 'office')
export class PondListController {
  constructor(
    private readonly ponds: PondsService,
    private readonly exporting: PondExportService,
  ) {}

  @Get()
  @Header('Content-Type', 'text/html; charset=utf-8')
  async list(
    @CurrentActor() actor: Actor,
    @Query(new ZodPipe(PondListAddressSchema)) address: PondListAddress,
  ): Promise<string> {
    const { did: _did, ...asked } = address;
    const query = { ...asked, pageSize: PONDS_PER_PAGE };
    const found = await this.ponds.list(actor.companyId, query);
    return pondListPage(actor, pondListModel(found, query, actor.units), null);
  }

  @Get('export.csv')
  async export(@CurrentActor() actor: Actor, @Res() response: Response): Promise<void> {
    response.setHeader('Content-Type', 'text/csv; charset=utf-8');
    response.setHeader('Content-Disposition', 'attachment; filename="ponds.csv"');
    for await (const piece of this.exporting.exportCsv(actor.companyId)) {
      // A slow reader must not pile the whole file up in memory.
      if (!response.write(piece)) await drainedOrGone(response);
      if (response.destroyed) return;
    }
    response.end();
  }
}

function drainedOrGone(response: Response): Promise<void> {
  return new Promise((resolve) => {
    response.once('drain', resolve);
    response.once('close', resolve);
  });
}
