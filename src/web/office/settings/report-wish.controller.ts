import { Body, Controller, Post, Res } from '@nestjs/common';
import type { Response } from 'express';
import type { Actor } from '../../../accounts/index.js';
import { VisitSettings } from '../../../visits/index.js';
import { typedFields } from '../../forms/form-faults.js';
import { CurrentActor, Roles } from '../../shell/access.js';

/** How long a visit's report waits for the office. */
@Controller('settings/visit-reports')
@Roles('owner', 'office')
export class ReportWishController {
  constructor(private readonly settings: VisitSettings) {}

  @Post()
  async save(@CurrentActor() actor: Actor, @Body() body: unknown, @Res() response: Response): Promise<void> {
    const typed = (typedFields(body).reportHoldHours ?? '').trim();
    await this.settings.change(actor.companyId, { reportHoldHours: typed === '' ? 0 : Number(typed) });
    response.redirect(303, '/settings?did=reports#reports');
  }
}
