import { Controller, Get, Header, Inject, Param, ParseUUIDPipe, Query } from '@nestjs/common';
import type { Actor } from '../../../../accounts/index.js';
import { YearAheadService } from '../../../../care-calendar/index.js';
import { ClimateService } from '../../../../climate/index.js';
import { CARE_RULES } from '../../../../config/index.js';
import type { CareRule } from '../../../../core/care/care-rule.js';
import { DomainError } from '../../../../core/errors.js';
import { type PondRecord, PondsService } from '../../../../ponds/index.js';
import type { Option } from '../../../forms/fields.js';
import type { FormFaults } from '../../../forms/form-faults.js';
import { faultsOf, typedFields } from '../../../forms/form-faults.js';
import { CurrentActor, Roles } from '../../../shell/access.js';
import { isAsked, readWhatIf, shownWhatIf } from './typed-what-if.js';
import { whatIfPage } from './what-if.view.js';
import { type WhatIfResult, whatIfResult } from './what-if.view-model.js';
import { whatIfForm } from './what-if-form.view.js';

const NEAR_STATIONS = 8;
const ALL_STATIONS = 10_000;

/** A question to a pond's calendar, asked and answered by GET: the address is the question, and nothing is stored. */
@Controller('ponds/:pondId/what-if')
@Roles('owner', 'office')
export class WhatIfController {
  constructor(
    private readonly ponds: PondsService,
    private readonly years: YearAheadService,
    private readonly climate: ClimateService,
    @Inject(CARE_RULES) private readonly rules: readonly CareRule[],
  ) {}

  @Get()
  @Header('Content-Type', 'text/html; charset=utf-8')
  async show(
    @CurrentActor() actor: Actor,
    @Param('pondId', ParseUUIDPipe) pondId: string,
    @Query() query: unknown,
  ): Promise<string> {
    const record = await this.ponds.get(actor.companyId, pondId);
    const asked = typedFields(query);
    const { result, faults } = isAsked(asked, record, actor.units)
      ? await this.answer(actor, record, asked)
      : { result: null, faults: {} };
    const typed = { ...shownWhatIf(record, actor.units), ...asked };
    const form = whatIfForm(record, { units: actor.units, typed, faults, stations: this.stations(record) });
    return whatIfPage(actor, { pondName: record.pond.name, form, result });
  }

  private async answer(
    actor: Actor,
    record: PondRecord,
    asked: Readonly<Record<string, string>>,
  ): Promise<{ readonly result: WhatIfResult | null; readonly faults: FormFaults }> {
    const stationOf = (id: string) => this.climate.station(id);
    const { whatIf, faults } = readWhatIf(asked, record, { units: actor.units, stationOf });
    if (whatIf === null) return { result: null, faults };
    try {
      const comparison = await this.years.whatIf(actor.companyId, record.pond.id, whatIf);
      return {
        result: whatIfResult(comparison, new Map(this.rules.map((rule) => [rule.id, rule])), actor.units),
        faults: {},
      };
    } catch (error) {
      if (!(error instanceof DomainError) || error.code === 'not-found') throw error;
      return { result: null, faults: { '': Object.values(faultsOf(error))[0] ?? error.message } };
    }
  }

  /** The nearest first, then all others by name. */
  private stations({ pond }: PondRecord): Option[] {
    const all = this.climate.stationsNear(pond.latitude, pond.longitude, pond.elevationM, ALL_STATIONS);
    const near = all.slice(0, NEAR_STATIONS);
    const far = all.slice(NEAR_STATIONS).sort((a, b) => a.station.name.localeCompare(b.station.name, 'en'));
    return [
      { value: '', label: 'Where it lies' },
      ...near.map(({ station, distanceKm }) => ({
        value: station.id,
        label: `${station.name}, ${Math.round(distanceKm)} km`,
      })),
      ...far.map(({ station }) => ({ value: station.id, label: `${station.name}, ${station.country}` })),
    ];
  }
}
