import { Controller, Get, Inject, Query, Res } from '@nestjs/common';
import type { Response } from 'express';
import type { Actor } from '../../accounts/index.js';
import { CARE_RULES, STATIONS } from '../../config/index.js';
import type { CareRule } from '../../core/care/care-rule.js';
import type { Station } from '../../core/climate/station.js';
import { typedFields } from '../forms/form-faults.js';
import { CurrentActor, Roles } from '../shell/access.js';
import { howItIsComputedPage } from './how-it-is-computed.view.js';
import { ADDRESS, howItIsComputedModel, type StationSources } from './how-it-is-computed.view-model.js';
import { STATION_SOURCES } from './station-sources.js';

/** Every formula, every unknown and every number of the rules, for whoever works with them. */
@Controller(ADDRESS)
@Roles('owner', 'office', 'technician')
export class HowItIsComputedController {
  constructor(
    @Inject(CARE_RULES) private readonly rules: readonly CareRule[],
    @Inject(STATIONS) private readonly stations: readonly Station[],
    @Inject(STATION_SOURCES) private readonly sources: StationSources,
  ) {}

  /** Answers 422 where a worked example has a figure that cannot be used; the page is the same. */
  @Get()
  show(@CurrentActor() actor: Actor, @Query() query: unknown, @Res() response: Response): void {
    const { rules, stations, sources } = this;
    const model = howItIsComputedModel({ fields: typedFields(query), rules, stations, sources });
    response
      .status(model.hasFaults ? 422 : 200)
      .type('html')
      .send(howItIsComputedPage(actor, model));
  }
}
